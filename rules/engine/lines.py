"""The lines of a ledger, and the rules that stayed silent.

Everything here is a rendering of what the evaluation kept (which cases held, and the views it read); it
is put into words only when someone asks.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal, cast

from rules.engine.evaluate import Outcome
from rules.engine.language import Rule
from rules.engine.plan import Plan
from rules.engine.text import fill, named_facts
from rules.engine.trace import Traced, trace
from rules.engine.views import ABSENT, View
from rules.units import System

LineKind = Literal["rule", "start", "limit", "rounding", "pinned"]
"""What a line stands for; a pinned one holds an amount where a person set it."""


class Evaluated:
    """One evaluation, from which lines are made on demand."""

    __slots__ = ("outcome", "views")

    def __init__(self, views: Mapping[str, View], outcome: Outcome) -> None:
        self.views, self.outcome = views, outcome

    @property
    def plan(self) -> Plan:
        """The rules evaluated."""
        return self.outcome.run.plan

    def look(self, id: str) -> View:
        """Return the view of a fact as this evaluation read it."""
        shared = self.outcome.run.views
        return shared[id] if id in shared else self.views.get(id, ABSENT)

    def result(self, rule: Rule) -> int:
        """Return what a rule that spoke gave, thousandths."""
        ramp = rule.effect.ramp
        return rule.effect.amount if ramp is None else ramp.value(cast(float, self.look(ramp.fact).best))

    def spoke(self, *, ruling_out: bool | None = None) -> list[Rule]:
        """Return the rules that spoke, by id."""
        plan, best = self.plan, self.outcome.best
        return [
            rule
            for rule in plan.rules
            if plan.bits[rule.id] & best
            and (ruling_out is None or (rule.effect.kind == "rule_out") == ruling_out)
        ]

    def silent(self) -> tuple[Silent, ...]:
        """Return the rules that did not speak."""
        plan, best = self.plan, self.outcome.best
        return tuple(Silent(self, rule) for rule in plan.rules if not plan.bits[rule.id] & best)

    def conditions(self, rule: Rule) -> Traced:
        """Return a rule's conditions as they stood."""
        return trace(self.plan, rule.when, self.look)


class Line:
    """One line of a ledger: a rule that spoke, or the start, a limit or the rounding of an amount."""

    __slots__ = ("_evaluated", "_say", "adjust", "kind", "points", "rule")

    def __init__(
        self, kind: LineKind, rule: Rule | None, evaluated: Evaluated, *,
        points: int = 0, adjust: int = 0, say: Callable[[System], str] | None = None,
    ) -> None:  # fmt: skip
        self.kind = kind
        self.rule = rule
        """The rule that spoke; None for start, limit and rounding."""
        self.points = points
        """Of a choice, thousandths; 0 for a rule that rules out."""
        self.adjust = adjust
        """Of an amount, thousandths of its unit; 0 for its start."""
        self._evaluated, self._say = evaluated, say

    @property
    def facts(self) -> dict[str, View]:
        """The facts that this line read or names, by id."""
        if self.rule is None:
            return {}
        ids = sorted(self.rule.reads | set(named_facts(self.rule.because)))
        return {id: self._evaluated.look(id) for id in ids if id in self._evaluated.plan.facts}

    @property
    def conditions(self) -> Traced | None:
        """The rule's conditions as they stood; None for start, limit and rounding."""
        return None if self.rule is None else self._evaluated.conditions(self.rule)

    def text(self, system: System = "imperial") -> str:
        """Say why, with the values filled in."""
        if self.rule is None:
            return self._say(system) if self._say else ""
        return fill(self.rule.because, self._evaluated.plan.facts, self._evaluated.look, system)

    def teaches(self, system: System = "imperial") -> str:
        """Say what the rule teaches, with the values filled in."""
        if self.rule is None:
            return ""
        return fill(self.rule.teaches, self._evaluated.plan.facts, self._evaluated.look, system)

    def __repr__(self) -> str:
        return f"Line({self.kind}, {self.rule.id if self.rule else None}, {self.points or self.adjust})"


class Silent:
    """A rule that did not speak."""

    __slots__ = ("_evaluated", "rule")

    def __init__(self, evaluated: Evaluated, rule: Rule) -> None:
        self.rule = rule
        self._evaluated = evaluated

    @property
    def conditions(self) -> Traced:
        """Its conditions as they stood."""
        return self._evaluated.conditions(self.rule)

    @property
    def blockers(self) -> tuple[Traced, ...]:
        """The comparisons that kept it silent; the ramp's own fact where that is absent."""
        found = self.conditions.blockers()
        ramp = self.rule.effect.ramp
        if ramp is not None and (view := self._evaluated.look(ramp.fact)).best is None:
            found = (*found, Traced(None, 0, ramp.fact, view))
        return found
