"""Both ways of counting, on one club: the exact sum, and what the bench rule would have got wrong.

The bench rules (2 g a point, three points for half an inch, 5 g of grip, 9 g of shaft) are common practice
and right for a club of 39 in. Both are shown, and the scale decides.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.bench import rules_of_thumb as thumb
from rules.bench.balance import mass_per_point
from rules.units import parse

if TYPE_CHECKING:
    from rules.bench.build import Build

_HALF_INCH = parse("0.5 in", "m")
_GRIP = parse("5 g", "kg")
_SHAFT = parse("9 g", "kg")


@dataclass(frozen=True, slots=True)
class Count:
    """One figure by both ways (SI; points are points of swing weight)."""

    what: str
    """mass_per_point, mass_to_add, half_inch, lighter_grip or heavier_shaft."""
    exact: float
    rule: float
    symbol: str
    """Unit of the two figures."""
    off: float
    """Points by which the club would read too heavy if the bench rule were followed."""


def both_counts(build: Build, target: float) -> tuple[Count, ...]:
    """Return what the exact sum and the bench rule say of a club, and what the rule would cost.

    `target` is in points from D0. The mass to add is counted from the same club with empty ports; where
    it is too heavy already there is nothing to add, and both say by how much. Half an inch is cut from the
    finished club.
    """
    per_point = mass_per_point(build.head_position)
    bare = build.with_added()
    short = target - bare.reading.points
    exact, by_rule = bare.need(target), thumb.head_mass_for_points(short)
    return (
        Count("mass_per_point", per_point, thumb.HEAD_PER_POINT, "g", thumb.HEAD_PER_POINT / per_point - 1),
        Count("mass_to_add", exact, by_rule, "g", (by_rule - exact) / per_point),
        _moved("half_inch", _shorter(build), thumb.points_for_length(-_HALF_INCH)),
        _moved("lighter_grip", _lighter_grip(build), thumb.points_for_grip(-_GRIP)),
        _moved("heavier_shaft", _heavier_shaft(build), thumb.points_for_shaft(_SHAFT)),
    )


def _moved(what: str, exact: float, rule: float) -> Count:
    """Return a change by both ways; believing in the larger loss, the rule puts too much back."""
    return Count(what, exact, rule, "points", exact - rule)


def _shorter(build: Build) -> float:
    """Points that half an inch off the butt takes, by the sum."""
    return replace(build, length=build.length - _HALF_INCH).reading.points - build.reading.points


def _lighter_grip(build: Build) -> float:
    """Points that 5 g less of grip give, by the sum."""
    grip = replace(build.grip, mass=build.grip.mass - _GRIP)
    return replace(build, grip=grip).reading.points - build.reading.points


def _heavier_shaft(build: Build) -> float:
    """Points that 9 g more of cut shaft give, by the sum."""
    raw = build.shaft.mass * (1 + _SHAFT / build.cut_shaft.mass)
    return replace(build, shaft=replace(build.shaft, mass=raw)).reading.points - build.reading.points
