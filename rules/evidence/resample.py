"""Draws with replacement from a few balls: all of them where they are few, else a fixed random set.

From n balls there are C(2n - 1, n) different draws of n; up to seven balls (1716 draws) every one is
taken with its own probability (N. I. Fisher and P. Hall, Statistics & Probability Letters 11 (1991) 15), so
that nothing is left to chance. Beyond that 4,999 draws come from a generator seeded by n alone: the same
balls give the same figures on every machine.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import combinations_with_replacement

MOST_EXACT = 7
"""Balls up to which every draw is taken."""
DRAWS = 4999
"""Random draws beyond that."""

Draw = tuple[int, ...]
"""Places of the balls drawn."""


@lru_cache(maxsize=64)
def draws(n: int) -> tuple[tuple[Draw, float], ...]:
    """Return draws of n out of n balls with replacement, each with its weight; weights add up to 1."""
    if n <= MOST_EXACT:
        ways = math.factorial(n) / n**n
        return tuple((draw, ways / _repeats(draw)) for draw in combinations_with_replacement(range(n), n))
    chance = random.Random(f"draws of {n}")
    return tuple((tuple(chance.choices(range(n), k=n)), 1.0 / DRAWS) for _ in range(DRAWS))


def _repeats(draw: Draw) -> int:
    """Return in how many orders the same draw would be the same draw."""
    return math.prod(math.factorial(count) for count in Counter(draw).values())


def spread_out(n: int, figure: Callable[[Draw], float]) -> list[tuple[float, float]]:
    """Return a figure over all draws of n balls, rising, each value with its weight."""
    return sorted((figure(draw), weight) for draw, weight in draws(n))


def share_below(values: Sequence[tuple[float, float]], share: float) -> float:
    """Return the value below which a share of a weighted, rising list lies."""
    total = 0.0
    for value, weight in values:
        total += weight
        if total >= share - 1e-12:
            return value
    return values[-1][0]
