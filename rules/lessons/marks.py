"""Marks by the ledger: how close the prediction came, and whether the reasons were those that moved it.

A choice earns by its standing: all for the pick (or one with as many points), nothing for one no better than
the last rival in contention, and in a straight line between. An amount earns all within its
materiality, nothing at six of them, and in a straight line between. Reasons earn the share of all that was
moved which the named facts carried, taken against what the three heaviest carry together; each fact that
moved nothing costs. Luck (right, for reasons that moved little) is told from judgement (near, for the right
reasons).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

from rules.engine.ledger import Amount
from rules.inquiry.ledgers import picked_of
from rules.lessons.case import ledger_of
from rules.lessons.drivers import Drivers, contenders, drivers

if TYPE_CHECKING:
    from rules.engine.ledger import Choice, Standing
    from rules.lessons.case import Case
    from rules.lessons.predict import Prediction

Verdict = Literal["sound", "luck", "judgement", "near_guess", "misjudged", "astray"]
"""Right for the right reasons; right without them; near with them; near without; far with them; neither."""
ANSWER_WORTH, REASONS_WORTH = 0.6, 0.4
"""What the answer and the reasons are worth in the total."""
NOTHING_AT = 6.0
"""An amount so many materialities off earns nothing."""
CARRIERS = 3
"""Naming what this many of the heaviest facts carry is naming enough."""
WRONG_COSTS = 0.15
"""What each named fact costs that moved nothing."""
NEAR = 0.5
"""From here on an answer is near, and reasons are good."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A prediction marked."""

    prediction: Prediction
    pick: str | int
    """What was decided: a candidate's id, or an amount in thousandths of its unit."""
    right: bool
    """The pick itself, or an amount no farther off than its materiality."""
    closeness: float
    """What the answer earns, 0 to 1."""
    reasons: float
    """What the reasons earn, 0 to 1."""
    gap: int | None
    """Points by which it trails the pick, or how far the amount is off (signed), thousandths; None where the
    candidate is ruled out."""
    carried: Mapping[str, float]
    """Of each fact named, the share of all that was moved which it carried, 0 to 1."""
    wrong: tuple[str, ...]
    """Facts named that moved nothing."""
    missed: tuple[str, ...]
    """Facts not named that carried more than the least of the heaviest few: heaviest first."""
    drivers: Drivers

    @property
    def total(self) -> float:
        """What the prediction earns in all, 0 to 1."""
        return ANSWER_WORTH * self.closeness + REASONS_WORTH * self.reasons

    @property
    def verdict(self) -> Verdict:
        """Luck told from judgement."""
        good = self.reasons >= NEAR
        if self.right:
            return "sound" if good else "luck"
        if self.closeness >= NEAR:
            return "judgement" if good else "near_guess"
        return "misjudged" if good else "astray"


def mark(case: Case, prediction: Prediction) -> Mark:
    """Mark a prediction; raises LessonProblem where nothing was decided on it."""
    found = ledger_of(case, prediction.decision)
    moved = drivers(case, prediction.decision)
    names = prediction.reasons
    if isinstance(found, Amount):
        pick: str | int = found.pick
        earned = _amount(found, int(prediction.value))
    else:
        pick = str(picked_of(case.outcome, prediction.decision, found) or "")
        earned = _choice(found, pick, str(prediction.value))
    return Mark(
        prediction=prediction,
        pick=pick,
        right=earned.right,
        closeness=earned.closeness,
        reasons=reasons_earned(moved, names),
        gap=earned.gap,
        carried=_carried(moved, names),
        wrong=moved.wrong(names),
        missed=_missed(moved, names),
        drivers=moved,
    )


def overall(marks: Sequence[Mark]) -> float:
    """Return what several predictions earn on average, 0 to 1; 0 for none."""
    return sum(one.total for one in marks) / len(marks) if marks else 0.0


class _Earned(NamedTuple):
    """What an answer alone comes to."""

    right: bool
    closeness: float
    gap: int | None


def _amount(amount: Amount, said: int) -> _Earned:
    """Return what an amount comes to."""
    off = said - amount.pick
    return _Earned(abs(off) <= _fine(amount), amount_earned(abs(off) / _fine(amount)), off)


def _fine(amount: Amount) -> int:
    """Return the difference that does not matter, thousandths; at least one step of rounding."""
    return max(amount.decision.materiality, amount.decision.step, 1)


def amount_earned(materialities: float) -> float:
    """Return what an amount earns that is so many materialities off, 0 to 1."""
    return min(1.0, max(0.0, (NOTHING_AT - materialities) / (NOTHING_AT - 1)))


def _choice(choice: Choice, pick: str, said: str) -> _Earned:
    """Return what a candidate comes to."""
    mine = next(one for one in choice.standings if one.candidate.id == pick)
    theirs = next(one for one in choice.standings if one.candidate.id == said)
    gap = None if theirs.is_ruled_out else mine.points - theirs.points
    if theirs is mine:
        return _Earned(True, 1.0, 0)
    return _Earned(False, 0.0 if gap is None else choice_earned(gap, _stake(choice, mine)), gap)


def _stake(choice: Choice, mine: Standing) -> int:
    """Return the points from the pick down to the last rival in contention, thousandths."""
    rivals = [one.points for one in contenders(choice, mine) if not one.is_ruled_out]
    return mine.points - min(rivals, default=mine.points)


def choice_earned(gap: int, stake: int) -> float:
    """Return what a candidate earns that trails by `gap` where the last in contention trails by `stake`."""
    if gap <= 0:
        return 1.0
    return max(0.0, 1.0 - gap / stake) if stake > 0 else 0.0


def reasons_earned(moved: Drivers, names: Sequence[str]) -> float:
    """Return what reasons earn, 0 to 1.

    Where nothing moved a decision it stayed where it starts, and naming nothing earns all.
    """
    heaviest = list(moved.facts)[:CARRIERS]
    enough = moved.share(heaviest)
    earned = moved.share(names) / enough if enough > 0 else 1.0
    return max(0.0, min(1.0, earned) - WRONG_COSTS * len(moved.wrong(names)))


def _carried(moved: Drivers, names: Sequence[str]) -> dict[str, float]:
    """Return the share that each name carries alone; 0 for one that moved nothing."""
    return {name: moved.share((name,)) if moved.facts else 0.0 for name in names}


def _missed(moved: Drivers, names: Sequence[str]) -> tuple[str, ...]:
    """Return the heaviest few facts that no name carries by half."""
    carried = moved.carried(names)
    return tuple(fact for fact in list(moved.facts)[:CARRIERS] if carried[fact] < NEAR)
