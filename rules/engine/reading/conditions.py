"""Reads conditions: one comparison, or all, any and none of several, nested but not deeply."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from rules.engine.language import Assumed, Assumption, Atom, Condition, Fact, Group, Threshold
from rules.engine.reading.table import Table, given
from rules.engine.text import typed
from rules.units import unit

MOST_DEEP = 6
"""Levels of groups inside groups."""
GROUPS = ("all", "any", "none")
NUMBER_OPS = ("is", "is_not", "below", "at_most", "above", "at_least", "between", "known", "unknown")
WORD_OPS = ("is", "is_not", "one_of", "known", "unknown")
OPERATORS = (*NUMBER_OPS, "one_of")


def told(assumption: Assumption) -> str:
    """Name an assumption's value for a sentence about it."""
    value = assumption.value
    return typed(value, assumption.unit).join("''") if isinstance(value, float) else given(value)


class ConditionReader:
    """Reads conditions against the facts and assumptions of a rule base."""

    def __init__(
        self, facts: Mapping[str, Fact], assumptions: Mapping[str, Assumption], broken: frozenset[str]
    ) -> None:
        self._facts, self._assumptions, self._broken = facts, assumptions, broken

    def read(self, table: Table, depth: int = 1) -> Condition | None:
        """Read one condition; None after a fault."""
        groups = [key for key in GROUPS if table.has(key)]
        if not groups:
            return self._atom(table)
        if len(table.data) != 1:
            table.fault("bad-condition")
            return None
        if depth > MOST_DEEP:
            table.fault("too-deep", most=MOST_DEEP)
            return None
        key = groups[0]
        rows = table.listed((key,), table.data[key], "a list of conditions")
        parts = [self._part(table, key, i, raw, depth) for i, raw in enumerate(rows)]
        good = tuple(part for part in parts if part is not None)
        return Group(key, good) if good else None

    def _part(self, table: Table, key: str, index: int, raw: object, depth: int) -> Condition | None:
        if not isinstance(raw, dict):
            table.fault("wrong-type", (key, index), wanted="a condition", given=given(raw))
            return None
        return self.read(table.inner((key, index), raw), depth + 1)

    def _atom(self, table: Table) -> Condition | None:
        """Read one comparison."""
        if not table.has("fact"):
            table.fault("bad-condition")
            return None
        id = table.raw("fact")
        ops = [op for op in OPERATORS if table.has(op)]
        table.close()
        fact = self.fact(table, ("fact",), id)
        if fact is None:
            return None
        allowed = NUMBER_OPS if fact.kind == "number" else WORD_OPS
        if len(ops) != 1:
            table.fault("one-operator", wanted=", ".join(allowed))
            return None
        op = ops[0]
        if op not in allowed:
            table.fault(
                "wrong-operator",
                (op,),
                at_key=True,
                op=op,
                kind=fact.kind,
                fact=fact.id,
                wanted=", ".join(allowed),
            )
            return None
        return self._compare(table, fact, op, table.data[op])

    def fact(self, table: Table, key: tuple[str | int, ...], id: Any) -> Fact | None:
        """Find the fact that a raw id names; None after a fault, or when the fact itself is faulty."""
        fact = self._facts.get(id) if isinstance(id, str) else None
        if fact is not None and fact.kind == "shares":
            table.fault("shares-whole", key, id=fact.id, part=fact.values[0] if fact.values else "part")
            return None
        if fact is None and not self._blamed(id):
            table.unknown("unknown-fact", key, id, self._facts)
        return fact

    def _blamed(self, id: Any) -> bool:
        """Say whether an entry has faults of its own, so that what refers to it is not blamed as well."""
        return isinstance(id, str) and id in self._broken

    def _compare(self, table: Table, fact: Fact, op: str, raw: Any) -> Atom | None:
        if op in ("known", "unknown"):
            if raw is not True:
                table.fault("wrong-type", (op,), wanted=f"'{op} = true'", given=given(raw))
                return None
            return Atom(fact.id, op, True)
        if op == "one_of":
            rows = table.listed((op,), raw, "a list of words")
            found = [table.match((op, i), word, fact.values) for i, word in enumerate(rows)]
            return Atom(fact.id, op, frozenset(found)) if all(found) and found else None
        if fact.kind != "number":
            return self._is_word(table, fact, op, raw)
        if op != "between":
            threshold = self.threshold(table, (op,), fact, raw)
            return None if threshold is None else Atom(fact.id, op, threshold)
        if not isinstance(raw, list) or len(raw) != 2:
            table.fault("wrong-type", (op,), wanted="a pair [lowest, highest]", given=given(raw))
            return None
        low, high = (self.threshold(table, (op, i), fact, end) for i, end in enumerate(raw))
        if low is None or high is None:
            return None
        if self._plain(low) > self._plain(high):
            table.fault("range-order", (op,))
        return Atom(fact.id, op, (low, high))

    def _plain(self, threshold: Threshold) -> float:
        if isinstance(threshold, Assumed):
            return float(self._assumptions[threshold.id].value)  # type: ignore[arg-type]
        return threshold

    def _is_word(self, table: Table, fact: Fact, op: str, raw: Any) -> Atom | None:
        if isinstance(raw, dict):
            assumption = self.assumption(table, (op,), raw)
            if assumption is None:
                return None
            if assumption.value not in fact.values:
                table.fault(
                    "assumption-kind", (op,), assumption=assumption.id,
                    given=told(assumption), wanted=f"one of {', '.join(fact.values)}",
                )  # fmt: skip
                return None
            return Atom(fact.id, op, Assumed(assumption.id))
        word = table.match((op,), raw, fact.values)
        return Atom(fact.id, op, word) if word else None

    def assumption(self, table: Table, key: tuple[str | int, ...], raw: dict[str, Any]) -> Assumption | None:
        """Find the assumption that `{ assumption = "id" }` names; None after a fault."""
        inner = table.inner(key, raw)
        id = inner.raw("assumption", "the id of an assumption is wanted")
        inner.close()
        if id is None or self._blamed(id):
            return None
        found = self._assumptions.get(id) if isinstance(id, str) else None
        if found is None:
            inner.unknown("unknown-assumption", ("assumption",), id, self._assumptions)
        return found

    def threshold(self, table: Table, key: tuple[str | int, ...], fact: Fact, raw: Any) -> Threshold | None:
        """Read a number to compare with: a quantity of the fact's dimension, or an assumption's."""
        if isinstance(raw, dict):
            return self._assumed(table, key, fact, raw)
        return self.number(table, key, fact, raw)

    def number(self, table: Table, key: tuple[str | int, ...], fact: Fact, raw: Any) -> float | None:
        """Read a quantity of the fact's dimension and inside its range; None after a fault."""
        value = table.quantity(key, raw, fact.unit)
        if value is None:
            return None
        low, high = fact.range
        slack = 1e-9 * (high - low)
        if not low - slack <= value <= high + slack:
            within = f"{typed(low, fact.unit)} to {typed(high, fact.unit)}"
            table.fault("outside-range", key, given=given(raw), fact=fact.id, range=within)
        return value

    def _assumed(
        self, table: Table, key: tuple[str | int, ...], fact: Fact, raw: dict[str, Any]
    ) -> Threshold | None:
        assumption = self.assumption(table, key, raw)
        if assumption is None:
            return None
        if assumption.range is None:
            table.fault(
                "assumption-kind",
                key,
                assumption=assumption.id,
                given=told(assumption),
                wanted="a number",
            )
            return None
        if unit(assumption.unit).dimension != unit(fact.unit).dimension:
            table.mismatch(key, f"'{assumption.id}'", assumption.unit, f"'{fact.id}'", fact.unit)
            return None
        return Assumed(assumption.id)
