"""What if: two roads side by side, and only where they differ."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.engine.ledger import Choice
from rules.fitting import fit
from rules.inquiry.ledgers import ledger, picked_of
from rules.inquiry.roads import PARTS, with_answers

if TYPE_CHECKING:
    from rules.engine.views import View
    from rules.facts.answers import Answer
    from rules.facts.subject import Subject
    from rules.fitting import House, Outcome


@dataclass(frozen=True, slots=True)
class Decision:
    """A decision that comes out otherwise."""

    decision: str
    before: str | int | None
    """The candidate, or the amount in thousandths of its unit; None where nothing was decided."""
    after: str | int | None


@dataclass(frozen=True, slots=True)
class Moved:
    """A fact that is otherwise; None where it is not there."""

    fact: str
    before: View | None
    after: View | None


@dataclass(frozen=True, slots=True)
class WhatIf:
    """Two outcomes of one golfer, and what differs between them."""

    before: Outcome
    after: Outcome
    decisions: tuple[Decision, ...]
    facts: tuple[Moved, ...]
    """Facts of the golfer, those that were changed first."""
    gained: tuple[str, ...]
    """Rules whose cautions and advice come up."""
    lost: tuple[str, ...]
    """Rules whose cautions and advice no longer do."""
    points: Mapping[str, tuple[int, int]]
    """Points before and after of the pairs picked in either, thousandths."""


def whatif(
    house: House, subject: Subject, answers: Mapping[str, Answer | None], before: Outcome | None = None
) -> WhatIf:
    """Run the road as it is and with some answers changed (None takes one away), and hold them together."""
    first = before or fit(house, subject)
    return compared(first, fit(house, with_answers(subject, answers)), tuple(answers))


def compared(first: Outcome, second: Outcome, changed: tuple[str, ...] = ()) -> WhatIf:
    """Hold two outcomes together; facts named in `changed` come first."""
    notices = [dict.fromkeys(notice.rule.id for notice in one.notices) for one in (first, second)]
    return WhatIf(
        before=first,
        after=second,
        decisions=_decisions(first, second),
        facts=_facts(first, second, changed),
        gained=tuple(id for id in notices[1] if id not in notices[0]),
        lost=tuple(id for id in notices[0] if id not in notices[1]),
        points=_points(first, second),
    )


def taken(outcome: Outcome) -> dict[str, str | int | None]:
    """Return every decision of an outcome as it stands; an amount in thousandths of its unit."""
    ids = ["pairing", *(f"{role}.{part}" for role in ("longer", "shorter") for part in PARTS)]
    found: dict[str, str | int | None] = {}
    for id in ids:
        one = ledger(outcome, id)
        found[id] = None if one is None else picked_of(outcome, id, one)
    return found


def _decisions(first: Outcome, second: Outcome) -> tuple[Decision, ...]:
    """Return the decisions that differ; of an amount by more than its materiality."""
    before, after = taken(first), taken(second)
    return tuple(
        Decision(id, before[id], after[id]) for id in before if _differs(first, id, before[id], after[id])
    )


def _differs(outcome: Outcome, id: str, one: str | int | None, other: str | int | None) -> bool:
    if isinstance(one, int) and isinstance(other, int):
        return abs(one - other) > outcome.house.base.decisions[id.rpartition(".")[2]].materiality
    return one != other


def _facts(first: Outcome, second: Outcome, changed: tuple[str, ...]) -> tuple[Moved, ...]:
    """Return the golfer's facts whose best values differ."""
    before, after = first.golfer.views, second.golfer.views
    ids = dict.fromkeys((*before, *after))
    moved = [
        Moved(id, before.get(id), after.get(id))
        for id in ids
        if _best(before.get(id)) != _best(after.get(id))
    ]
    return tuple(sorted(moved, key=lambda one: one.fact.partition(".")[0] not in changed))


def _best(view: View | None) -> object:
    return None if view is None else view.best


def _points(first: Outcome, second: Outcome) -> dict[str, tuple[int, int]]:
    """Return what the pairs picked in either outcome score in both."""
    found = {}
    for pair in dict.fromkeys(one.picked.id for one in (first, second) if one.picked):
        scores = [_score(outcome, pair) for outcome in (first, second)]
        if scores[0] is not None and scores[1] is not None:
            found[pair] = (scores[0], scores[1])
    return found


def _score(outcome: Outcome, pair: str) -> int | None:
    """Return a pair's points; None where it is ruled out or not there."""
    choice = ledger(outcome, "pairing")
    standing = choice.standing(pair) if isinstance(choice, Choice) else None
    return None if standing is None or standing.is_ruled_out else standing.points
