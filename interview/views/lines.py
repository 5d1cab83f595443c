"""The lines of a ledger, ready to be shown: what spoke, by how much, why, and on whose word."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from interview.views.sources import PRACTICE, OtherSchool, SourceView, other_school, source_of

if TYPE_CHECKING:
    from rules.engine import Line, RuleBase
    from rules.engine.language import Decision
    from rules.engine.views import Value
    from rules.units import System


class LineView(NamedTuple):
    """One line of a ledger. Points and adjustments are whole thousandths, so that they add up."""

    rule: str
    """Id of the rule; `start`, `limit`, `rounding`, `pinned` or another plain word where no rule spoke."""
    text: str
    """Why, in plain words."""
    source: SourceView
    points: int | None = None
    """Of a choice, thousandths of a point; None in an amount."""
    adjust: int | None = None
    """Of an amount, thousandths of its unit; None in a choice."""
    teaches: str = ""
    """The trainer's sentence; empty where no rule spoke."""
    contested: OtherSchool | None = None
    facts: Mapping[str, Value | None] = MappingProxyType({})
    """What it read or names, by id, SI."""

    @property
    def weight(self) -> int:
        """Return how much it moves, either way, in thousandths."""
        return abs(self.points or self.adjust or 0)

    @property
    def spoken(self) -> bool:
        """Return whether a rule said it."""
        return bool(self.teaches)


def of_choice(line: Line, system: System) -> LineView:
    """Return a line of a choice's ledger."""
    return _of_rule(line, system, points=line.points)


def of_amount(line: Line, base: RuleBase, decision: Decision, system: System) -> LineView:
    """Return a line of an amount's ledger; the start adjusts nothing, since the amount starts there."""
    if line.rule is not None:
        return _of_rule(line, system, adjust=line.adjust)
    source = _start_source(base, decision) if line.kind == "start" else source_of(decision.source)
    return LineView(line.kind, line.text(system), source, adjust=line.adjust)


def said(rule: str, text: str) -> LineView:
    """Return a line of a choice that no rule had to speak on."""
    return LineView(rule, text, PRACTICE, points=0)


def _of_rule(line: Line, system: System, *, points: int | None = None, adjust: int | None = None) -> LineView:
    """Return the line of a rule that spoke."""
    rule = line.rule
    assert rule is not None
    return LineView(
        rule=rule.id,
        text=line.text(system),
        source=source_of(rule.source),
        points=points,
        adjust=adjust,
        teaches=line.teaches(system),
        contested=other_school(rule.contested),
        facts={id: view.best for id, view in line.facts.items()},
    )


def _start_source(base: RuleBase, decision: Decision) -> SourceView:
    """Return the source of an amount's start: of the assumption or of the fact that it starts from."""
    if decision.start_assumption is not None:
        return source_of(base.assumptions[decision.start_assumption].source)
    return source_of(base.facts[decision.start_fact or ""].source)
