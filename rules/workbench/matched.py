"""Matching the two clubs to one another, or to a club he likes: by swing weight or by inertia.

Neither is proven better (common practice is split); what each does to the other number is said. What is
matched is the mass in the head, so a match that the ports cannot hold is said to be out of their reach.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.bench import matching
from rules.bench.balance import mass_per_point
from rules.bench.problems import BenchProblem

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rules.facts.subject import OwnedClub
    from rules.workbench.club import Club


@dataclass(frozen=True, slots=True)
class Matched:
    """One club made to match another in one number (SI, points)."""

    by: matching.By
    to: str
    """Role of the club matched to, or the name of the club he likes."""
    role: str
    """The club that is changed."""
    head_change: float
    """Mass more (or less) at the head's centre than planned, kg."""
    points: float
    """What it would read, points from D0."""
    points_difference: float
    """That less the other club's."""
    inertia: float | None
    """About the butt, kg*m2."""
    inertia_difference: float | None
    """That less the other club's; None where the other's is not known."""
    room: bool
    """Whether ports and planned pieces can give or take that much."""


def match_both(longer: Club, shorter: Club) -> tuple[Matched, ...]:
    """Match the longer club to the shorter by swing weight and by inertia.

    The shorter is the easier one to hit centred, and so the one to match to until marks say otherwise
    (common practice: match to the club that is hit centred). Empty where the parts of either are not known.
    """
    if longer.build is None or shorter.build is None:
        return ()
    found = []
    for by in ("swing_weight", "inertia"):
        try:
            made = matching.match(
                shorter.build, longer.build, "inertia" if by == "inertia" else "swing_weight"
            )
        except BenchProblem:
            continue
        found.append(
            Matched(
                made.by, shorter.role, longer.role, made.head_change, made.reading.points,
                made.points_difference, made.reading.inertia, made.inertia_difference,
                _has_room(longer, made.head_change),
            )
        )  # fmt: skip
    return tuple(found)


def match_liked(clubs: Sequence[Club], owned: Sequence[OwnedClub]) -> tuple[Matched, ...]:
    """Match each club to a club he likes, by swing weight: of his own club no more was read.

    Its inertia would want its parts or a pendulum. Only clubs he said that he likes and whose swing weight
    is known are matched to.
    """
    liked = [one for one in owned if one.liked == "yes" and one.swing_weight is not None]
    return tuple(
        _to_liked(club, one.name, one.swing_weight)
        for one in liked
        for club in clubs
        if club.build is not None and one.swing_weight is not None
    )


def _to_liked(club: Club, name: str, points: float) -> Matched:
    """Match a club to a swing weight (points from D0)."""
    build = club.build
    assert build is not None
    change = (points - build.reading.points) * mass_per_point(build.head_position)
    inertia = (build.reading.inertia or 0.0) + change * build.head_position**2
    return Matched(
        "swing_weight", name, club.role, change, points, 0.0, inertia, None, _has_room(club, change)
    )


def _has_room(club: Club, change: float) -> bool:
    """Say whether the ports can take so much more, or the planned pieces so much less."""
    head, plan = club.rung.spec.head, club.plan
    if head is None or plan is None:
        return False
    return -plan.added - 1e-9 <= change <= head.capacity - plan.added + 1e-9
