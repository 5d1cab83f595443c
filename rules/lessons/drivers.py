"""What moved a decision, and by how much: read off the trace, rule by rule and fact by fact.

Of a choice a rule counts by what it gives the pick less what it gives, on average, the rivals in contention:
what every candidate gets alike moves nothing, and neither does what only hopeless ones lose. Of an amount it
counts by its adjustment. Its weight falls on what it read of the golfer and the club; a property of the
candidate itself (how tall this face is) is what was chosen and no reason, unless the rule reads nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from rules.engine.ledger import Amount, Choice
from rules.inquiry.ledgers import picked_of
from rules.lessons.case import ledger_of
from rules.lessons.naming import told_behind, whole

if TYPE_CHECKING:
    from rules.engine.language import Rule
    from rules.engine.ledger import Standing
    from rules.lessons.case import Case

RULED_OUT = 10_000
"""What ruling a candidate out counts as, thousandths of a point: as the choice of questions weighs it."""
CONTENDERS = 10
"""Rivals at most that count as in contention: the better half of them, where that is fewer."""


@dataclass(frozen=True, slots=True)
class Moved:
    """One rule's part in a decision."""

    rule: Rule
    weight: int
    """Thousandths of a point, or of the amount's unit; always above 0."""
    facts: tuple[str, ...]
    """The facts on which that falls: what it read, parts of shares as their whole, the candidate's own left
    out where there is anything else."""


@dataclass(frozen=True, slots=True)
class Drivers:
    """All that moved a decision."""

    decision: str
    rules: tuple[Moved, ...]
    """Weightiest first."""
    facts: Mapping[str, float]
    """What each fact carried, heaviest first, thousandths: a rule's weight falls evenly on what it read."""
    stands_for: Mapping[str, Mapping[str, float]]
    """For a question behind derived facts: the part of each of them that naming it carries."""

    @property
    def total(self) -> float:
        """Everything that was moved, thousandths."""
        return sum(self.facts.values())

    def carried(self, names: Iterable[str]) -> Mapping[str, float]:
        """Return how much of each fact some names carry, 0 to 1: all of one that is named itself."""
        named = frozenset(names)
        found: dict[str, float] = {}
        for fact in self.facts:
            through = sum(self.stands_for.get(name, {}).get(fact, 0.0) for name in named)
            found[fact] = 1.0 if fact in named else min(1.0, through)
        return found

    def share(self, names: Iterable[str]) -> float:
        """Return the share of everything moved that some names carry, 0 to 1; 1 where nothing moved."""
        if not self.facts:
            return 1.0
        found = self.carried(names)
        return min(1.0, sum(weight * found[fact] for fact, weight in self.facts.items()) / self.total)

    def wrong(self, names: Iterable[str]) -> tuple[str, ...]:
        """Return the names that moved nothing and stand behind nothing that did."""
        return tuple(
            name for name in dict.fromkeys(names) if name not in self.facts and name not in self.stands_for
        )


def drivers(case: Case, decision: str) -> Drivers:
    """Return what moved a decision; raises LessonProblem where nothing was decided."""
    found = ledger_of(case, decision)
    if isinstance(found, Amount):
        weights, own = _of_amount(found), frozenset[str]()
    else:
        weights, own = _of_choice(case, decision, found), _own(found)
    moved = [
        Moved(case.base.rules[id], round(weight), _facts(case.base.rules[id], own))
        for id, weight in weights.items()
        if round(weight) > 0 and case.base.rules[id].reads
    ]
    facts = _fallen(moved)
    return Drivers(
        decision,
        tuple(sorted(moved, key=lambda one: (-one.weight, one.rule.id))),
        dict(sorted(facts.items(), key=lambda one: (-one[1], one[0]))),
        _stands_for(case, facts),
    )


def _own(choice: Choice) -> frozenset[str]:
    """Return the facts that belong to the candidates of a choice."""
    return frozenset(whole(id) for one in choice.standings[:1] for id in one.candidate.views)


def _facts(rule: Rule, own: frozenset[str]) -> tuple[str, ...]:
    """Return the facts on which a rule's weight falls."""
    read = frozenset(whole(id) for id in rule.reads)
    return tuple(sorted(read - own or read))


def _of_amount(amount: Amount) -> dict[str, float]:
    """Return by rule how far it moved an amount."""
    return {line.rule.id: float(abs(line.adjust)) for line in amount.lines if line.rule is not None}


def _of_choice(case: Case, decision: str, choice: Choice) -> dict[str, float]:
    """Return by rule how far it set the pick apart from its nearest rivals."""
    picked = picked_of(case.outcome, decision, choice)
    pick = next((one for one in choice.standings if one.candidate.id == picked), None)
    if pick is None:
        return {}
    rivals = contenders(choice, pick)
    ours, theirs = _given(pick), [_given(one) for one in rivals]
    ids = dict.fromkeys(id for given in (ours, *theirs) for id in given)
    count = max(1, len(theirs))
    return {
        id: abs(ours.get(id, 0) - sum(given.get(id, 0) for given in theirs) / count) if theirs else 0.0
        for id in ids
    }


def contenders(choice: Choice, pick: Standing) -> tuple[Standing, ...]:
    """Return the rivals in contention: the better half of them, two at least and `CONTENDERS` at most."""
    rivals = [one for one in choice.standings if one is not pick]
    return tuple(rivals[: min(CONTENDERS, max(2, ceil(len(rivals) / 2)))])


def _given(standing: Standing) -> dict[str, int]:
    """Return by rule what it gives a candidate, thousandths; ruling it out as a heavy loss."""
    found = {line.rule.id: line.points for line in standing.lines if line.rule is not None}
    return found | {line.rule.id: -RULED_OUT for line in standing.ruled_out if line.rule is not None}


def _fallen(moved: Iterable[Moved]) -> dict[str, float]:
    """Return what falls on each fact when every rule's weight is split evenly over what it read."""
    facts: dict[str, float] = {}
    for one in moved:
        for fact in one.facts:
            facts[fact] = facts.get(fact, 0.0) + one.weight / len(one.facts)
    return facts


def _stands_for(case: Case, facts: Iterable[str]) -> dict[str, dict[str, float]]:
    """Return for each question told the part of every derived fact that it carries: its even part."""
    found: dict[str, dict[str, float]] = {}
    for fact in facts:
        told = told_behind(case, fact)
        for question in told:
            found.setdefault(question, {})[fact] = 1 / len(told)
    return found
