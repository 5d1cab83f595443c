"""What is usual before anybody measured: the speed of a club, the height that suits a speed, a head."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rules.facts.known import assumed
from rules.golf.impact import Clubhead
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import Kind

_DEGREE = parse("1 deg", "rad")
_FOOT = parse("1 ft", "m")
_MPH = parse("1 mph", "m/s")
_WEAK_SLOPE = 0.004
"""Share of driver speed a club loses per degree beyond the trade's ratios (assumption)."""
USUAL_LOFT = {"fairway": 15.5 * _DEGREE, "hybrid": 21 * _DEGREE}
"""Loft of a club of which nobody said one, rad (assumption)."""
USUAL_FACE = {"fairway": 0.036, "hybrid": 0.036}
"""Face height of a head that nobody measured, m (assumption)."""
_USUAL_HEAD = {
    "fairway": (0.212, 0.81, 0.020, 1500e-7, 2300e-7),
    "hybrid": (0.230, 0.80, 0.013, 1200e-7, 2000e-7),
}
"""Mass (kg), restitution, depth (m) and inertias (kg*m2) of a head that nobody measured. Assumptions: no open
table of head depth and inertia was found."""


def usual_head(base: RuleBase, kind: Kind) -> Clubhead:
    """Return a head of a kind of which nothing was measured, as a free body."""
    mass, restitution, depth, vertical, heel_toe = _USUAL_HEAD[kind]
    return Clubhead(mass, restitution, assumed(base, "spin-grip"), depth, vertical, heel_toe)


def speed_ratio(base: RuleBase, kind: Kind, loft: float) -> float:
    """Return a club's head speed at its usual length as a share of driver head speed.

    Between clubs of a set speed falls by type: 3-wood 0.955, 5-wood 0.92, hybrid 0.89 (common
    practice), straight between, a little per degree beyond. What one club does when its own length
    changes is another law.
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


def suiting_apex(driver_speed: float) -> float:
    """Return the apex that suits a driver head speed, m.

    Common practice: apex in feet near driver speed in mph, 100 ft at 100 mph, 50 to 60 ft at 70 mph.
    Straight through 55 ft at 70 and 100 ft at 100 mph, flat above 105 ft and below 30 ft.
    """
    mph = driver_speed / _MPH
    return min(105.0, max(30.0, 55 + 1.5 * (mph - 70))) * _FOOT
