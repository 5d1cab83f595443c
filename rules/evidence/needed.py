"""How many balls would tell: from the scatter seen and the difference that matters."""

from __future__ import annotations

import math
from statistics import NormalDist

MOST = 60
"""Balls with each club beyond which the honest answer is: not in this bay."""


def balls_for_means(difference: float, spread: float, level: float, power: float) -> int | None:
    """Return the balls needed with each of two clubs to see a difference of means, or None beyond `MOST`.

    n = 2 (z + z')^2 s^2 / d^2 + z^2 / 4, W. C. Guenther's step from the normal to Student's t (The American
    Statistician 35 (1981) 243); `level` is two-sided. A difference of nought is never seen.
    """
    if difference <= 0.0:
        return None
    z, other = NormalDist().inv_cdf(1.0 - level / 2.0), NormalDist().inv_cdf(power)
    return _whole(2.0 * ((z + other) * spread / difference) ** 2 + z * z / 4.0)


def balls_for_shares(first: float, second: float, level: float, power: float) -> int | None:
    """Return the balls needed with each of two clubs to see these two shares apart, or None beyond `MOST`.

    The normal approximation with pooled variance under no difference (J. L. Fleiss, Statistical Methods for
    Rates and Proportions, 2nd ed. 1981, eq. 3.14, without continuity correction).
    """
    difference = abs(first - second)
    if difference <= 0.0:
        return None
    z, other = NormalDist().inv_cdf(1.0 - level / 2.0), NormalDist().inv_cdf(power)
    middle = (first + second) / 2.0
    apart = math.sqrt(first * (1.0 - first) + second * (1.0 - second))
    return _whole(((z * math.sqrt(2.0 * middle * (1.0 - middle)) + other * apart) / difference) ** 2)


def _whole(balls: float) -> int | None:
    """Round up to whole balls, two at least."""
    return max(2, math.ceil(balls - 1e-9)) if balls <= MOST else None
