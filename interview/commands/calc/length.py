"""`turfpair calc length`: one club by half inches, without a session: speed, strikes, carry, balance mass."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from interview.commands.calc import note, quantity, system, table, tidy
from interview.views.laws import flight_laws
from rules.bench import rules_of_thumb as thumb
from rules.bench.build import SETBACK, Build, Grip, Head, Shaft
from rules.bench.problems import BenchProblem, require
from rules.golf.air import density
from rules.golf.coefficients import LAWS
from rules.golf.contact import height_up_face
from rules.golf.flight import Flight, fly
from rules.golf.impact import Clubhead
from rules.golf.outcome import Outcomes, Play, Worth, play
from rules.golf.quadrature import Face, Lie, six_strikes
from rules.golf.speed import with_length
from rules.golf.strike import StrikePattern
from rules.units import UNITS, System, swing_weight_name, words

HELP = "A club by half inches: head speed, strike scatter, expected carry with its band, and balance mass."

_HALF, _EACH_WAY = 0.5 * UNITS["in"].factor, 3
_CLEAN = Outcomes(0.0, 0.0, 0.0)
_NO_MISHITS = Worth(0.0, 0.0, 0.0, 0.0, 0.0)
_DEFAULTS = (
    ("--loft", "ANGLE", None, "as delivered, not as stamped"),
    ("--attack", "ANGLE", "-2 deg", "up positive"),
    ("--shaft-length", "LENGTH", "46 in", "of the raw shaft"),
    ("--tip-trim", "LENGTH", "0 in", "off its tip"),
    ("--grip-mass", "MASS", "50 g", "of the grip"),
    ("--swing-weight", "READING", "D0", "to be kept at every length"),
    ("--setback", "LENGTH", "0.6 in", "how far short of the length mark the head's mass sits"),
    ("--scatter", "LENGTH", "10 mm", "one spread of the strikes, heel to toe, at the length told"),
    ("--scatter-high", "LENGTH", "6 mm", "the same, low to high"),
    ("--restitution", "E", "0.82", "of the head"),
    ("--speed-per-inch", "PERCENT", "0.6 %", "of head speed, 0.4 to 0.8"),
    ("--scatter-per-inch", "PERCENT", "6 %", "of the scatter, 4 to 8"),
)


def configure(parser: ArgumentParser) -> None:
    """Add the club as it is told, and what stands in for what was not."""
    parser.add_argument("--length", metavar="LENGTH", required=True, help="at which the speed was taken")
    parser.add_argument("--head-speed", metavar="SPEED", required=True, help="at that length")
    parser.add_argument("--head-mass", metavar="MASS", required=True, help="bare, its ports empty")
    parser.add_argument("--shaft-mass", metavar="MASS", required=True, help="raw, before it is cut")
    for option, kind, value, line in _DEFAULTS:
        told = "" if value is None else f" ({value})".replace("%", "%%")
        parser.add_argument(option, metavar=kind, default=value, required=value is None, help=line + told)


@dataclass(frozen=True)
class _Asked:
    """The options, read (SI)."""

    club: Build
    speed: float
    delivered: tuple[float, float]
    head: Clubhead
    pattern: StrikePattern
    target: float
    rates: tuple[float, float]


@dataclass(frozen=True)
class _Row:
    """One length."""

    length: float
    speed: float
    pattern: StrikePattern
    first: Play
    others: tuple[Play, ...]
    """By every other law of flight."""
    needed: float
    by_rule: float

    @property
    def band(self) -> tuple[float, float]:
        """Expected carry by the law that carries least far, and by the one that carries farthest."""
        carries = [play.expected for play in (self.first, *self.others)]
        return min(carries), max(carries)


def _asked(args: Namespace) -> _Asked:
    """Read the options; UnitError and Problem for what makes no sense."""

    def read(name: str, symbol: str) -> float:
        return quantity(getattr(args, name), symbol, "--" + name.replace("_", "-"))

    mass = require("head mass", read("head_mass", "g"), 0.05, 0.5, "g")
    shaft = Shaft(
        require("shaft mass", read("shaft_mass", "g"), 0.02, 0.2, "g"), read("shaft_length", "in"),
        tip_trim=read("tip_trim", "in"),
    )  # fmt: skip
    grip = Grip(require("grip mass", read("grip_mass", "g"), 0.01, 0.2, "g"))
    club = Build(read("length", "in"), Head(mass, read("setback", "in")), shaft, grip)
    return _Asked(
        club,
        read("head_speed", "mph"),
        (read("loft", "deg"), read("attack", "deg")),
        Clubhead(mass, read("restitution", ""), 0.2, 0.020, 1500e-7, 2300e-7),
        StrikePattern(0.0, 0.0, read("scatter", "mm"), read("scatter_high", "mm")),
        read("swing_weight", "points"),
        (read("speed_per_inch", "%"), read("scatter_per_inch", "%")),
    )


def _rows(asked: _Asked) -> Iterator[_Row]:
    """Yield the lengths that these parts allow, shortest first."""
    for step in range(-_EACH_WAY, _EACH_WAY + 1):
        try:
            club = replace(asked.club, length=asked.club.length + step * _HALF)
        except BenchProblem:
            continue
        yield _row(asked, club)


def _row(asked: _Asked, club: Build) -> _Row:
    """Build, balance and fly one length."""
    change, (speed_rate, scatter_rate) = club.length - asked.club.length, asked.rates
    speed = with_length(asked.speed, change, speed_rate)
    pattern = asked.pattern.at_length(change, scatter_rate)
    needed = club.need(asked.target)
    head = replace(asked.head, mass=club.head.mass + max(0.0, needed))
    loft, attack = asked.delivered
    met = height_up_face(loft - attack, 0.0, attack)
    strikes = six_strikes(pattern, (Lie(1.0, 0.0, 0.0),), Face(loft - attack, 2 * met, met), attack)
    first, *others = (
        play(speed, asked.delivered, head, strikes, _CLEAN, _NO_MISHITS, partial(_flown, law=law))
        for law in LAWS
    )
    by_rule = asked.club.need(asked.target) - thumb.head_mass_for_points(thumb.points_for_length(change))
    return _Row(club.length, speed, pattern, first, tuple(others), needed, by_rule)


def _flown(launch: Any, law: Any) -> Flight:
    """Fly a ball in air of 20 degC at sea level."""
    return fly(launch, density(293.15, 0.5, 0.0), law)


def compute(args: Namespace) -> dict[str, Any]:
    """Work every length out."""
    return {"rows": [_json(row) for row in _rows(_asked(args))], "law": "first"}


def _json(row: _Row) -> dict[str, Any]:
    """Return one length as a JSON object."""
    yard, gram, millimetre = UNITS["yd"], UNITS["g"], UNITS["mm"]
    return {
        "length_in": tidy(UNITS["in"].from_si(row.length)),
        "head_speed_mph": tidy(UNITS["mph"].from_si(row.speed)),
        "scatter_toe_mm": tidy(millimetre.from_si(row.pattern.sd_toe)),
        "scatter_high_mm": tidy(millimetre.from_si(row.pattern.sd_high)),
        "carry_yd": {
            "expected": tidy(yard.from_si(row.first.expected)),
            "centred": tidy(yard.from_si(row.first.centred.carry)),
            "low": tidy(yard.from_si(row.band[0])),
            "high": tidy(yard.from_si(row.band[1])),
        },
        "mass_needed_g": tidy(gram.from_si(row.needed)),
        "rule_of_thumb": {"mass_needed_g": tidy(gram.from_si(row.by_rule))},
    }


def text(result: dict[str, Any], args: Namespace) -> str:
    """Lay the lengths out, and say which figure to trust and why."""
    asked, units = _asked(args), system(args)
    head = ("  length", "speed", "spread", "carry", "centred", "to add", "by rule")
    rows = [_line(row, units, told=row.length == asked.club.length) for row in _rows(asked)]
    return f"{table(head, rows)}\n\n{note(*_notes(asked))}"


def _line(row: _Row, units: System, *, told: bool) -> tuple[str, ...]:
    """Write one length."""
    low, high = (words(carry, "yd", units, decimals=0) for carry in row.band)
    speed = UNITS["km/h" if units == "metric" else "mph"]
    return (
        f"{'>' if told else ' '} {words(row.length, 'in', units)}",
        f"{speed.from_si(row.speed):.1f} {speed.symbol}",
        f"{row.pattern.sd_toe * 1000:.1f} mm",
        low if low == high else f"{low.split()[0]} to {high}",
        words(row.first.centred.carry, "yd", units, decimals=0),
        f"{row.needed * 1000:.1f} g",
        f"{row.by_rule * 1000:.1f} g",
    )


def _notes(asked: _Asked) -> list[str]:
    """Which to trust, and what is left out."""
    speed_rate, scatter_rate = asked.rates
    lines = [
        f"To add: what {swing_weight_name(asked.target)} asks for, head, shaft and grip the same; below "
        "nought the head is that much too heavy. Trust the exact sum: the bench rule, counted from the "
        "length told (3 points for half an inch, 2 g a point), is right for a club of 39 in. Check it on the "
        "scale.",
        f"Speed goes by {speed_rate * 100:.2g} % an inch of one club's own length (0.4 to 0.8: published for "
        "drivers, common practice); the step from club to club of a set is another law. The scatter goes by "
        f"{scatter_rate * 100:.2g} % an inch, a house value (4 to 8): no published table was found. His own "
        "marks on the face decide.",
        "Carry: over his strikes about the line through the head's centre of mass, by "
        f"{flight_laws()}, 20 degC at sea level, the mass that is added behind the ball. Topped, thin and "
        "fat balls are left out, and so a shorter club gains more than this says.",
    ]
    if asked.club.head.setback == SETBACK:
        lines.append("The setback is assumed (0 to 1.4 in): calibrate it from your own finished clubs.")
    return lines
