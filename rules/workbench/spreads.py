"""How far a finished club may be from its sum: each figure's tolerance, carried from the parts' own."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rules.bench.balance import Balance
    from rules.bench.build import Build


@dataclass(frozen=True, slots=True)
class Spreads:
    """One spread of each figure of a finished club (SI), the parts taken as independent."""

    points: float
    total: float
    balance_point: float
    inertia: float


def spreads(build: Build) -> Spreads:
    """Build the club again with each part at the end of its own tolerance, and add what that moves.

    The root of the sum of squares over head mass, setback, length, shaft mass and grip mass. The length
    is taken as a head that sits that much farther out: the parts do not change. Agrees with
    `Build.tolerance`, which has points and total only.
    """
    at = build.reading
    moved = [_moves(at, other.reading) for other in _ends(build)]
    return Spreads(*(math.hypot(*column) for column in zip(*moved, strict=True)))


def _ends(build: Build) -> Iterator[Build]:
    """Yield the club with one part after another at the end of its tolerance."""
    head, shaft, grip = build.head, build.shaft, build.grip
    yield replace(build, head=replace(head, mass=head.mass + head.mass_tolerance))
    for far in (head.setback_tolerance, build.length_tolerance):
        yield replace(build, head=replace(head, setback=head.setback - far))
    whole = shaft.mass_tolerance * shaft.mass / build.cut_shaft.mass
    yield replace(build, shaft=replace(shaft, mass=shaft.mass + whole))
    yield replace(build, grip=replace(grip, mass=grip.mass + grip.mass_tolerance))


def _moves(one: Balance, other: Balance) -> tuple[float, float, float, float]:
    """Return by how much two readings differ."""
    return (
        other.points - one.points,
        other.total - one.total,
        other.balance_point - one.balance_point,
        (other.inertia or 0.0) - (one.inertia or 0.0),
    )
