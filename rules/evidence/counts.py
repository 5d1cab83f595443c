"""Shares of counted balls: how many of six got up, what that may mean, and whether two clubs differ in it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist

from rules.evidence.permutation import Difference

_LEVEL = 0.95


@dataclass(frozen=True, slots=True)
class Count:
    """So many of so many balls, with the interval that may hold the true share."""

    number: int
    of: int
    low: float
    high: float

    @property
    def share(self) -> float:
        """The share counted, 0 to 1; 0 without balls."""
        return self.number / self.of if self.of else 0.0


def count(number: int, of: int, level: float = _LEVEL) -> Count:
    """Return a count with Wilson's score interval (E. B. Wilson, JASA 22 (1927) 209).

    Nothing counted leaves every share possible. ValueError for a count that cannot be.
    """
    if not 0 <= number <= of:
        raise ValueError(f"{number} of {of} balls cannot be")
    if of == 0:
        return Count(0, 0, 0.0, 1.0)
    z = NormalDist().inv_cdf((1.0 + level) / 2.0)
    share, scale = number / of, 1.0 + z * z / of
    centre = (share + z * z / (2 * of)) / scale
    half = z * math.sqrt(share * (1.0 - share) / of + z * z / (4 * of * of)) / scale
    return Count(number, of, max(0.0, centre - half), min(1.0, centre + half))


def compare_counts(first: tuple[int, int], second: tuple[int, int], level: float = _LEVEL) -> Difference:
    """Compare two counts (number, of): the permutation test on balls that count one or nought.

    In closed form: it is Fisher's exact test with the smaller one-sided share doubled (R. A. Fisher, 1935).
    The interval is R. G. Newcombe's from two score intervals (Statistics in Medicine 17 (1998) 873, method
    10). ValueError when either club has no ball.
    """
    (a, m), (b, n) = first, second
    if not m or not n:
        raise ValueError("a comparison needs balls of both clubs")
    deals, good = math.comb(m + n, m), a + b
    ways = {
        x: math.comb(good, x) * math.comb(m + n - good, m - x)
        for x in range(max(0, good - n), min(m, good) + 1)
    }
    above = sum(way for x, way in ways.items() if x >= a)
    below = sum(way for x, way in ways.items() if x <= a)
    low, high = _newcombe(count(a, m, level), count(b, n, level))
    return Difference(a / m - b / n, low, high, min(1.0, 2.0 * min(above, below) / deals), deals, True)


def _newcombe(first: Count, second: Count) -> tuple[float, float]:
    """Return the interval of a difference of shares from those of both."""
    difference = first.share - second.share
    down = math.hypot(first.share - first.low, second.high - second.share)
    up = math.hypot(first.high - first.share, second.share - second.low)
    return difference - down, difference + up
