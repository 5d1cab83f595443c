"""Which rules did it: the ledgers of two roads held together, rule by rule."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.engine.ledger import Amount
from rules.inquiry.audit import given
from rules.inquiry.ledgers import ledger, picked_of

if TYPE_CHECKING:
    from rules.engine.ledger import Choice
    from rules.fitting import Outcome

_MOST = 4
"""Rules named at most for one change."""
_LEAST = 5e-4
NO_RULES = frozenset(("start", "limit", "rounding", "pinned"))
"""Lines of an amount's ledger that are no rules."""


@dataclass(frozen=True, slots=True)
class Blame:
    """One rule's part in a change of a decision."""

    rule: str
    """Its id; of an amount also start, limit or rounding."""
    points: int | None
    """Thousandths (of a point, of an amount's unit) by which it moved what is decided now against what was
    decided then, of an amount with the amount's own sign; None where it forbids what was decided then, or
    forbids no longer what is decided now."""


def blamed(before: Outcome, after: Outcome, decision: str) -> tuple[Blame, ...]:
    """Return the rules that moved a decision most toward what it is now, weightiest first.

    Of a choice: what a rule gives the candidate picked now less the one picked then, now less the same
    then. Of an amount: what a rule adds now less what it added then, where that is toward the amount of
    now. Empty where either road did not decide it or knows only one of the candidates: then what there is
    to choose from did it.
    """
    then, now = ledger(before, decision), ledger(after, decision)
    if then is None or now is None:
        return ()
    if isinstance(then, Amount) or isinstance(now, Amount):
        return _of_amounts(then, now)
    old, new = (str(picked_of(one, decision, of)) for one, of in ((before, then), (after, now)))
    leads = (_lead(then, new, old), _lead(now, new, old))
    if leads[0] is None or leads[1] is None:
        return ()
    forbidden = (
        _forbidding(now, old) - _forbidding(then, old), _forbidding(then, new) - _forbidding(now, new)
    )  # fmt: skip
    out = [Blame(rule, None) for some in forbidden for rule in sorted(some)]
    return (*out, *_ranked(leads[0], leads[1], 1))[:_MOST]


def _of_amounts(then: Choice | Amount, now: Choice | Amount) -> tuple[Blame, ...]:
    """Return the lines that moved an amount toward what it is now; none where one is no amount."""
    if not isinstance(then, Amount) or not isinstance(now, Amount):
        return ()
    return _ranked(given(then, "") or {}, given(now, "") or {}, 1 if now.pick > then.pick else -1)


def _lead(found: Choice, one: str, other: str) -> Mapping[str, float] | None:
    """Return by rule the points of one candidate less those of another; None where either is not there."""
    mine, theirs = (_points(found, id) for id in (one, other))
    if mine is None or theirs is None:
        return None
    return {rule: mine.get(rule, 0.0) - theirs.get(rule, 0.0) for rule in {**mine, **theirs}}


def _points(found: Choice, id: str) -> Mapping[str, float] | None:
    """Return what each rule gives a candidate, ruled out or not; None where it is not there."""
    standing = found.standing(id)
    if standing is None:
        return None
    return {line.rule.id: line.points / 1000 for line in standing.lines if line.rule is not None}


def _forbidding(found: Choice, id: str) -> frozenset[str]:
    """Return the rules that rule a candidate out."""
    standing = found.standing(id)
    lines = standing.ruled_out if standing is not None else ()
    return frozenset(line.rule.id for line in lines if line.rule is not None)


def _ranked(then: Mapping[str, float], now: Mapping[str, float], way: int) -> tuple[Blame, ...]:
    """Return what moved the given way, the most first."""
    moved: Counter[str] = Counter()
    for rule in {**then, **now}:
        by = way * (now.get(rule, 0.0) - then.get(rule, 0.0))
        if by > _LEAST:
            moved[rule] = round(by * 1000)
    ranked = sorted(moved.items(), key=lambda one: (-one[1], one[0]))
    return tuple(Blame(rule, way * points) for rule, points in ranked[:_MOST])
