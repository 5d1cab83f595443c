"""Clubs held against one another, measure by measure, with one honest correction over all that was asked."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from rules.evidence.correction import holm
from rules.evidence.counts import compare_counts
from rules.evidence.intervals import mean
from rules.evidence.needed import balls_for_means, balls_for_shares
from rules.evidence.permutation import Difference, compare
from rules.evidence.summary import Condition, condition, marks_of
from rules.facts.known import assumed

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import Shot
    from rules.facts.tried import Tried

Measure = Literal["usable", "carry", "side", "scatter"]
"""Share of balls that get up; carry of all balls; distance off the line; of marks from their middle."""
MEASURES: tuple[Measure, ...] = ("usable", "carry", "side", "scatter")
MORE_IS_BETTER = {"usable": True, "carry": True, "side": False, "scatter": False}
"""Whether more of a measure is what a golfer wants."""
Verdict = Literal["differs", "same", "open", "not_noted", "not_alike"]
"""A difference; none that matters; too few balls to tell; not noted for both; not off the same ground."""
_FEWEST = 3
"""Balls with each club below which no test is put to them."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """One measure of one club held against another."""

    club: str
    against: str
    measure: Measure
    verdict: Verdict
    balls: tuple[int, int] = (0, 0)
    """Of the club and of the one it is held against, hit from the same ground."""
    ground: Condition | None = None
    """From which both were hit."""
    difference: Difference | None = None
    """The club's less the other's, SI; None where nothing could be tested."""
    corrected: float | None = None
    """p after the correction for all questions of the trial."""
    matters: float | None = None
    """The difference that matters, SI."""
    more: int | None = None
    """Balls more with each club that would tell, where it is open; None for more than one would hit."""
    aimed_at: float | None = None
    """The difference that so many balls would show, SI."""

    @property
    def better(self) -> bool | None:
        """Whether the club is the better one here; None while nothing can be called."""
        if self.verdict != "differs" or self.difference is None:
            return None
        return (self.difference.value > 0) == MORE_IS_BETTER[self.measure]


@dataclass(frozen=True, slots=True)
class Rules:
    """What a trial calls a difference, from the rule base."""

    level: float
    power: float
    carry: float
    """Share of carry."""
    usable: float
    side: float
    """m."""
    scatter: float
    """Share of scatter."""

    @classmethod
    def of(cls, base: RuleBase) -> Rules:
        """Read them from the rule base's assumptions."""
        names = ("level", "power", "carry-matters", "usable-matters", "side-matters", "scatter-matters")
        return cls(*(assumed(base, f"trial-{name}") for name in names))


def compared(rules: Rules, against: Tried, clubs: Sequence[Tried]) -> tuple[Comparison, ...]:
    """Hold clubs against one of them on every measure, and correct for all the questions together.

    Only balls hit from the same ground are compared. Which measures are asked is fixed beforehand, not
    chosen by what the balls look like; a question for which there are no balls costs nothing.
    """
    asked = [_asked(rules, club, against, measure) for club in clubs for measure in MEASURES]
    tested = [one for one in asked if one.comparison.difference is not None]
    corrected = iter(holm([one.comparison.difference.p for one in tested]))  # type: ignore[union-attr]
    return tuple(
        one.comparison
        if one.comparison.difference is None
        else _judged(rules, one, next(corrected), len(tested))
        for one in asked
    )


@dataclass(frozen=True, slots=True)
class _Asked:
    """A question put to the balls, with the values that it was put to."""

    comparison: Comparison
    mine: Sequence[float] = ()
    theirs: Sequence[float] = ()


def shared_ground(first: Sequence[Shot], second: Sequence[Shot]) -> Condition | None:
    """Return the ground from which both clubs have most balls to compare; turf first where it is a tie."""
    counts = Counter(map(condition, first)), Counter(map(condition, second))
    both = [ground for ground in counts[0] if counts[1][ground]]
    order = ("turf", "mat", "tee")
    return max(
        both,
        key=lambda g: (min(counts[0][g], counts[1][g]), -order.index(g.surface), not g.indoors),
        default=None,
    )


def _values(measure: Measure, shots: Sequence[Shot]) -> list[float]:
    """Return what is compared of each ball."""
    if measure == "usable":
        return [float(shot.outcome == "up") for shot in shots if shot.outcome is not None]
    if measure == "carry":
        return [shot.carry for shot in shots if shot.carry is not None]
    if measure == "side":
        return [abs(shot.side) for shot in shots if shot.side is not None]
    return _from_middle(marks_of(shots))


def _from_middle(marks: Sequence[tuple[float, float]]) -> list[float]:
    """Return how far each mark lies from the middle of its club's marks.

    Scaled by sqrt(n/(n-1)), since few marks lie nearer to their own middle than to the true one. Tests on
    such distances are those of H. Levene (1960), in the plane M. J. Anderson (Biometrics 62 (2006) 245).
    """
    n = len(marks)
    if n < 2:
        return []
    toe, high = mean([mark[0] for mark in marks]), mean([mark[1] for mark in marks])
    return [math.hypot(x - toe, y - high) * math.sqrt(n / (n - 1)) for x, y in marks]


def _has(measure: Measure) -> Callable[[Shot], bool]:
    """Return whether a ball has what a measure needs."""
    if measure == "scatter":
        return lambda shot: shot.toe is not None and shot.high is not None
    name = {"usable": "outcome", "carry": "carry", "side": "side"}[measure]
    return lambda shot: getattr(shot, name) is not None


def _asked(rules: Rules, club: Tried, against: Tried, measure: Measure) -> _Asked:
    """Put one question to the balls; what cannot be asked says why."""
    has = _has(measure)
    both = [[shot for shot in one.shots if has(shot)] for one in (club, against)]
    bare = Comparison(club.name, against.name, measure, "not_noted", (len(both[0]), len(both[1])))
    if not all(both):
        return _Asked(bare)
    ground = shared_ground(both[0], both[1])
    if ground is None:
        return _Asked(replace(bare, verdict="not_alike"))
    mine, theirs = (_values(measure, [s for s in shots if condition(s) == ground]) for shots in both)
    matters = _matters(rules, measure, theirs)
    here = replace(
        bare, balls=(len(mine), len(theirs)), ground=ground, verdict="open", matters=matters, aimed_at=matters
    )
    if min(here.balls) < _FEWEST:
        return _Asked(replace(here, more=_FEWEST - min(here.balls)))
    return _Asked(replace(here, difference=_tested(measure, mine, theirs)), mine, theirs)


def _tested(measure: Measure, mine: Sequence[float], theirs: Sequence[float]) -> Difference:
    if measure != "usable":
        return compare(mine, theirs)
    return compare_counts((int(sum(mine)), len(mine)), (int(sum(theirs)), len(theirs)))


def _matters(rules: Rules, measure: Measure, theirs: Sequence[float]) -> float:
    """Return the difference that matters, SI: of carry and scatter a share of the other club's."""
    if measure == "usable":
        return rules.usable
    if measure == "side":
        return rules.side
    return (rules.carry if measure == "carry" else rules.scatter) * (mean(theirs) if theirs else 0.0)


def _judged(rules: Rules, asked: _Asked, p: float, questions: int) -> Comparison:
    """Call a difference, or none that matters, or say how many balls more would tell."""
    one = asked.comparison
    found, matters = one.difference, one.matters or 0.0
    assert found is not None
    if p <= rules.level:
        return replace(one, corrected=p, verdict="differs")
    if -matters < found.low and found.high < matters:
        return replace(one, corrected=p, verdict="same")
    aimed = max(matters, abs(found.value))
    needed = _needed(rules, asked, aimed, questions)
    more = None if needed is None else max(1, needed - min(one.balls))
    return replace(one, corrected=p, verdict="open", more=more, aimed_at=aimed)


def _needed(rules: Rules, asked: _Asked, aimed: float, questions: int) -> int | None:
    """Return the balls with each club that would show a difference, at the level left to one question."""
    level, groups = rules.level / questions, (asked.mine, asked.theirs)
    balls = len(asked.mine) + len(asked.theirs)
    if asked.comparison.measure == "usable":
        # One ball added on either side: six of six is not certain for ever.
        seen = (math.fsum(map(math.fsum, groups)) + 1) / (balls + 2)
        middle = min(max(seen, aimed / 2), 1 - aimed / 2)
        return balls_for_shares(middle - aimed / 2, middle + aimed / 2, level, rules.power)
    squares = math.fsum((value - mean(group)) ** 2 for group in groups for value in group)
    return balls_for_means(aimed, math.sqrt(squares / (balls - 2)), level, rules.power)
