"""`turfpair calc loft`: what a closed or open face makes of a loft, by both views."""

from __future__ import annotations

import re
from argparse import ArgumentParser, Namespace
from typing import Any

from interview.commands.calc import note, quantity, system, table, tidy
from rules.bench.loft import EffectiveLoft, effective_loft, face_turn, offline
from rules.units import UNITS, UnitError, words

HELP = "Effective loft: what a head plays once its face is squared."

_CARRY = UNITS["yd"].to_si(180)
"""How far a ball is carried in the sentence on lie, m."""
_FACE = re.compile(r"^(?P<amount>.*?)\s*(?P<side>closed|open|square)?$", re.IGNORECASE)


def configure(parser: ArgumentParser) -> None:
    """Add loft, face and lie."""
    parser.add_argument("--loft", metavar="ANGLE", required=True, help="measured loft, as '18 deg'")
    parser.add_argument(
        "--face", metavar="FACE", required=True, help="'2 deg closed', '1 deg open' or 'square'"
    )
    parser.add_argument("--lie", metavar="ANGLE", default="57 deg", help="lie (57 deg unless given)")


def compute(args: Namespace) -> dict[str, Any]:
    """Square the face both ways."""
    lofts, degree = _lofts(args), UNITS["deg"]
    return {
        "effective_loft_deg": {
            "geometry": tidy(degree.from_si(lofts.geometry)),
            "bench_rule": tidy(degree.from_si(lofts.bench_rule)),
        }
    }


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say both views, and what lie would do to the same face."""
    lofts, units = _lofts(args), system(args)
    loft = quantity(args.loft, "deg", "--loft")
    turn = face_turn(loft, UNITS["deg"].to_si(1))
    rows = [
        (
            "loft with the face squared",
            words(lofts.geometry, "deg", units, decimals=2),
            words(lofts.bench_rule, "deg", units, decimals=2),
        )
    ]
    said = note(
        "Makers differ: bench charts count a degree for each degree of face; turning the head on its shaft "
        "gives about two thirds of one. Trust the geometry, and check it on the gauge with the face squared.",
        f"A degree of lie would turn this face {words(turn, 'deg', units, decimals=2)}, about "
        f"{words(offline(turn, _CARRY), 'yd', units, decimals=1)} to the side in "
        f"{words(_CARRY, 'yd', units, decimals=0)}: lie is the last thing to change.",
    )
    return f"{table(('', 'exact geometry', 'bench rule'), rows)}\n\n{said}"


def _lofts(args: Namespace) -> EffectiveLoft:
    """Read the options and square the face."""
    return effective_loft(
        quantity(args.loft, "deg", "--loft"), _closed(args.face), quantity(args.lie, "deg", "--lie")
    )


def _closed(text: str) -> float:
    """Read a face angle (rad), closed positive; a number wants its side said."""
    match = _FACE.match(text.strip())
    amount, side = (match["amount"], (match["side"] or "").lower()) if match else (text, "")
    if side == "square" and not amount:
        return 0.0
    angle = quantity(amount, "deg", "--face")
    if angle < 0 or (angle and side not in ("closed", "open")):
        raise UnitError(f"--face: '{text[:40]}' does not say which way; write '2 deg closed' or '2 deg open'")
    return -angle if side == "open" else angle
