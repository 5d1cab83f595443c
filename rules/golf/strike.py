"""Where a golfer meets the ball, as a distribution over the face.

A pattern is stated against *where geometry says the ball is met on that lie* (`contact.py`), not against
face centre, so that it can be carried from one head, loft or lie to another. It comes from a prior
(handicap and contact answers; no published table of strike scatter was found, so its numbers are
assumptions of the knowledge base and arrive as parameters) and is drawn toward the golfer's own marks as
these come in.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from rules.problems import Problem

INCH = 0.0254
"""m."""

Mark = tuple[float, float]
"""One strike, m: toward the toe, and above where geometry says that lie's ball is met."""


@dataclass(frozen=True, slots=True)
class StrikePattern:
    """A golfer's strikes, as two correlated normal spreads, m."""

    mean_toe: float
    """Toward the toe from face centre."""

    mean_high: float
    """Above where geometry says the ball is met; thin strikers are below it."""

    sd_toe: float
    """Heel-toe standard deviation."""

    sd_high: float
    """Low-high standard deviation, the lie's own share not counted."""

    correlation: float = 0.0
    """Of toe with high: a golfer whose toe strikes are also high has a positive one."""

    marks: int = 0
    """How many of his own marks it rests on; 0 says that it is a prior, and must be said to be one."""

    def __post_init__(self) -> None:
        """Refuse what is no distribution; Problem says which figure."""
        if not (0.0 <= self.sd_toe <= 0.05 and 0.0 <= self.sd_high <= 0.05):
            raise Problem("a strike scatter must be from 0 to 50 mm; check the unit")
        if not (-0.05 <= self.mean_toe <= 0.05 and -0.05 <= self.mean_high <= 0.05):
            raise Problem(
                "a mean strike must lie within 50 mm of where the ball should be met; check the unit"
            )
        if not -1.0 < self.correlation < 1.0:
            raise Problem(f"a correlation of {self.correlation:g} is outside -1 to 1")

    def moved(self, toe: float = 0.0, high: float = 0.0) -> StrikePattern:
        """Return the pattern with its mean moved by so many m: what a contact answer does to a prior."""
        return replace(self, mean_toe=self.mean_toe + toe, mean_high=self.mean_high + high)

    def scattered(self, factor: float) -> StrikePattern:
        """Return the pattern with both spreads multiplied."""
        toe, high = self.sd_toe * factor, self.sd_high * factor
        return StrikePattern(self.mean_toe, self.mean_high, toe, high, self.correlation, self.marks)

    def at_length(self, change: float, rate_per_inch: float) -> StrikePattern:
        """Return the pattern with the club longer by `change` m, scatter growing by a rate an inch.

        The rate (4 to 8 % an inch) is an assumption: no published table was found.
        """
        return self.scattered(scatter_with_length(change, rate_per_inch))


def scatter_with_length(change: float, rate_per_inch: float) -> float:
    """Return the factor on strike scatter of the same club after its length alone changes by `change` m.

    1 + rate x inches, never below 0.3: no club is so short that nobody misses its centre.
    """
    return max(0.3, 1.0 + rate_per_inch * change / INCH)


@dataclass(frozen=True, slots=True)
class Doubt:
    """How far a prior may be from this golfer: what his own marks are weighed against."""

    mean_toe: float
    """m of standard deviation about the prior's mean."""

    mean_high: float
    """m of standard deviation about the prior's mean."""

    scatter: float
    """Standard deviation of the logarithm of either spread: 0.3 is about 30 %."""

    correlation: float
    """Standard deviation of Fisher's z = artanh(correlation)."""


def by_handicap(handicap: float, anchors: Sequence[tuple[float, float]]) -> float:
    """Return a quantity by handicap: straight lines between (handicap, value) anchors, flat beyond the ends.

    Problem when there is no anchor or they are out of order.
    """
    if not anchors or any(a[0] >= b[0] for a, b in pairwise(anchors)):
        raise Problem("a scale by handicap needs anchors in rising order of handicap")
    for (x0, y0), (x1, y1) in pairwise(anchors):
        if handicap < x1:
            return y0 + (y1 - y0) * max(0.0, handicap - x0) / (x1 - x0)
    return anchors[-1][1]


def learn(marks: Sequence[Mark], prior: StrikePattern, doubt: Doubt) -> StrikePattern:
    """Return the prior drawn toward the golfer's own marks, each figure weighed by its spread.

    Means: the prior's doubt against sd^2/n (normal, known spread). Spreads: in logarithms, the prior's
    doubt against 1/(2(n-1)), the sampling variance of a log standard deviation. Correlation: in Fisher's z,
    against 1/(n-3). One mark moves only the means; none moves nothing; many leave the prior behind. Marks
    add to those that the prior already rests on only in its count: pass all marks of a golfer at once.
    """
    n = len(marks)
    if n == 0:
        return prior
    toes, highs = [mark[0] for mark in marks], [mark[1] for mark in marks]
    sd_toe, sd_high = _spread(toes, prior.sd_toe, doubt.scatter), _spread(highs, prior.sd_high, doubt.scatter)
    return StrikePattern(
        _mean(toes, sd_toe, prior.mean_toe, doubt.mean_toe),
        _mean(highs, sd_high, prior.mean_high, doubt.mean_high),
        sd_toe,
        sd_high,
        _correlation(toes, highs, prior.correlation, doubt.correlation),
        prior.marks + n,
    )


def _weighed(prior: float, prior_variance: float, seen: float, seen_variance: float) -> float:
    """Combine a prior and what was seen, each by the inverse of its variance; a certain prior stands."""
    if prior_variance <= 0.0:
        return prior
    share = prior_variance / (prior_variance + seen_variance)
    return prior + share * (seen - prior)


def _mean(values: Sequence[float], sd: float, prior: float, doubt: float) -> float:
    """Weigh the mean of some values, whose spread is known, against a prior mean."""
    return _weighed(prior, doubt**2, math.fsum(values) / len(values), sd**2 / len(values))


def _spread(values: Sequence[float], prior: float, doubt: float) -> float:
    """Weigh the standard deviation of some values against a prior one, in logarithms."""
    n = len(values)
    if n < 2 or prior <= 0.0:
        return prior
    centre = math.fsum(values) / n
    variance = math.fsum((value - centre) ** 2 for value in values) / (n - 1)
    # Identical marks are a matter of how finely marks were read: 1 mm either way, not of a perfect golfer.
    seen = 0.5 * math.log(variance + _READING**2)
    return math.exp(_weighed(math.log(prior), doubt**2, seen, 1.0 / (2 * (n - 1))))


def _correlation(toes: Sequence[float], highs: Sequence[float], prior: float, doubt: float) -> float:
    """Weigh the correlation of two columns against a prior one, in Fisher's z; three marks say nothing."""
    n = len(toes)
    if n <= 3:
        return prior
    toe, high = math.fsum(toes) / n, math.fsum(highs) / n
    across = math.fsum((a - toe) * (b - high) for a, b in zip(toes, highs, strict=True))
    size = math.sqrt(math.fsum((a - toe) ** 2 for a in toes) * math.fsum((b - high) ** 2 for b in highs))
    if size == 0.0:
        return prior
    seen = max(-_TIGHTEST, min(_TIGHTEST, across / size))
    return math.tanh(_weighed(math.atanh(prior), doubt**2, math.atanh(seen), 1.0 / (n - 3)))


_READING = 0.001
"""m: how finely a mark on a face is read."""

_TIGHTEST = 0.99
"""The closest correlation that a handful of marks is taken to show."""


def mark_on(high_from_centre: float, face_height: float, met_at: float) -> float:
    """Turn a mark read from face centre into the pattern's datum, m.

    `face_height` is sole (or leading edge) to top of face, `met_at` the height up the face at which
    geometry says the ball was met (`contact.height_up_face`), both from the same datum.
    """
    return face_height / 2 + high_from_centre - met_at
