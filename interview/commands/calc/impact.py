"""`turfpair calc impact`: ball speed, launch and spin from a blow, centred or not."""

from __future__ import annotations

import math
from argparse import ArgumentParser, Namespace
from dataclasses import dataclass, replace
from typing import Any

from interview.commands.calc import note, quantity, system, table, tidy
from rules.golf.flight import Launch
from rules.golf.impact import Clubhead, strike
from rules.problems import Problem
from rules.units import UNITS, System, words

HELP = "Ball speed, launch and spin from a blow of a free head on a ball."

LOWEST_LOFT = math.radians(1.0)
"""rad: under it a face is no golf club's."""


def configure(parser: ArgumentParser) -> None:
    """Add the blow, the head, and where it is struck."""
    parser.add_argument("--head-speed", metavar="SPEED", required=True, help="as '90 mph'")
    parser.add_argument("--loft", metavar="ANGLE", required=True, help="as delivered, not as stamped")
    parser.add_argument("--attack", metavar="ANGLE", default="0 deg", help="up positive (0 deg)")
    parser.add_argument("--head-mass", metavar="MASS", required=True, help="with its weights")
    parser.add_argument("--restitution", metavar="E", default="0.82", help="of this head (0.82)")
    parser.add_argument(
        "--spin-grip", metavar="E", default="0.2", help="along the face; 0 is a ball that just rolls (0.2)"
    )
    parser.add_argument("--toe", metavar="LENGTH", default="0 mm", help="strike toward the toe")
    parser.add_argument(
        "--high", metavar="LENGTH", default="0 mm", help="strike above the line through the centre of mass"
    )
    parser.add_argument("--moi-heel-toe", metavar="INERTIA", help="about the upright axis, '2300 g*cm2'")
    parser.add_argument("--moi-vertical", metavar="INERTIA", help="about the heel-toe axis, '1500 g*cm2'")
    parser.add_argument(
        "--cg-depth", metavar="LENGTH", default="0 mm", help="centre of mass behind the face (0)"
    )


@dataclass(frozen=True)
class _Blow:
    """The options, read."""

    speed: float
    loft: float
    attack: float
    head: Clubhead
    toe: float
    high: float


def _blow(args: Namespace) -> _Blow:
    """Read the options; Problem for a loft that is none, or an offset whose inertia is not given."""
    loft = quantity(args.loft, "deg", "--loft")
    if loft < LOWEST_LOFT:
        raise Problem(f"--loft: a delivered loft of {math.degrees(loft):g} deg is under 1 deg; check it")
    toe, high = quantity(args.toe, "mm", "--toe"), quantity(args.high, "mm", "--high")
    for offset, inertia, name, wanted in (
        (toe, args.moi_heel_toe, "--toe", "--moi-heel-toe"),
        (high, args.moi_vertical, "--high", "--moi-vertical"),
    ):
        if offset and inertia is None:
            raise Problem(f"{name}: an off-centre strike needs {wanted}; a fairway wood has about 2000 g*cm2")
    head = Clubhead(
        quantity(args.head_mass, "g", "--head-mass"),
        quantity(args.restitution, "", "--restitution"),
        quantity(args.spin_grip, "", "--spin-grip"),
        quantity(args.cg_depth, "mm", "--cg-depth"),
        _inertia(args.moi_vertical, "--moi-vertical"),
        _inertia(args.moi_heel_toe, "--moi-heel-toe"),
    )
    speed = quantity(args.head_speed, "mph", "--head-speed")
    return _Blow(speed, loft, quantity(args.attack, "deg", "--attack"), head, toe, high)


def _inertia(text: str | None, option: str) -> float:
    """Read an inertia; without one the head does not turn."""
    return math.inf if text is None else quantity(text, "g*cm2", option)


def _struck(blow: _Blow) -> Launch:
    """Strike the ball."""
    return strike(blow.speed, blow.loft, blow.attack, blow.head, blow.toe, blow.high)


def compute(args: Namespace) -> dict[str, Any]:
    """Strike the ball once."""
    launch = _struck(_blow(args))
    return {
        "ball_speed_mph": tidy(UNITS["mph"].from_si(launch.speed)),
        "launch_deg": tidy(UNITS["deg"].from_si(launch.angle)),
        "spin_rpm": tidy(UNITS["rpm"].from_si(launch.spin)),
    }


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say the launch, beside that of a centred strike where this one is not, and what to doubt."""
    blow, units = _blow(args), system(args)
    columns = [("as struck", _struck(blow))]
    if blow.toe or blow.high:
        columns.append(("centred", _struck(replace(blow, toe=0.0, high=0.0))))
    rows = [
        ("ball speed", *(words(one.speed, "mph", units) for _, one in columns)),
        ("launch", *(words(one.angle, "deg", units) for _, one in columns)),
        ("backspin", *(words(one.spin, "rpm", units) for _, one in columns)),
    ]
    head = ("", *(title for title, _ in columns))
    return "\n".join((table(head, rows), "", note(*_doubts(blow, units))))


def _doubts(blow: _Blow, units: System) -> list[str]:
    """How it was computed, and what it leaves out."""
    lines = [
        f"One blow of a free rigid head of {words(blow.head.mass, 'g', units)} at "
        f"{words(blow.speed, 'mph', units)}, {words(blow.loft - blow.attack, 'deg', units)} between face and "
        "path (Daish 1972, Penner 2001; off centre Cross & Nathan 2009).",
        "The loft is the one delivered. It is the largest unknown here: 2 degrees change more than any "
        "other figure; measure a few launches and believe them before this.",
    ]
    if blow.high < 0.0:
        lines.append(
            "A strike low on a real face loses more than this says: the face springs less near its edge, "
            "and turf takes its share."
        )
    if blow.toe:
        lines.append("A face is flat here: bulge, and the curve that gear effect gives, are left out.")
    return lines
