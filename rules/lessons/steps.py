"""A walk through the trace, one rule at a time: what it read, what it did to whom, and why.

The rules of a decision come weightiest first, and after the last of them the running ledger is the score of
the decision: nothing is left out and nothing is made up.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.engine.ledger import Amount, Choice
from rules.engine.lines import LineKind
from rules.inquiry.ledgers import picked_of
from rules.lessons.case import LessonProblem, decided, ledger_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from rules.engine.language import Contested, Rule, Source
    from rules.engine.ledger import Standing
    from rules.engine.lines import Line
    from rules.engine.views import View
    from rules.lessons.case import Case
    from rules.units import System

SHOWN = 4
"""Candidates that are followed through a choice: the pick, and those that came nearest."""


@dataclass(frozen=True, slots=True)
class Read:
    """A fact that a rule read or named, as it stood."""

    fact: str
    view: View


@dataclass(frozen=True, slots=True)
class Did:
    """What a rule did to one candidate, or to an amount."""

    candidate: str
    """Its id; empty for an amount."""
    by: int
    """Points, or the amount's unit, in thousandths; 0 where the rule did not speak for it."""
    running: int
    """What it has come to after this step, in thousandths."""
    ruled_out: bool = False
    """Whether this rule forbids it."""


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a ledger as a trainee walks past it."""

    decision: str
    number: int
    """From 1, within the decision."""
    of: int
    kind: LineKind
    rule: Rule | None
    """The rule that spoke; None for the start, a limit, or the rounding of an amount."""
    text: str
    """Why, with the values filled in."""
    teaches: str
    reads: tuple[Read, ...]
    did: tuple[Did, ...]
    """The pick first, then those that came nearest; of an amount the one."""
    leader: str
    """Who leads of those followed after this step; empty for an amount."""

    @property
    def contested(self) -> Contested | None:
        """The other school's view, where there is one."""
        return self.rule.contested if self.rule else None

    @property
    def source(self) -> Source | None:
        """On whose word the rule stands; None where no rule spoke."""
        return self.rule.source if self.rule else None


@dataclass(frozen=True, slots=True)
class Walk:
    """Steps, and where the walker stands. It never changes: going on makes another."""

    steps: tuple[Step, ...]
    at: int = 0

    @property
    def step(self) -> Step:
        """The step that the walker is at."""
        return self.steps[self.at]

    @property
    def done(self) -> bool:
        """Whether this is the last step."""
        return self.at == len(self.steps) - 1

    def to(self, at: int) -> Walk:
        """Return the walk at a step counted from 0, held within its ends."""
        return replace(self, at=min(max(at, 0), len(self.steps) - 1))

    def forward(self) -> Walk:
        """Return the walk one step on."""
        return self.to(self.at + 1)

    def back(self) -> Walk:
        """Return the walk one step back."""
        return self.to(self.at - 1)

    def next_decision(self) -> Walk:
        """Return the walk at the first step of the next decision, or where it is in the last one."""
        here = self.step.decision
        later = (i for i in range(self.at, len(self.steps)) if self.steps[i].decision != here)
        return self.to(next(later, self.at))


def walk(case: Case, decision: str, system: System = "imperial") -> Walk:
    """Return a walk through one decision; raises LessonProblem where there is nothing to walk through."""
    steps = _steps(case, decision, system)
    if not steps:
        raise LessonProblem(f"no rule spoke on {decision} in {case.id}; choose another decision")
    return Walk(steps)


def whole_walk(case: Case, system: System = "imperial") -> Walk:
    """Return a walk through every decision of a case; raises LessonProblem where nothing was decided."""
    steps = tuple(step for decision in decided(case) for step in _steps(case, decision, system))
    if not steps:
        raise LessonProblem(f"no pair is possible in {case.id}, so there is no decision to walk through")
    return Walk(steps)


def _steps(case: Case, decision: str, system: System) -> tuple[Step, ...]:
    """Return the steps of one decision."""
    found = ledger_of(case, decision)
    if isinstance(found, Amount):
        return tuple(_of_amount(decision, found, system))
    return tuple(_of_choice(decision, found, str(picked_of(case.outcome, decision, found) or ""), system))


def _of_amount(decision: str, amount: Amount, system: System) -> Iterator[Step]:
    """Yield start, rules, limit and rounding."""
    running, lines = amount.start, amount.lines
    for number, line in enumerate(lines, 1):
        running += line.adjust
        did = (Did("", line.adjust, running),)
        yield _step(decision, number, len(lines), line, did, "", system)


def _of_choice(decision: str, choice: Choice, pick: str, system: System) -> Iterator[Step]:
    """Yield every rule that spoke for or against one of those followed, weightiest first."""
    followed = _followed(choice, pick)
    lines = [_lines(one) for one in followed]
    ids = dict.fromkeys(id for found in lines for id in found)
    ranked = sorted(ids, key=lambda id: (-_weight(lines, id), id))
    running = [0] * len(followed)
    out: set[int] = set()
    for number, id in enumerate(ranked, 1):
        line = next(found[id] for found in lines if id in found)
        did = []
        for i, found in enumerate(lines):
            mine = found.get(id)
            barred = mine is not None and mine.rule is not None and mine.rule.effect.kind == "rule_out"
            running[i] += mine.points if mine else 0
            out |= {i} if barred else set()
            did.append(Did(followed[i].candidate.id, mine.points if mine else 0, running[i], barred))
        leader = min(range(len(followed)), key=lambda i: (i in out, -running[i], followed[i].place))
        yield _step(decision, number, len(ranked), line, tuple(did), followed[leader].candidate.id, system)


def _followed(choice: Choice, pick: str) -> list[Standing]:
    """Return the standings that are followed, the pick first."""
    first = [one for one in choice.standings if one.candidate.id == pick]
    return (first + [one for one in choice.standings if one.candidate.id != pick])[:SHOWN]


def _lines(standing: Standing) -> dict[str, Line]:
    """Return the lines of a standing by rule, those that rule it out included."""
    return {line.rule.id: line for line in (*standing.lines, *standing.ruled_out) if line.rule is not None}


def _weight(lines: list[dict[str, Line]], id: str) -> int:
    """Return the most that a rule gave or took; ruling out weighs most."""
    found = [one[id] for one in lines if id in one]
    if any(line.rule is not None and line.rule.effect.kind == "rule_out" for line in found):
        return 1_000_000
    return max(abs(line.points) for line in found)


def _step(
    decision: str, number: int, of: int, line: Line, did: tuple[Did, ...], leader: str, system: System
) -> Step:
    """Return one step."""
    reads = tuple(Read(id, view) for id, view in line.facts.items())
    return Step(
        decision,
        number,
        of,
        line.kind,
        line.rule,
        line.text(system),
        line.teaches(system),
        reads,
        did,
        leader,
    )
