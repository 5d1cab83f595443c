"""`turfpair calc bore`: bottom of bore to ground, from measures of the head or from a dry fit."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import Any

from interview.commands.calc import note, quantity, system, tidy
from rules.bench.cuts import STANDARD_DEPTHS, bottom_to_ground, bottom_to_ground_dry
from rules.units import UNITS, UnitError, words

HELP = "Bottom of bore to ground, from hosel and insertion or from a dry fit."


def configure(parser: ArgumentParser) -> None:
    """Add both ways to find it."""
    parser.add_argument("--hosel-length", metavar="LENGTH", help="ground to the top of the hosel")
    parser.add_argument("--insertion", metavar="LENGTH", help="how deep the shaft goes in")
    parser.add_argument("--shaft-length", metavar="LENGTH", help="bare shaft, for a dry fit")
    parser.add_argument("--length-with-head", metavar="LENGTH", help="shaft with the head pushed on dry")


def compute(args: Namespace) -> dict[str, Any]:
    """Subtract."""
    return {"bottom_to_ground_in": tidy(UNITS["in"].from_si(_distance(args)))}


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say the distance and the standard depth nearest to it."""
    distance, units = _distance(args), system(args)
    nearest = min(STANDARD_DEPTHS, key=lambda depth: abs(depth - distance))
    return note(
        f"Bottom of bore to ground: {words(distance, 'in', units)}",
        f"Nearest standard depth: {words(nearest, 'in', units)} (0.5, 1.0 and 1.5 in are usual).",
        "A shaft that stops higher shows more of its soft tip: trim the tip by the difference from the depth "
        "your trim chart was made for.",
        "Push a dry fit home before you trust it, and measure again after the tip is cut.",
    )


def _distance(args: Namespace) -> float:
    """Find the distance whichever way was given (m)."""
    measured = _given(args, "hosel_length", "insertion")
    dry = _given(args, "shaft_length", "length_with_head")
    if measured == dry:
        raise UnitError(
            "give either --hosel-length and --insertion, or --shaft-length and --length-with-head of a dry "
            "fit"
        )
    if measured:
        return bottom_to_ground(
            quantity(args.hosel_length, "in", "--hosel-length"), quantity(args.insertion, "in", "--insertion")
        )
    return bottom_to_ground_dry(
        quantity(args.shaft_length, "in", "--shaft-length"),
        quantity(args.length_with_head, "in", "--length-with-head"),
    )


def _given(args: Namespace, first: str, second: str) -> bool:
    """Tell whether a pair of options was given; half a pair is refused."""
    one, other = getattr(args, first) is not None, getattr(args, second) is not None
    if one != other:
        missing = second if one else first
        raise UnitError(f"--{missing.replace('_', '-')} is missing: the two measures go together")
    return one
