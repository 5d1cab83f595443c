"""Is a difference between two clubs more than chance? The permutation test, and its interval.

If the club did not matter, any of the balls might have been hit with either: every way of dealing the balls
out again is as likely as the one seen (R. A. Fisher, The Design of Experiments, 1935). Dealing out again
means exchanging some balls of the one club for as many of the other; the difference of means changes by
(mean of those taken - mean of those given) x size of the exchange. So the list of mean differences of all
possible exchanges holds everything: how many of them are on the far side of nought is the p-value, and its
tails are the interval of shifts that the test does not refuse (M. Pagano and D. Tritchler, Journal of the
American Statistical Association 78 (1983) 435, give the idea).

Where there are more than 20,000 ways, 9,999 exchanges are drawn at random from a fixed seed, the seen one
counted among them (B. Phipson and G. K. Smyth, Statistical Applications in Genetics and Molecular Biology 9
(2010) 39).
"""

from __future__ import annotations

import math
import random
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

MOST_EXACT = 20_000
"""Ways of dealing the balls out up to which all are counted (eight and eight balls are 12,870)."""
DEALS = 9_999
"""Random deals beyond that."""


@dataclass(frozen=True, slots=True)
class Difference:
    """What a permutation test of two groups says."""

    value: float
    """The first's mean less the second's."""
    low: float
    """Least difference that the test does not refuse; -inf where the balls are too few for one."""
    high: float
    p: float
    """How often chance alone would show so large a difference, either way."""
    deals: int
    """Ways of dealing the balls out that were counted, the one seen among them."""
    exact: bool


def compare(first: Sequence[float], second: Sequence[float], level: float = 0.95) -> Difference:
    """Compare the means of two groups. ValueError when one of them has no ball.

    p is twice the smaller of the two one-sided shares, at most 1.
    """
    if not first or not second:
        raise ValueError("a comparison needs balls of both clubs")
    ways = math.comb(len(first) + len(second), len(first))
    exact = ways <= MOST_EXACT
    shifts = sorted(_all(first, second) if exact else _some(first, second))
    deals = len(shifts) + 1
    difference = math.fsum(first) / len(first) - math.fsum(second) / len(second)
    near = 1e-9 * max(1e-300, max(abs(value) for value in (*first, *second)))
    above = 1 + bisect_right(shifts, near)
    below = 1 + len(shifts) - bisect_left(shifts, -near)
    rank = math.floor((1.0 - level) / 2.0 * deals + 1e-9)
    low = shifts[rank - 1] if rank else -math.inf
    high = shifts[-rank] if rank else math.inf
    return Difference(difference, low, high, min(1.0, 2.0 * min(above, below) / deals), deals, exact)


def _all(first: Sequence[float], second: Sequence[float]) -> list[float]:
    """Return, for every exchange of some balls, by how much the means of those exchanged differ."""
    shifts: list[float] = []
    for size in range(1, min(len(first), len(second)) + 1):
        given = [math.fsum(part) / size for part in combinations(first, size)]
        taken = [math.fsum(part) / size for part in combinations(second, size)]
        shifts += [a - b for a in given for b in taken]
    return shifts


def _some(first: Sequence[float], second: Sequence[float]) -> list[float]:
    """Return the same for random deals; a deal that changes nothing is dealt again."""
    n, pool = len(first), [*first, *second]
    chance = random.Random(f"deals of {n} and {len(second)}")
    shifts: list[float] = []
    while len(shifts) < DEALS:
        dealt = chance.sample(range(len(pool)), n)
        size = sum(place >= n for place in dealt)
        if not size:
            continue
        kept = set(dealt)
        given = math.fsum([first[place] for place in range(n) if place not in kept])
        taken = math.fsum([pool[place] for place in dealt if place >= n])
        shifts.append((given - taken) / size)
    return shifts
