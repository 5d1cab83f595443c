"""`turfpair calc flight`: carry, height and descent of a ball from its launch, with an honest band."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import dataclass
from typing import Any

from interview.commands.calc import note, quantity, system, table, tidy
from interview.views.laws import flight_laws
from rules.golf.air import density
from rules.golf.coefficients import LAWS, Law, rivals
from rules.golf.flight import Flight, Launch, fly
from rules.problems import Problem
from rules.units import UNITS, System, words

HELP = "Carry, height and descent of a ball from how it leaves the face, in still air over flat ground."


def configure(parser: ArgumentParser) -> None:
    """Add the launch and the air."""
    parser.add_argument("--ball-speed", metavar="SPEED", required=True, help="as '162 mph'")
    parser.add_argument("--launch", metavar="ANGLE", required=True, help="above the horizon, as '9.3 deg'")
    parser.add_argument("--spin", metavar="SPIN", required=True, help="backspin, as '3663 rpm'")
    parser.add_argument("--temperature", metavar="T", default="25 degC", help="of the air (25 degC)")
    parser.add_argument("--humidity", metavar="PERCENT", default="50 %", help="of the air (50 %%)")
    parser.add_argument("--altitude", metavar="HEIGHT", default="0 m", help="above the sea (0 m)")
    parser.add_argument("--law", choices=tuple(LAWS), default="first", help="published drag and lift (first)")


@dataclass(frozen=True)
class _Flown:
    """The flight by the law asked for, and those by every other law beside it."""

    law: Law
    air: float
    main: Flight
    others: dict[Law, Flight]

    @property
    def all(self) -> tuple[Flight, ...]:
        """Every flight, the one asked for first."""
        return (self.main, *self.others.values())

    @property
    def band(self) -> tuple[float, float]:
        """Carry by the law that carries least far, and by the one that carries farthest, m."""
        carries = [one.carry for one in self.all]
        return min(carries), max(carries)


def _flown(args: Namespace) -> _Flown:
    """Read the options and fly the ball by every law; Problem for a spin that is not backspin."""
    spin = quantity(args.spin, "rpm", "--spin")
    if spin < 0.0:
        raise Problem("--spin: backspin cannot be below 0; the laws of flight say nothing of topspin")
    launch = Launch(
        quantity(args.ball_speed, "mph", "--ball-speed"), quantity(args.launch, "deg", "--launch"), spin
    )
    air = density(
        quantity(args.temperature, "degC", "--temperature"),
        quantity(args.humidity, "%", "--humidity"),
        quantity(args.altitude, "m", "--altitude"),
    )
    others = {law: fly(launch, air, law) for law in rivals(args.law)}
    return _Flown(args.law, air, fly(launch, air, args.law), others)


def compute(args: Namespace) -> dict[str, Any]:
    """Fly the ball; `clipped` is added, and true, only when it left the range of the law."""
    flown = _flown(args)
    flight, yard = flown.main, UNITS["yd"]
    result: dict[str, Any] = {
        "carry_yd": tidy(yard.from_si(flight.carry)),
        "apex_yd": tidy(yard.from_si(flight.apex)),
        "apex_ft": tidy(UNITS["ft"].from_si(flight.apex)),
        "descent_deg": tidy(UNITS["deg"].from_si(flight.descent)),
        "time_s": tidy(flight.time),
        "carry_band_yd": [tidy(yard.from_si(carry)) for carry in flown.band],
        "law": flown.law,
    }
    return {**result, "clipped": True} if flight.clipped else result


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say the flight by every law, how it was computed, and what not to believe of it."""
    flown, units = _flown(args), system(args)
    if flown.main.time == 0.0:
        return note("That ball never leaves the ground: it starts level or downward, and runs.")
    rows = [
        ("carry", *(words(one.carry, "yd", units, decimals=0) for one in flown.all)),
        ("apex", *(_height(one, units) for one in flown.all)),
        ("descent", *(words(one.descent, "deg", units, decimals=0) for one in flown.all)),
        ("time", *(words(one.time, "s", units, decimals=1) for one in flown.all)),
    ]
    titles = [f"{law} law" for law in (flown.law, *flown.others)]
    return "\n".join((table(("", *titles), rows), "", note(*_faults(flown, units))))


def _height(flight: Flight, units: System) -> str:
    """Write an apex in feet, or in metres."""
    return words(flight.apex, "ft", units, decimals=0)


def _faults(flown: _Flown, units: System) -> list[str]:
    """How it was computed, and its known faults."""
    near, far = (words(carry, "yd", units, decimals=0) for carry in flown.band)
    names = ", ".join(f"the {law} law is {LAWS[law].title}" for law in (flown.law, *flown.others))
    faults = ", ".join(f"the {law} law carries {_fault(law, units)}" for law in LAWS)
    lines = [
        f"Still air of {flown.air:.3f} kg/m3, flat ground, a ball of the size and mass that the rules allow. "
        f"Of the {flight_laws()} {names}; none is tuned.",
        f"Believe a carry of {near} to {far}, leaning short: on published tour averages {faults}. Trust the "
        "first for carry and any for apex.",
        "Every law lands these clubs about 6 degrees too flat: use the descent to compare two clubs, not as "
        "the truth.",
    ]
    if flown.main.clipped:
        lines.append(
            f"CAUTION: this ball leaves what the {flown.law} law was measured for, and edge values stood in."
        )
    return lines


def _fault(law: Law, units: System) -> str:
    """Say by how much a law carries too far."""
    of = LAWS[law]
    bias, rms = (words(far, "yd", units, decimals=1) for far in (of.carry_bias, of.carry_rms))
    return f"{bias} too far (RMS {rms})"
