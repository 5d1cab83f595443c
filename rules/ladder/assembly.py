"""The mass behind the ball once a club is balanced."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rules.units import parse

if TYPE_CHECKING:
    from rules.bench.build import Build
    from rules.shelf.parts import Head

HEAVIEST = parse("300 g", "kg")
"""No head of this trade weighs more; a target that would ask for it is not reached."""


def impact_mass(built: Build, head: Head, target: float) -> float:
    """Return the mass behind the ball once the target balance is reached as far as the ports allow, kg."""
    wanted = built.head_mass_for(target)
    return min(HEAVIEST, head.mass + head.capacity, max(head.mass, wanted))
