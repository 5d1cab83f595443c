"""Head speed: from club to club, with length, against carry, and how far a speed can carry at all.

Two laws are kept apart on purpose. *Between clubs of a set* speed falls by type (length, mass and swing
together): a ratio of the driver's. *Within one club whose length alone changes* it moves by some 0.4 to 0.8
% an inch. Neither follows from the other. The numbers of both are assumptions of the knowledge base and
come in as parameters.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from rules.golf.coefficients import RPM, Law
from rules.golf.flight import Flight, Launch, fly
from rules.golf.impact import Clubhead, strike
from rules.problems import Problem

INCH = 0.0254
"""m."""

SPEED_RANGE = (12.0, 70.0)
"""m/s of head speed between which a carry is turned back into a speed (27 to 157 mph)."""

BEST_SMASH = 1.5
"""Ball speed over head speed in the best centred strike of a driver (common practice)."""

_LOW_SPINS = (2000 * RPM, 2500 * RPM, 3000 * RPM)
_GOLDEN = (math.sqrt(5) - 1) / 2


def club_speed(driver_speed: float, ratio: float) -> float:
    """Return the head speed of another club of the set, m/s: the driver's times the type's ratio.

    Common practice: 3-wood 0.955, 5-wood 0.92, hybrid 0.89. Problem for a ratio outside 0.5 to 1.2.
    """
    if not 0.5 <= ratio <= 1.2:
        raise Problem(f"a speed ratio of {ratio:g} is outside 0.5 to 1.2; a 3-wood's is about 0.955")
    return driver_speed * ratio


def with_length(speed: float, change: float, rate_per_inch: float) -> float:
    """Return the head speed of the same club after its length alone changes by `change` m.

    speed x (1 + rate x inches), rate a share an inch: 0.004 to 0.008, a straight line since nothing finer
    was ever measured. Published: 46 to 50 in, ball speed +1.8 m/s (Kenny, Wallace and Otto 2008, seven
    low-handicap players, drivers). Problem for a rate outside -0.02 to 0.03.
    """
    if not -0.02 <= rate_per_inch <= 0.03:
        raise Problem(
            f"a speed change of {rate_per_inch * 100:g} % an inch is outside -2 to 3 %; about 0.6 is usual"
        )
    return speed * (1.0 + rate_per_inch * change / INCH)


@dataclass(frozen=True, slots=True)
class Swing:
    """A club in motion, all but its speed: what it delivers to the ball."""

    loft: float
    """rad of delivered loft."""

    attack: float
    """rad, up positive."""

    head: Clubhead


def centred_flight(speed: float, swing: Swing, density: float, law: Law = "first") -> Flight:
    """Fly a ball struck on the line through the head's centre of mass, at a head speed in m/s."""
    return fly(strike(speed, swing.loft, swing.attack, swing.head), density, law)


def _root(function: Callable[[float], float], low: float, high: float, tolerance: float) -> float:
    """Return where a rising function passes nought between two ends that straddle it (Illinois method)."""
    f_low, f_high = function(low), function(high)
    for _ in range(60):
        middle = high - f_high * (high - low) / (f_high - f_low)
        f_middle = function(middle)
        if abs(f_middle) < 1e-9 or abs(high - low) < tolerance:
            return middle
        if f_middle * f_high < 0.0:
            low, f_low = high, f_high
        else:
            f_low *= 0.5
        if abs(middle - high) < tolerance:
            return middle
        high, f_high = middle, f_middle
    return high


@lru_cache(maxsize=512)
def speed_for_carry(carry: float, swing: Swing, density: float, law: Law = "first") -> float:
    """Return the head speed in m/s at which a centred strike carries so many m; within 0.001 m/s.

    Carry rises with speed at a given delivery, so the answer is unique. It is the speed of *good* strikes
    by a law that carries 3 (first) or 9 yd (second) too far: a claim of carry, turned to speed, deserves a
    wide spread. A carry that no speed from 12 to 70 m/s gives raises Problem.
    """
    low, high = SPEED_RANGE

    def short(speed: float) -> float:
        return centred_flight(speed, swing, density, law).carry - carry

    if not short(low) <= 0.0 <= short(high):
        raise Problem(
            f"no head speed from 27 to 157 mph carries a ball {carry / 0.9144:.0f} yd with "
            f"{math.degrees(swing.loft):.1f} deg of delivered loft; check the carry and the club"
        )
    return _root(short, low, high, 1e-3)


def _highest(function: Callable[[float], float], low: float, high: float, tolerance: float) -> float:
    """Return where a function with one summit is highest between two ends (golden section)."""
    left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    at_left, at_right = function(left), function(right)
    while high - low > tolerance:
        if at_left < at_right:
            low, left, at_left = left, right, at_right
            right = low + _GOLDEN * (high - low)
            at_right = function(right)
        else:
            high, right, at_right = right, left, at_left
            left = high - _GOLDEN * (high - low)
            at_left = function(left)
    return (low + high) / 2


@lru_cache(maxsize=256)
def carry_ceiling(speed: float, density: float, smash: float = BEST_SMASH, law: Law = "first") -> float:
    """Return the farthest that a head speed in m/s can carry in the given air, m.

    The ball leaves a centred strike at `smash` times the head speed, at the best launch and the best of
    three low spins. Common practice in sea-level air: 215 yd at 90 mph of driver speed (135 mph of ball
    speed), 179 at 75; the first law gives 217 and 173. A claim beyond it is one that physics forbids, give
    or take the law's own error (`coefficients.LAWS`). Problem for a speed that no head reaches.
    """
    if not 0.0 < speed <= SPEED_RANGE[1]:
        raise Problem(f"a head speed of {speed:g} m/s is outside 0 to {SPEED_RANGE[1]:g} m/s; check it")

    def farthest(spin: float) -> float:
        def carry(angle: float) -> float:
            return fly(Launch(smash * speed, angle, spin), density, law).carry

        return carry(_highest(carry, math.radians(5.0), math.radians(35.0), math.radians(0.1)))

    return max(farthest(spin) for spin in _LOW_SPINS)


@lru_cache(maxsize=256)
def best_loft(speed: float, density: float, head: Clubhead, attack: float = 0.0, law: Law = "first") -> float:
    """Return the delivered loft in rad, from 3 to 40 degrees, at which a centred strike carries farthest.

    The summit is flat: two degrees either side cost a yard or two.
    """

    def carry(loft: float) -> float:
        return centred_flight(speed, Swing(loft, attack, head), density, law).carry

    return _highest(carry, math.radians(3.0), math.radians(40.0), math.radians(0.05))
