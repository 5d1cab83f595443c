"""A case to learn from: one golfer, and what the rules alone decide for him."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.fitting import fit
from rules.inquiry import roads
from rules.inquiry.ledgers import ledger
from rules.inquiry.roads import PARTS
from rules.problems import Problem

if TYPE_CHECKING:
    from rules.engine import Amount, Choice, RuleBase
    from rules.facts.answers import Answer
    from rules.facts.subject import Subject
    from rules.fitting import House, Outcome

DECISIONS = ("pairing", *(f"{role}.{part}" for role in ("longer", "shorter") for part in PARTS))
"""Every decision of a case, in the order in which they are taught: the pair, then part by part."""


class LessonProblem(Problem):
    """Something asked of a lesson that cannot be done."""


@dataclass(frozen=True, slots=True)
class Case:
    """One golfer and what the rules decide; what a fitter decided instead is left aside."""

    id: str
    outcome: Outcome
    note: str = ""
    """What the case teaches."""

    @property
    def house(self) -> House:
        """The rules and the shelf that decided it."""
        return self.outcome.house

    @property
    def base(self) -> RuleBase:
        """The rules that decided it."""
        return self.outcome.house.base

    @property
    def subject(self) -> Subject:
        """What is known of the golfer."""
        return self.outcome.subject


def open_case(house: House, id: str, subject: Subject, note: str = "") -> Case:
    """Run the road for a golfer as the rules decide; raises the road's own problems."""
    return Case(id, fit(house, replace(subject, overrides={})), note)


def with_answers(case: Case, answers: Mapping[str, Answer | None]) -> Case:
    """Return the case with some answers changed; None takes one away."""
    return open_case(case.house, case.id, roads.with_answers(case.subject, answers), case.note)


def under(case: Case, house: House) -> Case:
    """Return the case under other rules or from another shelf."""
    return open_case(house, case.id, case.subject, case.note)


def ledger_of(case: Case, decision: str) -> Choice | Amount:
    """Return the ledger of a decision; raises LessonProblem where nothing was decided on it."""
    found = ledger(case.outcome, decision)
    if found is None:
        raise LessonProblem(f"nothing was decided on {decision} in {case.id}; choose another decision")
    return found


def decided(case: Case) -> tuple[str, ...]:
    """Return the decisions that have a ledger; those of a club the golfer keeps have none."""
    if case.outcome.picked is None:
        return ()
    return tuple(id for id in DECISIONS if ledger(case.outcome, id) is not None)
