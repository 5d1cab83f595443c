"""The bench rules that club makers carry in their heads: starting points, never answers.

Common practice. They are right for a club of 39 in and drift from the lever sum as clubs get longer, so
whatever shows one shows the exact sum beside it and asks for a look at the scale.
"""

from __future__ import annotations

from rules.units import UNITS

_GRAM = UNITS["g"].factor
_INCH = UNITS["in"].factor

HEAD_PER_POINT = 2 * _GRAM
"""Head mass of one point, kg."""
POINTS_PER_METRE = 3 / (0.5 * _INCH)
"""Points for each metre of length: three for half an inch."""
GRIP_PER_POINT = 5 * _GRAM
"""Grip mass that lowers the reading by one point, kg."""
SHAFT_PER_POINT = 9 * _GRAM
"""Shaft mass of one point, kg."""


def points_for_length(difference: float) -> float:
    """Points gained by length (m); negative for a shorter club."""
    return difference * POINTS_PER_METRE


def points_for_grip(mass: float) -> float:
    """Points gained by mass (kg) in the grip: a heavier grip lowers the reading."""
    return -mass / GRIP_PER_POINT


def points_for_shaft(mass: float) -> float:
    """Points gained by mass (kg) in the shaft."""
    return mass / SHAFT_PER_POINT


def head_mass_for_points(points: float) -> float:
    """Head mass (kg) that restores so many points."""
    return points * HEAD_PER_POINT
