"""What was believed and what was seen, weighed by their spreads and kept side by side to be shown."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.golf.delivery import Estimate


@dataclass(frozen=True, slots=True)
class Weighed:
    """One figure of a golfer: as the interview had it, as his balls have it, and both together. SI."""

    fact: str
    """Id of the fact, or the name of the figure where no rule reads it."""
    before: Estimate
    """From the answers and house values alone."""
    seen: Estimate | None
    """From the balls alone; None where they say nothing by themselves."""
    after: Estimate
    balls: int
    """How many balls speak to it."""

    @property
    def weight(self) -> float | None:
        """Return the share of the balls in what is now believed, from 0 to 1, by the spreads.

        None where the balls only say which way it lies (none of six got up), not where.
        """
        if self.seen is None:
            return None
        if self.before.spread <= 0.0:
            return 0.0
        return min(1.0, max(0.0, 1.0 - (self.after.spread / self.before.spread) ** 2))


def combined(before: Estimate, seen: Estimate) -> Estimate:
    """Return two independent estimates of one figure as one, each by the inverse of its variance.

    A spread of 0 holds its estimate fast, the earlier one first.
    """
    if before.spread <= 0.0:
        return before
    if seen.spread <= 0.0:
        return seen
    gain = before.spread**2 / (before.spread**2 + seen.spread**2)
    value = before.value + gain * (seen.value - before.value)
    return Estimate(value, before.spread * math.sqrt(1.0 - gain))


def drawn(before: Estimate, through: Estimate, after: Estimate, slope: float = 1.0) -> Estimate:
    """Return a figure corrected by what was learnt of another that follows from it and from something else.

    `through` is what the other was believed to be (spread of both sources), `after` what it came out as,
    `slope` how it moves with the figure. The figure takes its own share of the correction (the linear
    regression of one normal figure on another).
    """
    if before.spread <= 0.0 or through.spread <= 0.0:
        return before
    gain = slope * before.spread**2 / through.spread**2
    variance = before.spread**2 - gain**2 * (through.spread**2 - after.spread**2)
    return Estimate(before.value + gain * (after.value - through.value), math.sqrt(max(variance, 0.0)))


def told_by_balls(before: Estimate, after: Estimate) -> Estimate | None:
    """Return what the balls alone must have said for one estimate to become the other.

    Precisions add, so that of the balls is the difference. None where that says nothing: they left the
    spread as it was, or only pointed one way and so would put the value absurdly far out.
    """
    if before.spread <= 0.0 or after.spread <= 0.0 or after.spread >= before.spread * (1 - 1e-6):
        return None
    gained = after.spread**-2 - before.spread**-2
    value = (after.value * after.spread**-2 - before.value * before.spread**-2) / gained
    if abs(value - before.value) > _ABSURD * before.spread:
        return None
    return Estimate(value, gained**-0.5)


def mean_of(values: Sequence[float], usual: float, reading: float) -> Estimate:
    """Return the mean of some readings with its spread, however few they are.

    Ball-to-ball scatter is pooled with a usual one that counts as four balls (assumption), since that of two
    or three readings says next to nothing; `reading` is what all of them may be out by together.
    """
    n = len(values)
    mean = math.fsum(values) / n
    squares = math.fsum((value - mean) ** 2 for value in values)
    variance = (_USUAL_WORTH * usual**2 + squares) / (_USUAL_WORTH + n - 1)
    return Estimate(mean, math.sqrt(variance / n + reading**2))


_ABSURD = 5.0
"""Spreads from what was believed beyond which an implied value is none."""
_USUAL_WORTH = 4
"""How many balls a usual scatter counts as."""
