"""Effective loft: what a head plays once its face is squared; and what lie does to the face.

Squaring a face that was built closed adds loft. How much is contested: bench charts say a degree for a
degree; turning the head about the shaft gives about cot(lie) of a degree, 0.65 at 57 degrees of lie.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.bench.problems import require
from rules.units import UNITS

_DEG = UNITS["deg"].factor


@dataclass(frozen=True, slots=True)
class EffectiveLoft:
    """Loft with the face squared (rad), by both views."""

    geometry: float
    bench_rule: float


def effective_loft(loft: float, closed: float, lie: float) -> EffectiveLoft:
    """Return the loft of a head soled with its face `closed` (rad, negative when open), once squared.

    Geometry: turning the head about the shaft leaves the angle between face normal and shaft as it is, so
    `sin(L') = sin(L) + cos(L) sin(closed) cot(lie)`. Bench rule: `L' = L + closed`. Valid for lofts of 5 to
    65 degrees, faces within 10 degrees and lies of 45 to 70 degrees. Raises OutOfRange.
    """
    require("loft", loft, 5 * _DEG, 65 * _DEG, "deg")
    require("face angle", closed, -10 * _DEG, 10 * _DEG, "deg")
    require("lie", lie, 45 * _DEG, 70 * _DEG, "deg")
    raised = math.sin(loft) + math.cos(loft) * math.sin(closed) / math.tan(lie)
    return EffectiveLoft(math.asin(raised), loft + closed)


def face_turn(loft: float, lie_error: float) -> float:
    """How far a face of this loft looks off line (rad) when its lie is out by so much (rad).

    `atan(tan(loft) sin(error))`: too upright looks toward the golfer's own side. At 21 degrees of loft a
    degree of lie turns the face 0.38 degree.
    """
    require("loft", loft, 5 * _DEG, 65 * _DEG, "deg")
    require("lie error", lie_error, -15 * _DEG, 15 * _DEG, "deg")
    return math.atan(math.tan(loft) * math.sin(lie_error))


def offline(turn: float, carry: float) -> float:
    """How far off target (m) a ball started off by `turn` (rad) lands: `carry tan(turn)`, carry in m."""
    require("carry", carry, 0, UNITS["yd"].to_si(400), "yd")
    return carry * math.tan(turn)
