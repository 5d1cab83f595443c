"""Matching two clubs: by swing weight or by inertia, and what each does to the other number.

Neither is proven. Makers split: some report that most blind testers prefer one inertia, another study
finds no difference. Match to the club that is hit centred, and keep woods apart from irons (common practice).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from rules.bench.balance import Balance, Part, balance, head_mass_for, head_mass_for_inertia
from rules.bench.build import Build
from rules.bench.problems import InertiaOutOfReach

By = Literal["swing_weight", "inertia"]


@dataclass(frozen=True, slots=True)
class Match:
    """The second club made to match the first in one number."""

    by: By
    head_mass: float
    """All mass at the head's centre, kg."""
    head_change: float
    """More (or less) than it has now, kg."""
    reading: Balance
    """The matched club."""
    points_difference: float
    """Its swing weight less the reference club's, points."""
    inertia_difference: float
    """Its inertia about the butt less the reference club's, kg*m2."""


def match(reference: Build, other: Build, by: By) -> Match:
    """Give `other` the head mass that makes it match `reference` by swing weight or by inertia.

    Mass already added counts as part of the head. Raises TargetOutOfReach or InertiaOutOfReach.
    """
    model = reference.reading
    at, rest = other.head_position, other.without_head
    if model.inertia is None:
        raise InertiaOutOfReach(0.0, 0.0)
    if by == "inertia":
        mass = head_mass_for_inertia(model.inertia, rest, at)
    else:
        mass = head_mass_for(model.points, rest, at)
    made = balance([*rest, Part(mass, at, name="head")])
    now = other.head.mass + sum(one.mass for one in other.added)
    return Match(
        by=by,
        head_mass=mass,
        head_change=mass - now,
        reading=made,
        points_difference=made.points - model.points,
        inertia_difference=(made.inertia or 0.0) - model.inertia,
    )
