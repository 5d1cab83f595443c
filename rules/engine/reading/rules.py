"""Reads rules."""

from __future__ import annotations

from collections.abc import Mapping

from rules.engine.language import Contested, Decision, Effect, Fact, Rule
from rules.engine.reading.conditions import ConditionReader
from rules.engine.reading.effects import EFFECTS, EffectReader
from rules.engine.reading.facts import KEBAB_WANTED, read_scope
from rules.engine.reading.sources import read_source
from rules.engine.reading.table import KEBAB, Table
from rules.engine.text import named_facts, stray_brace


class RuleReader:
    """Reads [[rule]] entries against facts and decisions."""

    def __init__(
        self, scopes: tuple[str, ...], conditions: ConditionReader,
        facts: Mapping[str, Fact], decisions: Mapping[str, Decision], broken: frozenset[str],
    ) -> None:  # fmt: skip
        self._scopes, self._conditions = scopes, conditions
        self._facts, self._decisions, self._broken = facts, decisions, broken
        self._effects = EffectReader(conditions)

    def read(self, table: Table) -> Rule | None:
        """Read one rule; None when it cannot be used."""
        id = table.id("id", KEBAB, KEBAB_WANTED)
        scope = read_scope(table, self._scopes)
        when = table.table("when")
        condition = None if when is None else self._conditions.read(when)
        usable, decision = self._decision(table)
        raw = table.table("effect", "what the rule does is wanted: " + ", ".join(EFFECTS))
        effect = self._effects.read(raw, decision) if usable else None
        because, teaches = self._sentence(table, "because"), self._sentence(table, "teaches")
        source = read_source(table)
        contested = self._contested(table, decision) if usable else None
        table.close(("contested",))
        if effect is None or not id or not scope or (when is not None and condition is None):
            return None
        return Rule(
            id,
            decision.id if decision else None,
            scope,
            condition,
            effect,
            because,
            teaches,
            source,
            contested,
        )

    def _decision(self, table: Table) -> tuple[bool, Decision | None]:
        """Return whether the rule's decision can be used, and which it is."""
        raw = table.raw("decision")
        if raw is None:
            effect = table.data.get("effect")
            if isinstance(effect, dict) and effect.keys() & {"points", "rule_out", "adjust"}:
                table.fault("needs-decision", at_key=True)
                return False, None
            return True, None
        found = self._decisions.get(raw) if isinstance(raw, str) else None
        if found is None and not (isinstance(raw, str) and raw in self._broken):
            table.unknown("unknown-decision", ("decision",), raw, self._decisions)
        return found is not None, found

    def _sentence(self, table: Table, key: str) -> str:
        """Read a sentence whose braces may name facts."""
        text = table.sentence(key)
        for name in named_facts(text):
            fact = self._facts.get(name)
            if fact is not None and fact.kind == "shares":
                table.fault("shares-whole", (key,), id=fact.id, part=fact.values[0])
            elif fact is None and name not in self._broken:
                table.fault("brace-unknown", (key,), given=name[:40], near=(name, self._facts))
        stray = stray_brace(text)
        if stray is not None:
            table.fault("brace-stray", (key,), given=stray)
        return text

    def _contested(self, table: Table, decision: Decision | None) -> Contested | None:
        inner = table.table("contested")
        if inner is None:
            return None
        other = self._sentence(inner, "other")
        leans = self._sentence(inner, "leans")
        effect: Effect | None = None
        if inner.has("effect"):
            effect = self._effects.read(inner.table("effect"), decision)
        inner.close()
        return Contested(other, leans, effect)
