"""A shaft as a line of mass: what any piece of it weighs and where that piece balances.

Mass per length is taken as a straight line from butt to tip, `a + b x`, with a and b such that the whole
shaft has its mass and its balance point. That is exact for an even shaft (balance at half its length) and
a fair picture of a tapered one: nothing more than mass, length and balance is known of it.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.bench.problems import require
from rules.units import UNITS

_INCH = UNITS["in"].factor
_GRAM = UNITS["g"].factor


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of shaft: its mass (kg), and its balance point (m) from the butt of the whole shaft."""

    mass: float
    centre: float


def mass_line(mass: float, length: float, balance: float) -> tuple[float, float]:
    """Return a (kg/m) and b (kg/m2) of the mass per length `a + b x` of a shaft.

    Valid for a balance of 35 to 65 % of the length from the butt; beyond a third or two thirds the line
    would fall below nought. Mass 20 to 250 g, length 20 to 55 in. Raises OutOfRange.
    """
    require("shaft mass", mass, 20 * _GRAM, 250 * _GRAM, "g")
    require("shaft length", length, 20 * _INCH, 55 * _INCH, "in")
    require("balance of the shaft as a share of its length", balance, 0.35, 0.65, "%")
    b = 12 * mass * (balance - 0.5) / length**2
    return mass / length - b * length / 2, b


def piece(mass: float, length: float, balance: float, start: float, end: float) -> Piece:
    """Return the piece between two places (m from the butt) of a shaft of this mass, length and balance."""
    a, b = mass_line(mass, length, balance)
    if end - start < 1e-12:
        return Piece(0.0, start)
    weight = a * (end - start) + b * (end**2 - start**2) / 2
    moment = a * (end**2 - start**2) / 2 + b * (end**3 - start**3) / 3
    return Piece(weight, moment / weight)
