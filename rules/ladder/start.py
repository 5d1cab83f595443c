"""Where a rung starts before any rule speaks: length, speed and mass by kind and loft."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rules.facts.known import assumed
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import Kind

_DEGREE = parse("1 deg", "rad")
_INCH = parse("1 in", "m")
_SHORTEST, _LONGEST = 38.5 * _INCH, 43 * _INCH
_WEAK_SLOPE = 0.004
"""Share of driver speed a club loses per degree beyond the trade's ratios (assumption)."""
_REFERENCE = {"fairway": 15 * _DEGREE, "hybrid": 20 * _DEGREE}
"""Lofts at which the trade's ratios and starting lengths are given."""


def usual_length(base: RuleBase, kind: Kind, loft: float) -> float:
    """Return the length a club of this kind and loft starts from, m: a little below what shops sell."""
    beyond = (loft - _REFERENCE[kind]) / _DEGREE
    if kind == "fairway":
        start = assumed(base, "start-length-fairway-15") - beyond * assumed(base, "start-length-per-degree")
    else:
        start = assumed(base, "start-length-hybrid-20") - beyond * assumed(base, "start-length-per-degree")
    return min(_LONGEST, max(_SHORTEST, start))


def speed_ratio(base: RuleBase, kind: Kind, loft: float) -> float:
    """Return a club's head speed at its usual length as a share of driver head speed.

    Between clubs of a set speed falls by type: 3-wood 0.955, 5-wood 0.92, hybrid 0.89 (common
    practice), straight between, a little per degree beyond. What one club does when its own length
    changes is another law (`length_factor`).
    """
    degrees = loft / _DEGREE
    if kind == "hybrid":
        return assumed(base, "speed-ratio-hybrid") - _WEAK_SLOPE * (degrees - 20)
    strong, weak = assumed(base, "speed-ratio-3-wood"), assumed(base, "speed-ratio-5-wood")
    if degrees <= 15:
        return strong
    if degrees <= 18.5:
        return strong + (weak - strong) * (degrees - 15) / 3.5
    return weak - _WEAK_SLOPE * (degrees - 18.5)


def length_factor(base: RuleBase, length: float, usual: float) -> float:
    """Return the factor on head speed when one club is built longer or shorter than its usual length."""
    return 1 + assumed(base, "speed-per-inch") * (length - usual) / _INCH


def scatter_factor(base: RuleBase, length: float, usual: float) -> float:
    """Return the factor on strike scatter when one club is built longer or shorter than its usual length."""
    return max(0.3, 1 + assumed(base, "scatter-per-inch") * (length - usual) / _INCH)


def suiting_apex(driver_speed: float) -> float:
    """Return the apex that suits a driver head speed, m.

    Common practice: apex in feet near driver speed in mph, 100 ft at 100 mph, 50 to 60 ft at 70 mph.
    Straight through 55 ft at 70 and 100 ft at 100 mph, flat above 105 ft and below 30 ft.
    """
    mph = driver_speed / parse("1 mph", "m/s")
    feet = min(105.0, max(30.0, 55 + 1.5 * (mph - 70)))
    return feet * 12 * _INCH
