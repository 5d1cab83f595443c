"""How well a few balls know a figure: intervals by bootstrap, widened for the fewness of the balls.

Means: percentiles of all redrawn means, at levels widened so that for normal balls they are as wide as
Student's t (T. C. Hesterberg, The American Statistician 69 (2015) 371, "expanded percentile"). They never
leave the range of the balls themselves, as a carry should not.

Scatters: percentiles of the logarithm of the redrawn scatter about its own mean, turned round (a redrawn
scatter is too small as often as the true one is larger than the one seen), levels widened by
sqrt(n / (n - 1)) (B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap, 1993, ch. 12 and 13).

Carry over all balls, mishits and all: six balls without a miss do not know how often he misses, and no
redrawing mends that. So the interval is put together from that of the balls that got up, and from how often
a ball may fail by their count (G. Y. Zou and A. Donner, Statistics in Medicine 27 (2008) 1693).

The tests measure how often each interval holds the truth.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import NormalDist

from rules.evidence.counts import count
from rules.evidence.resample import Draw, share_below, spread_out
from rules.evidence.student import quantile

LEVEL = 0.95
"""Share of trials in which an interval should hold the truth."""
_READING = 1e-6
"""Share of its own size below which a redrawn scatter is none: all balls drawn were one ball."""

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of some balls, with the interval that may hold the truth. SI."""

    value: float
    low: float
    high: float
    balls: int


def mean(values: Sequence[float]) -> float:
    """Return the mean; ValueError when there is nothing to take it of."""
    if not values:
        raise ValueError("no balls to take a mean of")
    return math.fsum(values) / len(values)


def mean_figure(values: Sequence[float], level: float = LEVEL) -> Figure | None:
    """Return the mean of some values with its interval; None for none, and no interval below three."""
    n = len(values)
    if n == 0:
        return None
    centre = mean(values)
    if n < 3:
        return Figure(centre, -math.inf, math.inf, n)
    beyond = NormalDist().cdf(-math.sqrt(n / (n - 1)) * quantile((1.0 + level) / 2.0, n - 1))
    redrawn = spread_out(n, lambda draw: math.fsum([values[i] for i in draw]) / n)
    low, high = share_below(redrawn, beyond), share_below(redrawn, 1.0 - beyond)
    return Figure(centre, min(low, centre), max(high, centre), n)


def carry_figure(
    up: Sequence[float], failed: Sequence[float], mishit_carry: float, level: float = LEVEL
) -> Figure | None:
    """Return the mean carry of balls that got up and balls that failed, with its interval.

    `mishit_carry` (a share of a good carry) stands in as one failed ball: what a failure costs is known from
    the failures seen and from it. Where fewer than three got up, the balls are redrawn as they are.
    """
    good, balls = mean_figure(up, level), [*up, *failed]
    if good is None or good.balls < 3:
        return mean_figure(balls, level)
    value, misses = mean(balls), count(len(failed), len(balls), level)
    costs = [good.value - carry for carry in failed]
    cost = mean([*costs, (1.0 - mishit_carry) * good.value])
    middle = misses.share * cost
    down = math.hypot(good.value - good.low, misses.high * cost - middle)
    upward = math.hypot(good.high - good.value, middle - misses.low * cost)
    return Figure(value, max(0.0, value - down), value + upward, len(balls))


def scatter_figure(points: Sequence[Point], level: float = LEVEL) -> Figure | None:
    """Return the scatter of marks on a face: root of the two variances' sum; None below two marks."""
    return _scatter(points, level)


def spread_figure(values: Sequence[float], level: float = LEVEL) -> Figure | None:
    """Return the standard deviation of some values with its interval; None below two values."""
    return _scatter([(value, 0.0) for value in values], level)


def _scatter_of(points: Sequence[Point]) -> Callable[[Draw], float]:
    """Return a function from a draw to its scatter."""
    n, size = len(points), max(1e-300, max(abs(part) for point in points for part in point))
    centre = (mean([p[0] for p in points]), mean([p[1] for p in points]))
    flat = [(p[0] - centre[0], p[1] - centre[1]) for p in points]
    squares = [x * x + y * y for x, y in flat]

    def of(draw: Draw) -> float:
        x = math.fsum([flat[i][0] for i in draw]) / n
        y = math.fsum([flat[i][1] for i in draw]) / n
        total = math.fsum([squares[i] for i in draw]) - n * (x * x + y * y)
        return math.sqrt(max(total, 0.0) / (n - 1)) if total > (_READING * size) ** 2 else 0.0

    return of


def _scatter(points: Sequence[Point], level: float) -> Figure | None:
    n = len(points)
    if n < 2:
        return None
    figure = _scatter_of(points)
    seen = figure(tuple(range(n)))
    if n < 3 or seen == 0.0:
        return Figure(seen, 0.0, math.inf, n)
    redrawn = [(math.log(max(value, _READING * seen)), w) for value, w in spread_out(n, figure)]
    typical = _typical(redrawn, math.log(_READING * seen))
    tail = NormalDist().cdf(math.sqrt(n / (n - 1)) * NormalDist().inv_cdf((1.0 - level) / 2.0))
    low, high = share_below(redrawn, tail), share_below(redrawn, 1.0 - tail)
    return Figure(
        seen, seen * math.exp(min(0.0, typical - high)), seen * math.exp(max(0.0, typical - low)), n
    )


def _typical(redrawn: Sequence[tuple[float, float]], nothing: float) -> float:
    """Return the mean of the redrawn logarithms, draws of one ball alone left out."""
    kept = [(value, weight) for value, weight in redrawn if value > nothing]
    return math.fsum([value * weight for value, weight in kept]) / math.fsum([weight for _, weight in kept])
