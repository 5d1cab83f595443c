"""Which fact decides this? The fact that carried most of what moved a decision, among some that did not."""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from rules.engine.ledger import Amount
from rules.inquiry.ledgers import picked_of
from rules.lessons.case import decided, ledger_of
from rules.lessons.drivers import Drivers, drivers
from rules.lessons.exercises.exercise import Exercise, Figure, Name, Option, Row, Value
from rules.lessons.naming import behind, nameable

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rules.lessons.case import Case

OPTIONS = 4
"""Answers to choose from."""
CLEARLY = 0.6
"""Every other answer carries at most this part of what the right one carries."""


def deciding(case: Case, id: str, seed: int) -> Exercise | None:
    """Ask which of four facts carried most of a decision; None where no fact clearly did."""
    dice = Random(f"deciding {case.id} {seed}")
    decisions = list(decided(case))
    dice.shuffle(decisions)
    for decision in decisions:
        moved = drivers(case, decision)
        others = _others(case, moved)
        if moved.facts and len(others) >= OPTIONS - 1:
            key = next(iter(moved.facts))
            chosen = [key, *dice.sample(others, OPTIONS - 1)]
            dice.shuffle(chosen)
            return _exercise(case, id, moved, key, chosen)
    return None


def _others(case: Case, moved: Drivers) -> list[str]:
    """Return facts that carry clearly less than the heaviest and have no part in it.

    They are such as the decision's own rules read; where those are too few, also what was told.
    """
    if not moved.facts:
        return []
    key, weight = next(iter(moved.facts.items()))
    near = behind(case.house).get(key, frozenset()) | {key}
    related = {id for id, waits in behind(case.house).items() if key in waits} | near

    def apart(ids: Iterable[str]) -> list[str]:
        return [id for id in ids if id not in related and moved.facts.get(id, 0.0) <= CLEARLY * weight]

    read = apart(nameable(case, moved.decision))
    if len(read) >= OPTIONS - 1:
        return read
    told = sorted(id for id, answer in case.subject.answers.items() if answer.value is not None)
    return list(dict.fromkeys((*read, *apart(told))))


def _exercise(case: Case, id: str, moved: Drivers, key: str, chosen: list[str]) -> Exercise:
    """Put the exercise together."""
    working = [
        Row("carried", {"fact": Name("fact", fact), "share": _share(moved, fact)})
        for fact in sorted(chosen, key=lambda fact: -moved.facts.get(fact, 0.0))
    ]
    working += [
        Row("rule", {"rule": Name("rule", one.rule.id), "share": Figure(one.weight / moved.total, "%")})
        for one in moved.rules
        if key in one.facts
    ]
    return Exercise(
        id=id,
        kind="deciding",
        case=case.id,
        topic="deciding",
        values={"decision": Name("decision", moved.decision), "pick": _picked(case, moved.decision)},
        options=tuple(Option(fact, {"fact": Name("fact", fact)}) for fact in chosen),
        key=key,
        working=tuple(working),
        told=tuple(case.subject.answers),
    )


def _share(moved: Drivers, fact: str) -> Figure:
    """Return what a fact carried of all that was moved."""
    return Figure(moved.facts.get(fact, 0.0) / moved.total, "%")


def _picked(case: Case, decision: str) -> Value:
    """Return what was decided."""
    found = ledger_of(case, decision)
    if isinstance(found, Amount):
        return Figure(found.pick_si, found.decision.unit)
    return Name("candidate", str(picked_of(case.outcome, decision, found) or ""), decision)
