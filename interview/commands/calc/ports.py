"""`turfpair calc ports`: which port takes how much, in the pieces at hand."""

from __future__ import annotations

import re
from argparse import ArgumentParser, Namespace
from typing import Any

from interview.commands.calc import note, quantity, system, table, tidy
from rules.bench.alternatives import Alternative, alternatives
from rules.bench.balance import mass_per_point
from rules.bench.build import SETBACK, Build, Grip, Head, Shaft
from rules.bench.direction import MISSES, direction_for, effect_words
from rules.bench.ports import PieceStock, Port, PortPlan, plan
from rules.bench.problems import require
from rules.bench.rules_of_golf import NO_CHANGE_IN_ROUND
from rules.units import UNITS, System, UnitError, words

HELP = "Which port takes how much: balance first, then the direction of the miss, then the fewest pieces."

_GRAM, _MM = UNITS["g"], UNITS["mm"]
_KNEE = 0.5
"""Points short from which other ways are worked out: what a club is built within (house setting)."""
_PORT = re.compile(r"^\s*(?P<name>[^=@]+?)\s*=\s*(?P<capacity>[^@]+?)\s*(?:@\s*(?P<place>.+))?$")
_COUNTED = re.compile(r"^(?P<mass>.+?)\s*[xX×]\s*(?P<count>\d{1,4})$")


def configure(parser: ArgumentParser) -> None:
    """Add need, ports, stock and miss."""
    parser.add_argument("--need", metavar="MASS", required=True, help="mass to add, as '13 g'")
    parser.add_argument(
        "--port",
        metavar="'NAME=CAPACITY @ T,U,B mm'",
        action="append",
        required=True,
        help="a port, its capacity and its place from the head's centre of mass: toeward, upward, backward; "
        "heel, toe, rear, front and hosel know their places",
    )
    parser.add_argument(
        "--stock", metavar="LIST", required=True, help="pieces, as '1.5x8,3x6,8' (no count: no limit)"
    )
    parser.add_argument("--head-mass", metavar="MASS", required=True, help="mass of the head")
    parser.add_argument(
        "--miss", choices=sorted({*MISSES, "left", "right"}), default="straight", help="the usual miss"
    )
    parser.add_argument("--hand", choices=("right", "left"), default="right", help="the golfer's hand")
    parser.add_argument(
        "--flight", choices=("low", "medium", "high"), default="medium", help="how high the golfer flies it"
    )
    club = parser.add_argument_group("the club, for what else would do where the ports cannot")
    club.add_argument("--length", metavar="LENGTH", default="42 in", help="playing length (42 in)")
    club.add_argument("--shaft-mass", metavar="MASS", default="70 g", help="of the raw shaft (70 g)")
    club.add_argument("--shaft-length", metavar="LENGTH", default="46 in", help="of the raw shaft (46 in)")
    club.add_argument("--grip-mass", metavar="MASS", default="50 g", help="of the grip (50 g)")


def compute(args: Namespace) -> dict[str, Any]:
    """Search the ports; `alternatives` is added only where they cannot hold what was asked."""
    found = _plan(args)
    shift, ways = found.cg_shift, _ways(args, found)
    result: dict[str, Any] = {
        "plan": {name: tidy(_GRAM.from_si(sum(masses))) for name, masses in found.pieces.items()},
        "pieces": {name: [tidy(_GRAM.from_si(m)) for m in masses] for name, masses in found.pieces.items()},
        "added_g": tidy(_GRAM.from_si(found.added)),
        "short_by_g": tidy(_GRAM.from_si(found.short_by)),
        "cg_shift_mm": {
            "toeward": tidy(_MM.from_si(shift.toeward)),
            "upward": tidy(_MM.from_si(shift.upward)),
            "backward": tidy(_MM.from_si(shift.backward)),
        },
    }
    return {**result, "alternatives": [_way_json(way) for way in ways]} if ways else result


def _way_json(way: Alternative) -> dict[str, Any]:
    """Return one way out as a JSON object."""
    symbol = "in" if way.kind == "longer" else "g"
    return {
        "kind": way.kind,
        f"amount_{symbol}": tidy(UNITS[symbol].from_si(way.amount)),
        "points": tidy(way.points),
        "leaves_points": tidy(way.leaves),
    }


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say what goes where, how well it balances, and how little the direction does."""
    found, units = _plan(args), system(args)
    rows = [
        (name, words(sum(masses), "g", units), " + ".join(words(m, "g", units) for m in masses) or "empty")
        for name, masses in found.pieces.items()
    ]
    lines = [_balance_line(found, args, units)]
    lines += [_way_line(way, units) for way in _ways(args, found)]
    if not found.proved:
        lines.append(
            "The search was cut short: this is the best plan met, not proved to be the best there is."
        )
    lines += [
        effect_words(found.cg_shift, units),
        "Lie, face angle and offset move a miss more: look at them first.",
        "Check it on the scale; tighten with a torque wrench, and again after the first range session.",
        f"Weights stay as they are during a round ({NO_CHANGE_IN_ROUND}).",
    ]
    return f"{table(('port', 'takes', 'pieces'), rows)}\n\n{note(*lines)}"


def _balance_line(found: PortPlan, args: Namespace, units: System) -> str:
    """Say what was added and what is left over, in grams and in points of this club."""
    added = words(found.added, "g", units)
    if abs(found.short_by) < 5e-6:
        return f"Added {added}: exactly what was asked for."
    length = quantity(args.length, "in", "--length")
    points = abs(found.short_by) / mass_per_point(length - SETBACK)
    way = "short" if found.short_by > 0 else "over"
    left = words(abs(found.short_by), "g", units, decimals=2)
    return f"Added {added}: {left} {way}, {points:.1f} points on a club of {words(length, 'in', units)}."


def _ways(args: Namespace, found: PortPlan) -> tuple[Alternative, ...]:
    """Return what else would bring the club to its target, each built anew; none where the ports do it."""
    length = quantity(args.length, "in", "--length")
    club = Build(
        length,
        Head(quantity(args.head_mass, "g", "--head-mass") + found.added),
        Shaft(
            quantity(args.shaft_mass, "g", "--shaft-mass"),
            quantity(args.shaft_length, "in", "--shaft-length"),
        ),
        Grip(quantity(args.grip_mass, "g", "--grip-mass")),
    )
    short = found.short_by / mass_per_point(club.head_position)
    return alternatives(club, club.reading.points + short) if short > _KNEE else ()


def _way_line(way: Alternative, units: System) -> str:
    """Say one way out, what it gives, and what it leaves."""
    amount = words(way.amount, "in" if way.kind == "longer" else "g", units)
    what = {
        "heavier_head": f"a head of {amount} with what is in it now",
        "lighter_grip": f"a grip of {amount}, which leaves the head as it is",
        "longer": f"a quarter inch more, {amount}",
    }.get(way.kind, way.name)
    left = (
        "on target"
        if abs(way.leaves) < 0.05
        else f"{abs(way.leaves):.1f} {'short' if way.leaves > 0 else 'over'}"
    )
    return f"Or {what}: {way.points:+.1f} points, {left}."


def _plan(args: Namespace) -> PortPlan:
    """Read the options and search."""
    need = require("mass to add", quantity(args.need, "g", "--need"), 0, 0.2, "g")
    return plan(
        need,
        [_port(text) for text in args.port],
        [_stock(text.strip()) for text in args.stock.split(",")],
        direction_for(args.miss, args.hand, args.flight),
        head_mass=quantity(args.head_mass, "g", "--head-mass"),
    )


def _port(text: str) -> Port:
    """Read one --port."""
    match = _PORT.match(text)
    if not match:
        raise UnitError(f"--port: '{text[:40]}' is not a name and a capacity, such as 'heel=12 g'")
    capacity = quantity(match["capacity"], "g", "--port")
    if match["place"] is None:
        return Port.named(match["name"], capacity)
    return Port(match["name"], capacity, *_place(match["place"]))


def _place(text: str) -> tuple[float, float, float]:
    """Read `30,-12,-8 mm`: a unit at the end goes for all three."""
    numbers = [part.strip() for part in text.split(",")]
    if len(numbers) != 3:
        raise UnitError(f"--port: a place is three numbers (toeward, upward, backward), not '{text[:40]}'")
    last = re.match(r"^[-+\d.]+\s*(\D*)$", numbers[2])
    symbol = (last[1].strip() if last else "") or "mm"
    toeward, upward, backward = (quantity(number, symbol, "--port") for number in numbers)
    quantity(f"1 {symbol}", "mm", "--port")
    return toeward, upward, backward


def _stock(text: str) -> PieceStock:
    """Read one entry of --stock, a mass with or without a count."""
    match = _COUNTED.match(text)
    mass = quantity(match["mass"] if match else text, "g", "--stock")
    return PieceStock(mass, int(match["count"]) if match else None)
