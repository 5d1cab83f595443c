"""Fliers for thousands of roads: carry surfaces, filled where asked, over a grid of air densities."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from rules.golf.flight import Flight, Launch
from rules.golf.surface import CarrySurface

if TYPE_CHECKING:
    from rules.golf.coefficients import Law
    from rules.golf.outcome import Flier

GRID = 0.04
"""kg/m3 between densities that are flown; between two, along a straight line, carry is within 0.05 yd."""


_MOST_FLIERS = 1024
"""Densities whose fliers are kept."""


class Sky:
    """Gives a flier for any air density; what one road had flown serves the next."""

    def __init__(self, density: float, law: Law = "first", *, rounded: bool = False) -> None:
        """`density` (kg/m3) is the air in which most roads are run; it lies on the grid.

        `rounded` takes the nearest density of the grid: half the cost, and a club's carry up to 2 yd out,
        every club's alike; for draws, whose air is drawn anyway.
        """
        self.density, self.law, self.rounded = density, law, rounded
        self._fliers: dict[float, Flier] = {}

    def __call__(self, density: float) -> Flier:
        """Return the flier for an air density, kg/m3: for the same density the same one."""
        if density not in self._fliers:
            if len(self._fliers) >= _MOST_FLIERS:
                self._fliers.clear()
            self._fliers[density] = self._flier(density)
        return self._fliers[density]

    def _flier(self, density: float) -> Flier:
        """Return a flier for an air density: a surface's own, or one between two surfaces."""
        place = (density - self.density) / GRID
        below = round(place) if self.rounded else math.floor(place + 1e-9)
        share = place - below
        if self.rounded or share < 1e-6:
            return self._surface(below).fly
        thin, thick = self._surface(below).fly, self._surface(below + 1).fly

        def between(launch: Launch) -> Flight:
            one, other = thin(launch), thick(launch)
            return Flight(
                one.carry + share * (other.carry - one.carry),
                one.apex + share * (other.apex - one.apex),
                one.descent + share * (other.descent - one.descent),
                one.time + share * (other.time - one.time),
                one.clipped or other.clipped,
            )

        return between

    def _surface(self, step: int) -> CarrySurface:
        """Return the surface at a step of the grid."""
        return surface(self.density + step * GRID, self.law)


@lru_cache(maxsize=16)
def surface(density: float, law: Law) -> CarrySurface:
    """Return the surface for an air density: one for all roads, since what it returns hangs on no other."""
    return CarrySurface(density, law)
