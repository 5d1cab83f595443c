"""Writes entries of a rule base back as plain data that loads to the same meaning."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Any, cast

from rules.engine.base import RuleBase
from rules.engine.language import Assumed, Assumption, Atom, Condition, Decision, Effect, Fact, Rule, Source
from rules.engine.views import Value
from rules.units import UNITS, parse, unit

Row = dict[str, Any]


def quantity_text(si: float, symbol: str) -> str:
    """Write an SI value so that it reads back as exactly the same number, in figures a person would type.

    A share that no percentage hits exactly is written to 17 digits, and reads back within the last of them.
    """
    own = unit(symbol)
    near = own.from_si(si)
    for digits in range(1, 18):
        text = f"{Decimal(f'{near:.{digits}g}'):f} {own.symbol}".strip()
        if parse(text, own) == si:
            return text
    plain = next(u for u in UNITS.values() if u.dimension == own.dimension and u.factor == 1 and not u.offset)
    return f"{si!r} {plain.symbol}" if plain.symbol else text  # a bare number is read in its fact's own unit


def difference_text(si: float, symbol: str) -> str:
    """Write an SI difference in a unit; a scale's own zero does not apply."""
    return f"{unit(symbol).step_from_si(si):.15g} {unit(symbol).symbol}".strip()


def _thousandths(value: int, symbol: str) -> str:
    """Write thousandths of a unit."""
    return f"{value / 1000:.12g} {symbol}".strip()


def _value(value: Value, symbol: str) -> object:
    """Write a value of any kind."""
    if isinstance(value, frozenset):
        return sorted(value)
    return value if isinstance(value, str) else quantity_text(value, symbol)


def _source(source: Source) -> Row:
    return {"kind": source.kind, **source.parts}


def assumption_row(assumption: Assumption) -> Row:
    """Return one [[assumption]] as plain data."""
    row: Row = {"id": assumption.id, "value": _value(assumption.value, assumption.unit)}
    if assumption.range is not None:
        row["range"] = [quantity_text(end, assumption.unit) for end in assumption.range]
        row["unit"] = assumption.unit
    else:
        row["values"] = list(assumption.values)
    return row | {"text": assumption.text, "source": _source(assumption.source)}


def fact_row(fact: Fact, base: RuleBase) -> Row:
    """Return one [[fact]] as plain data."""
    row: Row = {"id": fact.id, "scope": fact.scope, "kind": fact.kind, "title": fact.title, "text": fact.text}
    if fact.kind == "number":
        row["unit"] = fact.unit
        row["range"] = [quantity_text(end, fact.unit) for end in fact.range]
    else:
        row["values"] = list(fact.values)
    if fact.ask is not None:
        ask = fact.ask
        row["ask"] = {"topic": ask.topic, "order": ask.order}
        if ask.always:
            row["ask"]["always"] = True
        if ask.applies is not None:
            row["ask"]["applies"] = condition_row(ask.applies, base)
    if fact.spread:
        row["spread"] = {how: difference_text(value, fact.unit) for how, value in fact.spread.items()}
    if isinstance(fact.plausible, tuple):
        row["plausible"] = [quantity_text(end, fact.unit) for end in fact.plausible]
    elif fact.plausible is not None:
        row["plausible"] = dict(fact.plausible)
    optional = {
        "fallback": fact.fallback,
        "decided_with": fact.decided_with,
        "derived": fact.derived or None,
        "used_for": fact.used_for or None,
    }
    row |= {key: value for key, value in optional.items() if value is not None}
    return row | {"source": _source(fact.source)}


def decision_row(decision: Decision, base: RuleBase) -> Row:
    """Return one [[decision]] as plain data."""
    row: Row = {"id": decision.id, "scope": decision.scope, "order": decision.order, "kind": decision.kind}
    if decision.kind == "amount":
        start = (
            {"fact": decision.start_fact}
            if decision.start_fact
            else {"assumption": decision.start_assumption}
        )
        row |= {
            "unit": decision.unit,
            "start": _present(start.items()),
            "limits": [_thousandths(end, decision.unit) for end in decision.limits],
            "step": _thousandths(decision.step, decision.unit),
            "materiality": _thousandths(decision.materiality, decision.unit),
        }
    return row | {"title": decision.title, "text": decision.text, "source": _source(decision.source)}


def condition_row(condition: Condition, base: RuleBase) -> Row:
    """Return a condition as plain data."""
    if isinstance(condition, Atom):
        symbol = base.facts[condition.fact].unit
        return {"fact": condition.fact, condition.op: _compared(condition.value, symbol)}
    return {condition.op: [condition_row(part, base) for part in condition.parts]}


def _compared(value: object, symbol: str) -> object:
    """Write what a fact is compared with."""
    if isinstance(value, Assumed):
        return {"assumption": value.id}
    if isinstance(value, tuple):
        return [_compared(end, symbol) for end in value]
    if isinstance(value, bool | str):
        return value
    return sorted(value) if isinstance(value, frozenset) else quantity_text(cast(float, value), symbol)


def effect_row(effect: Effect, base: RuleBase, decision: Decision | None) -> Row:
    """Return an effect as plain data."""
    if effect.kind == "rule_out":
        return {"rule_out": True}
    if effect.kind in ("caution", "advise"):
        return {effect.kind: effect.topic}

    def result(amount: int) -> object:
        if effect.kind == "points":
            return amount / 1000
        return _thousandths(amount, decision.unit if decision else "")

    if effect.ramp is None:
        return {effect.kind: result(effect.amount)}
    symbol = base.facts[effect.ramp.fact].unit
    nodes = [[quantity_text(x, symbol), result(y)] for x, y in effect.ramp.at]
    return {effect.kind: {"from": effect.ramp.fact, "at": nodes}}


def rule_row(rule: Rule, base: RuleBase) -> Row:
    """Return one [[rule]] as plain data."""
    decision = base.decisions[rule.decision] if rule.decision is not None else None
    row: Row = {"id": rule.id, "decision": rule.decision, "scope": rule.scope}
    if rule.when is not None:
        row["when"] = condition_row(rule.when, base)
    row["effect"] = effect_row(rule.effect, base, decision)
    row |= {"because": rule.because, "teaches": rule.teaches, "source": _source(rule.source)}
    if rule.contested is not None:
        row["contested"] = {"other": rule.contested.other, "leans": rule.contested.leans}
        if rule.contested.effect is not None:
            row["contested"]["effect"] = effect_row(rule.contested.effect, base, decision)
    return _present(row.items())


def _present(items: Iterable[tuple[str, Any]]) -> Row:
    """Return the entries that are there; TOML has no word for nothing."""
    return {key: value for key, value in items if value is not None}
