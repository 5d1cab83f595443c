"""`turfpair calc contact`: where on the face a ball on the ground is met."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import Any

from interview.commands.calc import note, quantity, system, tidy
from rules.golf.contact import centred_face_height, height_up_face
from rules.units import UNITS, System, words

HELP = "How far up the face a ball is met, and the height of the face whose centre would meet it."


def configure(parser: ArgumentParser) -> None:
    """Add the loft, the lie and the blow."""
    parser.add_argument("--loft", metavar="ANGLE", required=True, help="of the club, as '15 deg'")
    parser.add_argument(
        "--ball-raised",
        metavar="LENGTH",
        default="0 mm",
        help="how far the lie holds the ball above the path of the sole (0 mm: bare turf)",
    )
    parser.add_argument(
        "--attack", metavar="ANGLE", default="0 deg", help="a falling blow (below 0) takes loft off (0 deg)"
    )
    parser.add_argument(
        "--clearance",
        metavar="LENGTH",
        default="0 mm",
        help="of the leading edge above the ground when the sole rests on it (0 mm)",
    )


def _met(args: Namespace) -> tuple[float, float]:
    """Read the options; return the height up the face and the height of the face centred there, m."""
    given = (
        quantity(args.loft, "deg", "--loft"),
        quantity(args.ball_raised, "mm", "--ball-raised"),
        quantity(args.attack, "deg", "--attack"),
        quantity(args.clearance, "mm", "--clearance"),
    )
    return height_up_face(*given), centred_face_height(*given)


def compute(args: Namespace) -> dict[str, Any]:
    """Work out where the ball is met."""
    height, face = _met(args)
    millimetre = UNITS["mm"]
    return {
        "height_up_face_mm": tidy(millimetre.from_si(height)),
        "face_height_mm": tidy(millimetre.from_si(face)),
    }


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say where the ball is met, from which datum, and what should decide."""
    (height, face), units = _met(args), system(args)
    lines = [
        f"The ball is met {_mm(height, units)} up the face; a face {_mm(face, units)} high meets it at its "
        "centre.",
        "Both are measured up the face from the leading edge. Where a face is stated from the ground or the "
        "sole instead, the height of its leading edge (often 3 mm) shifts everything: use --clearance.",
        "Common practice for tight lies is a face of 30 to 32 mm. The judge is where the head's own centre "
        "of mass projects on its face; doubling the height is only a cross-check, for fairway woods.",
    ]
    if quantity(args.attack, "deg", "--attack") == 0.0:
        lines.append(
            "A falling blow takes loft off and meets the ball higher: about 1 mm at -3 deg, 2 mm at -6."
        )
    if quantity(args.ball_raised, "mm", "--ball-raised") > 0.0:
        lines.append(
            "A ball in grass is raised by less than the blades are high, since the sole sinks into them too."
        )
    return note(*lines)


def _mm(length: float, units: System) -> str:
    """Write a length on a face: in mm whatever the units, as faces are."""
    return words(length, "mm", units)
