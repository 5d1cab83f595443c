"""Checks across entries: scopes, the order of decisions, and what a text may name."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from rules.engine.cases import MOST_CASES, count_cases
from rules.engine.language import Condition, Decision, Effect, Fact, Rule, atoms
from rules.engine.reading.table import Table
from rules.engine.text import named_facts


class Checks:
    """Holds entries against one another; faults go to the tables that they were read from."""

    def __init__(
        self, scopes: tuple[str, ...], facts: Mapping[str, Fact], decisions: Mapping[str, Decision]
    ) -> None:
        self._rank = {scope: i for i, scope in enumerate(scopes)}
        self._facts, self._decisions = facts, decisions

    def _later(self, scope: str, other: str) -> bool:
        """Return whether `scope` comes after `other`."""
        return self._rank.get(scope, 0) > self._rank.get(other, 0)

    def fact(self, fact: Fact, table: Table) -> None:
        """Check one fact: what it is decided with, and what its question's condition reads."""
        if fact.decided_with is not None:
            self._decided_with(fact, table)
        if fact.ask is not None:
            for id in _read(fact.ask.applies):
                if self._later(self._facts[id].scope, fact.scope):
                    table.fault("applies-scope", ("ask", "applies"))

    def _decided_with(self, fact: Fact, table: Table) -> None:
        decision = self._decisions.get(fact.decided_with or "")
        if decision is None:
            table.unknown("unknown-decision", ("decided_with",), fact.decided_with, self._decisions)
        elif decision.kind == "amount":
            table.fault("decided-amount", ("decided_with",), fact=fact.id, other=decision.id)
        elif decision.scope != fact.scope:
            table.fault("decided-scope", ("decided_with",), fact=fact.id, other=decision.id)

    def decisions(self, tables: Mapping[str, Table]) -> None:
        """Check that decisions of a scope have an order, and that a start may be read."""
        seen: dict[tuple[str, int], str] = {}
        for id, decision in self._decisions.items():  # one whose id is no id has none of its own
            place, table = (decision.scope, decision.order), tables[id]
            if place in seen:
                table.fault(
                    "duplicate-order",
                    ("order",),
                    other=seen[place],
                    order=decision.order,
                    scope=decision.scope,
                )
            seen.setdefault(place, decision.id)
            if decision.start_fact:
                self._may_read(table, ("start", "fact"), decision.start_fact, decision.scope, decision)

    def rule(self, rule: Rule, table: Table) -> None:
        """Check one rule: its scope, what it reads, and how far its condition unfolds."""
        decision = self._decisions.get(rule.decision or "")
        if decision is not None and self._later(rule.scope, decision.scope):
            table.fault(
                "rule-scope", ("scope",), scope=rule.scope, decision=decision.id, other=decision.scope
            )
        if count_cases(rule.when) > MOST_CASES:
            table.fault("too-tangled", ("when",), most=MOST_CASES)
        for id in _read(rule.when):
            self._may_read(table, ("when",), id, rule.scope, decision)
        for effect, key in ((rule.effect, ("effect",)), (_other_effect(rule), ("contested", "effect"))):
            if effect is not None and effect.ramp is not None:
                self._may_read(table, key, effect.ramp.fact, rule.scope, decision)
        for name in ("because", "teaches"):
            for id in named_facts(getattr(rule, name)):
                if id in self._facts:
                    self._may_read(table, (name,), id, rule.scope, decision)

    def _may_read(
        self, table: Table, key: tuple[str, ...], id: str, scope: str, decision: Decision | None
    ) -> None:
        """Note a fault when a reader of a scope and decision may not read a fact."""
        fact = self._facts[id]
        if self._later(fact.scope, scope):
            table.fault("wrong-scope", key, scope=scope, fact=fact.id, other=fact.scope)
            return
        with_ = self._decisions.get(fact.decided_with or "")
        if with_ is None or decision is None or decision.scope != with_.scope:
            return
        if with_.order > decision.order:
            table.fault("decided-later", key, fact=fact.id, other=with_.id)


def _read(condition: Condition | None) -> Iterable[str]:
    """Return the facts that a condition reads, each once."""
    return dict.fromkeys(atom.fact for atom in atoms(condition))


def _other_effect(rule: Rule) -> Effect | None:
    """Return the effect of the other school, if it has one."""
    return rule.contested.effect if rule.contested else None
