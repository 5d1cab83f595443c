"""`turfpair calc balance`: a finished club on the scale, or the parts of one."""

from __future__ import annotations

import re
from argparse import ArgumentParser, Namespace
from typing import Any

from interview.commands.calc import note, quantity, system, table, tidy
from rules.bench.balance import Balance, Part, balance, finished, mass_per_point
from rules.bench.rules_of_thumb import HEAD_PER_POINT
from rules.units import UNITS, UnitError, swing_weight_name, words

HELP = "Swing weight, total, balance point and inertia of a finished club or of its parts."

_PART = re.compile(r"^(?P<mass>[^@]+)@(?P<place>[^@]+?)(?:\s+long\s+(?P<length>[^@]+))?$")


def configure(parser: ArgumentParser) -> None:
    """Add the club or its parts."""
    parser.add_argument("--mass", metavar="MASS", help="the finished club on the scale, as '390 g'")
    parser.add_argument("--point", metavar="LENGTH", help="where it balances from the butt, as '29.5 in'")
    parser.add_argument(
        "--part",
        metavar="'MASS @ PLACE'",
        action="append",
        default=[],
        help="one part and its place from the butt, as '215 g @ 42.4 in'; a shaft may add 'long 41 in'",
    )


def compute(args: Namespace) -> dict[str, Any]:
    """Add up the club."""
    read = _read(args)
    return {
        "moment_oz_in": tidy(UNITS["oz*in"].from_si(read.moment)),
        "swing_weight": swing_weight_name(read.points),
        "points_from_D0": tidy(read.points),
        "total_g": tidy(UNITS["g"].from_si(read.total)),
        "balance_point_in": tidy(UNITS["in"].from_si(read.balance_point)),
        "inertia_kg_cm2": None if read.inertia is None else tidy(UNITS["kg*cm2"].from_si(read.inertia)),
    }


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say what the scale should read and what a gram is worth."""
    read, units = _read(args), system(args)
    inertia = "not known without its parts"
    if read.inertia is not None:
        inertia = words(read.inertia, "kg*cm2")
    rows = [
        ("swing weight", result["swing_weight"]),
        ("moment about 14 in", f"{result['moment_oz_in']:.2f} oz*in"),
        ("total", words(read.total, "g", units)),
        ("balance point from the butt", words(read.balance_point, "in", units, decimals=2)),
        ("inertia about the butt", inertia),
    ]
    return f"{table(rows[0], rows[1:])}\n\n{note(*_notes(args))}"


def _notes(args: Namespace) -> list[str]:
    """Say what a point weighs here, by the sum and by the bench rule, and what was left out."""
    at = max((part.position for part in _parts(args)), default=UNITS["in"].to_si(42))
    where = f"{UNITS['in'].from_si(at):.4g} in"
    exact, rule = words(mass_per_point(at), "g", decimals=2), words(HEAD_PER_POINT, "g")
    notes = [
        f"One point at {where} from the butt is {exact} by the exact sum and {rule} by the bench rule. "
        "Trust the sum: the rule is right for a club of 39 in. Check it on the scale.",
    ]
    if args.part and not any(part.length for part in _parts(args)):
        notes.append("Inertia takes each part as a point; add 'long 41 in' to the shaft for its own share.")
    return notes


def _read(args: Namespace) -> Balance:
    """Balance of the club as it was given, one way or the other."""
    whole = args.mass is not None or args.point is not None
    if whole == bool(args.part):
        raise UnitError(
            "give either --mass and --point of a finished club, or a --part for each of its parts"
        )
    if not whole:
        return balance(_parts(args))
    if args.mass is None or args.point is None:
        raise UnitError("a finished club wants both --mass and --point")
    return finished(quantity(args.mass, "g", "--mass"), quantity(args.point, "in", "--point"))


def _parts(args: Namespace) -> list[Part]:
    """Read every --part."""
    return [_part(text) for text in args.part]


def _part(text: str) -> Part:
    """Read one part, `MASS @ PLACE` with or without `long LENGTH`."""
    match = _PART.match(text.strip())
    if not match:
        raise UnitError(f"--part: '{text[:40]}' is not a mass and a place, such as '215 g @ 42.4 in'")
    mass, place, length = match["mass"].strip(), match["place"].strip(), match["length"]
    return Part(
        quantity(mass, "g", "--part"),
        quantity(place, "in", "--part"),
        quantity(length.strip(), "in", "--part") if length else 0.0,
    )
