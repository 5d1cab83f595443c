"""A plain evaluator to hold the engine against.

It shares nothing with the engine but its data classes, and follows the words of the language one
comparison at a time, in three values.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from typing import Any, cast

from rules.engine import RuleBase, View
from rules.engine.language import Assumed, Atom, Condition, Fact, Rule

ABSENT = View(None, None, "unknown", "assumed")


def holds(base: RuleBase, condition: Condition | None, views: Mapping[str, View]) -> bool | None:
    """Return whether a condition holds on the best values: True, False, or None where it is absent."""
    if condition is None:
        return True
    if isinstance(condition, Atom):
        return _compare(base, condition, views.get(condition.fact, ABSENT))
    found = [holds(base, part, views) for part in condition.parts]
    if condition.op == "all":
        return False if False in found else None if None in found else True
    some = True if True in found else None if None in found else False
    return some if condition.op == "any" or some is None else not some


def _compare(base: RuleBase, atom: Atom, seen: View) -> bool | None:
    """Return one comparison's truth."""
    stated = seen.best is not None and seen.status != "unknown" and seen.how != "assumed"
    if atom.op in ("known", "unknown"):
        return stated == (atom.op == "known")
    best: Any = seen.best
    if best is None:
        return None
    wanted: Any = atom.value
    if isinstance(wanted, Assumed):
        wanted = base.assumptions[wanted.id].value
    fact = base.facts[atom.fact]
    if fact.kind != "number":
        has = (lambda word: word in best) if fact.kind == "set" else (lambda word: word == best)
        return any(map(has, wanted)) if atom.op == "one_of" else has(wanted) == (atom.op == "is")
    low, high = wanted if isinstance(wanted, tuple) else (wanted, wanted)
    return _number(fact, atom.op, best, low, high)


def _number(fact: Fact, op: str, x: float, low: float, high: float) -> bool:
    """Compare numbers; what agrees to nine digits is equal."""

    def same(k: float) -> bool:
        return abs(x - k) <= 1e-9 * max(abs(k), fact.range[1] - fact.range[0])

    return {
        "is": same(low),
        "is_not": not same(low),
        "below": x < low and not same(low),
        "at_most": x <= low or same(low),
        "above": x > low and not same(low),
        "at_least": x >= low or same(low),
        "between": (x >= low or same(low)) and (x <= high or same(high)),
    }[op]


def gives(base: RuleBase, rule: Rule, views: Mapping[str, View]) -> int | None:
    """Return what a rule gives on the best values, thousandths; None where it does not speak."""
    if not holds(base, rule.when, views):
        return None
    if rule.effect.ramp is None:
        return rule.effect.amount
    x = cast("float | None", views.get(rule.effect.ramp.fact, ABSENT).best)
    if x is None:
        return None
    nodes = rule.effect.ramp.at
    if x <= nodes[0][0]:
        return nodes[0][1]
    for (x0, y0), (x1, y1) in pairwise(nodes):
        if x <= x1:
            return round(y0 + (y1 - y0) * (x - x0) / (x1 - x0))
    return nodes[-1][1]
