"""Student's t: how much wider than a normal spread the mean of a few balls must be taken."""

from __future__ import annotations

import math
from functools import lru_cache

_TINY = 1e-300


def cumulative(t: float, freedom: float) -> float:
    """Return the share of Student's t below `t`, for degrees of freedom above 0.

    By the regularised incomplete beta function: 1 - I(v/(v + t^2); v/2, 1/2) / 2 for t from 0 up (Abramowitz
    and Stegun, Handbook of Mathematical Functions, 26.7.1). ValueError for no freedom at all.
    """
    if not freedom > 0.0:
        raise ValueError("degrees of freedom must be above 0")
    tail = 0.5 * _incomplete_beta(freedom / (freedom + t * t), freedom / 2.0, 0.5)
    return 1.0 - tail if t >= 0.0 else tail


@lru_cache(maxsize=512)
def quantile(share: float, freedom: float) -> float:
    """Return the t below which a share of Student's t lies, by bisection to 1e-9.

    ValueError for a share that is not between 0 and 1.
    """
    if not 0.0 < share < 1.0:
        raise ValueError("a share between 0 and 1 is wanted")
    low, high = -1.0, 1.0
    while cumulative(low, freedom) > share:
        low *= 2.0
    while cumulative(high, freedom) < share:
        high *= 2.0
    while high - low > 1e-9 * max(1.0, abs(high)):
        middle = (low + high) / 2.0
        low, high = (middle, high) if cumulative(middle, freedom) < share else (low, middle)
    return (low + high) / 2.0


def _incomplete_beta(x: float, a: float, b: float) -> float:
    """Return the regularised incomplete beta function (Abramowitz and Stegun 26.5.8)."""
    if x <= 0.0 or x >= 1.0:
        return 0.0 if x <= 0.0 else 1.0
    if x > (a + 1.0) / (a + b + 2.0):
        return 1.0 - _incomplete_beta(1.0 - x, b, a)
    front = math.exp(
        math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)
    )
    return front * _fraction(x, a, b) / a


def _fraction(x: float, a: float, b: float) -> float:
    """Return the continued fraction of the incomplete beta function by Lentz's method."""
    c, d = 1.0, 1.0 / _away(1.0 - (a + b) * x / (a + 1.0))
    value = d
    for m in range(1, 400):
        even = m * (b - m) * x / ((a + 2 * m - 1.0) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1.0))
        for step in (even, odd):
            d = 1.0 / _away(1.0 + step * d)
            c = _away(1.0 + step / c)
            value *= c * d
        if abs(c * d - 1.0) < 1e-15:
            break
    return value


def _away(value: float) -> float:
    """Keep a denominator away from nought."""
    return value if abs(value) > _TINY else _TINY
