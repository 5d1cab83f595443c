"""Reads decisions: choices, and amounts with their start, limits, step and materiality."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, cast

from rules.engine.language import Assumption, Decision, Fact
from rules.engine.reading.conditions import ConditionReader
from rules.engine.reading.facts import SNAKE_WANTED, _unit, read_scope
from rules.engine.reading.sources import read_source
from rules.engine.reading.table import ID, Table
from rules.engine.text import typed
from rules.units import unit


class DecisionReader:
    """Reads [[decision]] entries against facts, assumptions and scopes."""

    def __init__(
        self, scopes: tuple[str, ...], conditions: ConditionReader,
        facts: Mapping[str, Fact], assumptions: Mapping[str, Assumption],
    ) -> None:  # fmt: skip
        self._scopes, self._conditions = scopes, conditions
        self._facts, self._assumptions = facts, assumptions

    def read(self, table: Table) -> Decision:
        """Read one decision."""
        id = table.id("id", ID, SNAKE_WANTED)
        scope = read_scope(table, self._scopes)
        order = table.whole("order", "its place among the decisions of the scope is wanted")
        kind = table.word("kind", ("choice", "amount"), "its kind is wanted: choice or amount")
        title, text, source = table.sentence("title"), table.sentence("text"), read_source(table)
        amount: dict[str, Any] = self._amount(table) if kind == "amount" else {}
        table.close(("unit", "start", "limits", "step", "materiality") if not kind else ())
        plain: Any = kind or "choice"
        return Decision(id, scope, order, plain, title, text, source, **amount)

    def _amount(self, table: Table) -> dict[str, Any]:
        """Read what only an amount has."""
        symbol = _unit(table)
        limits = table.pair("limits", symbol, "its limits are wanted, [lowest, highest]")
        step = self._difference(table, "step", symbol, "its rounding step is wanted")
        if step is not None and (step < 1 or abs(step - round(step)) > 1e-6):
            table.fault("bad-step", ("step",), unit=symbol or "1")
        material = self._difference(
            table, "materiality", symbol, "how small a difference no longer matters is wanted"
        )
        if material is not None and material < 0:
            table.fault("below-nought", ("materiality",), what="materiality")
        start_fact, start_assumption = self._start(table, symbol)
        if start_assumption is not None and limits is not None:
            value = cast(float, self._assumptions[start_assumption].value)
            if not limits[0] <= value <= limits[1]:
                table.fault("limits-start", ("start",), given=typed(value, symbol))
        thousandths = tuple(round(unit(symbol).from_si(x) * 1000) for x in limits or (0.0, 0.0))
        return {
            "unit": symbol, "limits": thousandths, "step": max(1, round(step or 1)),
            "materiality": max(0, round(material or 0)),
            "start_fact": start_fact, "start_assumption": start_assumption,
        }  # fmt: skip

    def _difference(self, table: Table, key: str, symbol: str, wanted: str) -> float | None:
        """Read a difference in thousandths of the unit."""
        raw = table.raw(key, wanted)
        value = None if raw is None else table.quantity((key,), raw, symbol, difference=True)
        return None if value is None else unit(symbol).step_from_si(value) * 1000

    def _start(self, table: Table, symbol: str) -> tuple[str | None, str | None]:
        """Read where an amount starts: a fact or an assumption of its dimension."""
        inner = table.table("start", "where it starts is wanted: { fact = ... } or { assumption = ... }")
        if inner is None:
            return None, None
        by_fact, by_assumption = inner.has("fact"), inner.has("assumption")
        if by_fact == by_assumption:
            what = "both" if by_fact else "neither"
            inner.fault("wrong-type", wanted="either { fact = ... } or { assumption = ... }", given=what)
            return None, None
        if by_fact:
            inner.close()
            fact = self._conditions.fact(inner, ("fact",), inner.data["fact"])
            if fact is not None and self._fits(
                inner, "fact", fact.id, fact.unit, fact.kind == "number", symbol
            ):
                return fact.id, None
            return None, None
        found = self._conditions.assumption(table, ("start",), inner.data)
        if found is not None and self._fits(
            inner, "assumption", found.id, found.unit, found.range is not None, symbol
        ):
            return None, found.id
        return None, None

    @staticmethod
    def _fits(inner: Table, key: str, id: str, own: str, number: bool, symbol: str) -> bool:
        """Return whether a start is a number of the decision's dimension; a fault when not."""
        if number and unit(own).dimension == unit(symbol).dimension:
            return True
        inner.mismatch((key,), f"'{id}'", own or ("" if number else "words"), "the decision", symbol)
        return False
