"""Reads effects: points, rule_out, adjust, caution or advise, fixed or along a ramp."""

from __future__ import annotations

from typing import Any

from rules.engine.language import Decision, Effect
from rules.engine.ramps import Ramp
from rules.engine.reading.conditions import ConditionReader
from rules.engine.reading.table import Table, given
from rules.units import unit

EFFECTS = ("points", "rule_out", "adjust", "caution", "advise")
MOST_POINTS = 1000
"""Points beyond which one rule is no weighing any more; rule_out says it plainly."""


class EffectReader:
    """Reads effects against facts and decisions."""

    def __init__(self, conditions: ConditionReader) -> None:
        self._conditions = conditions

    def read(self, table: Table | None, decision: Decision | None) -> Effect | None:
        """Read one effect; None after a fault."""
        if table is None:
            return None
        found = [key for key in EFFECTS if table.has(key)]
        table.close()
        if len(found) != 1:
            table.fault("one-effect")
            return None
        kind = found[0]
        allowed, what = _allowed(decision)
        if kind not in allowed:
            table.fault(
                "wrong-effect", (kind,), at_key=True, effect=kind, what=what, wanted=" or ".join(allowed)
            )
            return None
        raw = table.data[kind]
        if kind == "rule_out":
            if raw is not True:
                table.fault("wrong-type", (kind,), wanted="'rule_out = true'", given=given(raw))
            return Effect("rule_out")
        if kind in ("caution", "advise"):
            topic = table.sentence(kind, "a topic is wanted")
            return Effect("caution" if kind == "caution" else "advise", topic=topic)
        return self._weigh(table, kind, raw, decision)

    def _weigh(self, table: Table, kind: str, raw: Any, decision: Decision | None) -> Effect | None:
        name: Any = kind
        if isinstance(raw, dict):
            ramp = self._ramp(table.inner((kind,), raw), kind, decision)
            return None if ramp is None else Effect(name, ramp=ramp)
        amount = _result(table, (kind,), raw, kind, decision)
        return None if amount is None else Effect(name, amount)

    def _ramp(self, table: Table, kind: str, decision: Decision | None) -> Ramp | None:
        id = table.raw("from", "the fact that the ramp follows is wanted")
        raw = table.raw("at", "the nodes of the ramp are wanted")
        table.close()
        fact = None if id is None else self._conditions.fact(table, ("from",), id)
        if fact is not None and fact.kind != "number":
            table.fault("ramp-fact", ("from",), fact=fact.id, kind=fact.kind)
            fact = None
        if fact is None or raw is None:
            return None
        rows = table.listed(("at",), raw, "a list of nodes [value, result]", least=0)
        if len(rows) < 2:
            if isinstance(raw, list):
                table.fault("ramp-short", ("at",))
            return None
        nodes: list[tuple[float, int]] = []
        for i, row in enumerate(rows):
            if not isinstance(row, list) or len(row) != 2:
                table.fault("wrong-type", ("at", i), wanted="a node [value, result]", given=given(row))
                return None
            x = self._conditions.number(table, ("at", i, 0), fact, row[0])
            y = _result(table, ("at", i, 1), row[1], kind, decision)
            if x is None or y is None:
                return None
            if nodes and not x > nodes[-1][0] + 1e-12 * (fact.range[1] - fact.range[0]):
                table.fault("ramp-order", ("at", i), given=given(row[0]))
                return None
            nodes.append((x, y))
        return Ramp(fact.id, tuple(nodes))


def _allowed(decision: Decision | None) -> tuple[tuple[str, ...], str]:
    """Return the effects that fit, and what they must fit."""
    if decision is None:
        return ("caution", "advise"), "a rule without a decision"
    if decision.kind == "choice":
        return ("points", "rule_out"), f"the choice '{decision.id}'"
    return ("adjust",), f"the amount '{decision.id}'"


def _result(
    table: Table, key: tuple[str | int, ...], raw: Any, kind: str, decision: Decision | None
) -> int | None:
    """Read points, or an adjustment of the decision's unit, as whole thousandths."""
    if kind == "adjust" and decision is not None:
        value = table.quantity(key, raw, decision.unit, difference=True)
        return None if value is None else round(unit(decision.unit).step_from_si(value) * 1000)
    if isinstance(raw, bool) or not isinstance(raw, int | float):
        table.fault("wrong-type", key, wanted="a plain number of points", given=given(raw))
        return None
    if not abs(raw) <= MOST_POINTS or abs(raw * 1000 - round(raw * 1000)) > 1e-6:
        table.fault("too-fine", key, given=given(raw), most=MOST_POINTS)
        return None
    return round(raw * 1000)


def read_topic(table: Table, key: str, topics: tuple[str, ...]) -> str:
    """Read a topic of the interview."""
    topic = table.sentence(key, "a topic is wanted")
    if topic and topics and topic not in topics:
        table.unknown("unknown-topic", (key,), topic, topics)
    return topic
