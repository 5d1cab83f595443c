"""Lead tape: how much weighs how much.

Common practice: 4 to 4.5 in of half-inch tape is about 2 g, a point. Lead: do not file or sand it, wash
hands, keep it from children; none on a junior's club.
"""

from __future__ import annotations

from rules.bench.problems import require
from rules.units import UNITS

_INCH = UNITS["in"].factor
_GRAM = UNITS["g"].factor

MASS_PER_AREA = 2 * _GRAM / (4.25 * _INCH * 0.5 * _INCH)
"""Of lead tape, kg/m2: 2 g in 4 1/4 in of half-inch tape."""


def tape_length(mass: float, width: float = 0.5 * _INCH) -> float:
    """Length (m) of tape of a width (m) that weighs `mass` (kg)."""
    require("mass of tape", mass, 0, 0.1, "g")
    require("width of the tape", width, 0.1 * _INCH, 2 * _INCH, "in")
    return mass / (MASS_PER_AREA * width)
