"""Reads facts and assumptions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, cast

from rules.engine.language import Ask, Assumption, Fact, Kind
from rules.engine.reading.conditions import ConditionReader, told
from rules.engine.reading.effects import read_topic
from rules.engine.reading.sources import read_source
from rules.engine.reading.table import ID, KEBAB, Table, given
from rules.engine.text import typed
from rules.engine.views import CouldBe, Value
from rules.units import UnitError, unit

KINDS = ("number", "choice", "set", "shares")
CLAIMS = ("measured", "said", "estimated")
SNAKE_WANTED = "lower-case letters, digits and underscores, a letter first"
KEBAB_WANTED = "lower-case letters, digits and hyphens"


def read_assumption(table: Table) -> Assumption:
    """Read one [[assumption]]."""
    id = table.id("id", KEBAB, KEBAB_WANTED)
    symbol = _unit(table)
    raw = table.raw("value", "its value is wanted")
    range: tuple[float, float] | None = None
    values: tuple[str, ...] = ()
    value: Value = 0.0
    if table.has("values"):
        values = _words(table)
        value = _word_value(table, raw, values)
    else:
        range = table.pair(
            "range", symbol, "its plausible range is wanted, [lowest, highest], or its 'values'"
        )
        number = None if raw is None else table.quantity(("value",), raw, symbol)
        value = 0.0 if number is None else number
        if range and number is not None and not _inside(number, range):
            _outside(table, "value", raw, id, range, symbol)
    text, source = table.sentence("text"), read_source(table)
    table.close()
    return Assumption(id, value, range, values, symbol, text, source)


def _inside(value: float, range: tuple[float, float]) -> bool:
    """Return whether a value lies in a range, a rounding error allowed."""
    slack = 1e-9 * (range[1] - range[0])
    return range[0] - slack <= value <= range[1] + slack


def _outside(table: Table, key: str, raw: Any, id: str, range: tuple[float, float], symbol: str) -> None:
    """Note that a value lies outside the range of its owner."""
    within = f"{typed(range[0], symbol)} to {typed(range[1], symbol)}"
    table.fault("outside-range", (key,), given=given(raw), fact=id, range=within)


def _word_value(table: Table, raw: Any, values: tuple[str, ...]) -> Value:
    """Read an assumption's word, or list of words; a fault of the words themselves is told already."""
    if raw is None or not values:
        return ""
    if isinstance(raw, list):
        return frozenset(table.match(("value", i), word, values) for i, word in enumerate(raw))
    return table.match(("value",), raw, values)


def _unit(table: Table) -> str:
    """Read a unit by its symbol; a plain number when there is none."""
    raw = table.raw("unit")
    if raw is None or raw == "":
        return ""
    if not isinstance(raw, str):
        table.fault("wrong-type", ("unit",), wanted="a unit such as 'mph'", given=given(raw))
        return ""
    try:
        return unit(raw).symbol
    except UnitError as error:
        table.fault("bad-quantity", ("unit",), why=str(error))
        return ""


def _words(table: Table) -> tuple[str, ...]:
    """Read the words that a fact or assumption may be."""
    rows = table.items("values", "the list of its words is wanted")
    for i, word in enumerate(rows):
        if not isinstance(word, str) or not ID.fullmatch(word) or len(word) > 40:
            table.fault("bad-id", ("values", i), given=given(word), wanted=SNAKE_WANTED)
        elif word in rows[:i]:
            table.fault(
                "duplicate", ("values", i), what="word", id=word, where="an earlier place of the list"
            )
    return tuple(word for word in rows if isinstance(word, str))


class FactReader:
    """Reads [[fact]] entries against scopes, topics and assumptions."""

    def __init__(
        self, scopes: tuple[str, ...], topics: tuple[str, ...], assumptions: Mapping[str, Assumption],
        broken: frozenset[str],
    ) -> None:  # fmt: skip
        """`broken` names assumptions with faults of their own: who leans on them is not blamed as well."""
        self._scopes, self._topics = scopes, topics
        self._assumptions, self._broken = assumptions, broken

    def read(self, table: Table) -> Fact:
        """Read one fact; whether its question applies is read later, when all facts are there."""
        id = table.id("id", ID, SNAKE_WANTED)
        scope = read_scope(table, self._scopes)
        kind = cast(Kind, table.word("kind", KINDS, "its kind is wanted: " + ", ".join(KINDS)))
        number = kind == "number"
        symbol = _unit(table) if number else ""
        range = table.pair("range", symbol, "its range is wanted, [lowest, highest]") if number else None
        values = () if number or not kind else _words(table)
        title, text = table.sentence("title"), table.sentence("text")
        derived = table.flag("derived")
        ask = self._ask(table)
        if ask and derived:
            table.fault("derived-asked", ("derived",))
        fact = Fact(
            id, scope, kind, symbol, values, range or (0.0, 0.0), title, text, read_source(table),
            _widest(kind, range, values), ask, self._fallback(table, kind, symbol, values),
            self._spread(table, symbol) if number else {}, _plausible(table, kind, symbol, values),
            derived, table.text("decided_with", "the id of a decision") or None,
            table.sentence("used_for") if table.has("used_for") else "",
        )  # fmt: skip
        table.close(() if kind else ("unit", "range", "spread", "values", "plausible"))
        return fact

    def _ask(self, table: Table) -> Ask | None:
        inner = table.table("ask")
        if inner is None:
            return None
        topic = read_topic(inner, "topic", self._topics)
        order = inner.whole("order", "its place among the questions of the topic is wanted")
        always = inner.flag("always")
        inner.has("applies")
        inner.close()
        return Ask(topic, order, always)

    def _fallback(self, table: Table, kind: str, symbol: str, values: tuple[str, ...]) -> str | None:
        raw = table.raw("fallback")
        if raw is None:
            return None
        found = self._assumptions.get(raw) if isinstance(raw, str) else None
        if found is None:
            table.unknown("unknown-assumption", ("fallback",), raw, self._assumptions)
            return None
        if kind and found.id not in self._broken and (kind == "number" or values):
            self._fits(table, found, kind, symbol, values)
        return found.id

    @staticmethod
    def _fits(table: Table, found: Assumption, kind: str, symbol: str, values: tuple[str, ...]) -> None:
        """Note a fault when an assumption cannot stand in for a fact."""
        if kind == "number" and found.range is not None:
            if unit(found.unit).dimension != unit(symbol).dimension:
                table.mismatch(("fallback",), f"'{found.id}'", found.unit, "this fact", symbol)
            return
        several = isinstance(found.value, frozenset)
        wanted = found.value if isinstance(found.value, frozenset) else {found.value}
        if kind == "number" or several != (kind == "set") or not wanted <= set(values):
            some = "a list of some of" if kind == "set" else "one of"
            fits = "a number" if kind == "number" else f"{some} {', '.join(values)}"
            table.fault("assumption-kind", ("fallback",), assumption=found.id, given=told(found), wanted=fits)

    def _spread(self, table: Table, symbol: str) -> dict[str, float]:
        inner = table.table("spread")
        if inner is None:
            return {}
        spread = {}
        for how in CLAIMS:
            raw = inner.raw(how)
            value = None if raw is None else inner.quantity((how,), raw, symbol, difference=True)
            if value is not None and value < 0:
                inner.fault("below-nought", (how,), what="spread")
            elif value is not None:
                spread[how] = value
        inner.close()
        return spread


def read_scope(table: Table, scopes: tuple[str, ...]) -> str:
    """Read the scope of an entry."""
    raw = table.raw("scope", "its scope is wanted: " + ", ".join(scopes))
    if raw is None or raw in scopes or not scopes:
        return str(raw or "")
    table.unknown("unknown-scope", ("scope",), raw, scopes)
    return ""


def _widest(kind: str, range: tuple[float, float] | None, values: tuple[str, ...]) -> CouldBe:
    """Return what a fact could be while nothing is known of it."""
    if kind == "number":
        return range or (0.0, 0.0)
    return (frozenset(), frozenset(values)) if kind == "set" else frozenset(values)


def _plausible(
    table: Table, kind: str, symbol: str, values: tuple[str, ...]
) -> tuple[float, float] | dict[str, float] | None:
    """Read where an open question's answer is likely."""
    if not table.has("plausible") or not kind:
        return None
    if kind == "number":
        return table.pair("plausible", symbol, "")
    inner = table.table("plausible", "a table of words and weights")
    if inner is None:
        return None
    weights: dict[str, float] = {}
    for word in list(inner.data)[:100]:
        raw = inner.raw(word)
        if values and word not in values:
            inner.match((word,), word, values)
        elif isinstance(raw, bool) or not isinstance(raw, int | float) or not 0 <= raw < 1e6:
            inner.fault("wrong-type", (word,), wanted="a weight from 0 to below a million", given=given(raw))
        else:
            weights[word] = float(raw)
    if weights and not sum(weights.values()) > 0:
        inner.fault("wrong-type", wanted="a weight above 0 for at least one word", given="nothing but 0")
    return weights


def with_applies(fact: Fact, table: Table, conditions: ConditionReader) -> Fact:
    """Read when a fact's question applies, now that every fact is there."""
    inner = table.data.get("ask")
    if fact.ask is None or not isinstance(inner, dict) or "applies" not in inner:
        return fact
    applies = table.inner(("ask",), inner).table("applies", "a condition")
    return fact if applies is None else replace(fact, ask=replace(fact.ask, applies=conditions.read(applies)))


def parts(fact: Fact) -> list[Fact]:
    """Return the parts of a shares fact, each a number fact of its own."""
    return [
        Fact(
            f"{fact.id}.{value}", fact.scope, "number", "%", (), (0.0, 1.0),
            f"{fact.title}: {value.replace('_', ' ')}", fact.text, fact.source, (0.0, 1.0),
            derived=True, decided_with=fact.decided_with, part_of=fact.id,
        )
        for value in fact.values
    ]  # fmt: skip
