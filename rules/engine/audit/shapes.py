"""Cliffs and gaps: where a hair's breadth of a number changes too much, or nobody speaks."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from rules.engine.audit.findings import Finding
from rules.engine.audit.firing import effect_where_speaking
from rules.engine.audit.space import Cell, Space
from rules.engine.base import RuleBase
from rules.engine.cases import Term, unfold
from rules.engine.language import Rule
from rules.engine.text import typed
from rules.engine.truth import SAME_DIGITS
from rules.engine.views import Value

NARROW = 0.02
"""Stretches of a range up to this share, between stretches that rules speak on, count as gaps."""


class Grounds(NamedTuple):
    """What a case asks beside one fact; rules on the same grounds may make up for one another."""

    decision: str
    rest: frozenset[Term]


def cliffs(base: RuleBase) -> Iterator[Finding]:
    """Yield thresholds at which the points of a choice jump by more than is declared."""
    most = base.largest_cliff
    if most is None:
        return
    for fact, groups in _grounds(base).items():
        for rules in groups.values():
            yield from _cliffs_on(base, fact, rules, most)


def _grounds(base: RuleBase) -> dict[str, dict[Grounds, list[Rule]]]:
    """Group scoring rules by the number whose thresholds they use, and by what else they ask."""
    found: dict[str, dict[Grounds, list[Rule]]] = {}
    for rule in base.rules.values():
        if rule.effect.kind != "points" or rule.decision is None:
            continue
        for case in unfold(rule.when):
            for id in {t.atom.fact for t in case if base.facts[t.atom.fact].kind == "number"}:
                rest = frozenset(term for term in case if term.atom.fact != id)
                rules = found.setdefault(id, {}).setdefault(Grounds(rule.decision, rest), [])
                if rule not in rules:
                    rules.append(rule)
    return found


def _cliffs_on(base: RuleBase, fact: str, rules: list[Rule], most: int) -> Iterator[Finding]:
    """Yield the cliffs of the rules on one ground, along one fact."""
    space = Space(base, rules)
    told = [cell for cell in space.cells[fact] if cell.known]
    for left, right in pairwise(told):
        if left.high != right.low:
            continue
        at = right.low
        jump = sum(_effect(space, rule, right, at) - _effect(space, rule, left, at) for rule in rules)
        changing = [r for r in rules if space.holds(r, left.mask) != space.holds(r, right.mask)]
        if abs(jump) <= most or not changing:
            continue
        data = {
            "fact": base.facts[fact].title,
            "value": typed(at, base.facts[fact].unit),
            "jump": f"{abs(jump) / 1000:g}",
            "most": f"{most / 1000:g}",
        }
        shown: dict[str, Value] = {fact: _round(at, right.high - left.low)}
        yield Finding("cliff", "rule", tuple(r.id for r in changing), data, shown)


def _effect(space: Space, rule: Rule, cell: Cell, at: float) -> int:
    """Return what a rule gives at the edge of a stretch: nothing where it does not speak there.

    A ramp on another fact counts at its strongest.
    """
    if not space.holds(rule, cell.mask):
        return 0
    ramp = rule.effect.ramp
    if ramp is None:
        return rule.effect.amount
    if any(c is cell for c in space.cells[ramp.fact]):
        return ramp.value(at)
    low, high = effect_where_speaking(space, rule)
    return low if -low > high else high


def gaps(base: RuleBase) -> Iterator[Finding]:
    """Yield narrow stretches of a number on which no rule of a decision speaks, though on both sides some do.

    A broad stretch of silence is a neutral middle; a narrow one, or a single value, is usually a slip
    between `below` and `above`.
    """
    for decision in base.decisions.values():
        rules = [rule for rule in base.rules.values() if rule.decision == decision.id]
        for fact in sorted({id for rule in rules for id in rule.reads}):
            if base.facts[fact].kind == "number":
                yield from _gaps_on(base, decision.id, fact, [r for r in rules if _compares(r, fact)])


def _compares(rule: Rule, fact: str) -> bool:
    """Return whether a rule compares a fact (and does not only follow it)."""
    return any(term.atom.fact == fact for case in unfold(rule.when) for term in case)


def _gaps_on(base: RuleBase, decision: str, fact: str, rules: list[Rule]) -> Iterator[Finding]:
    """Yield the gaps of one decision along one fact."""
    if len(rules) < 2:
        return
    space = Space(base, rules)
    told = [cell for cell in space.cells[fact] if cell.known]
    low, high = base.facts[fact].range
    width = NARROW * (high - low)
    for before, cell, after in zip(told, told[1:], told[2:], strict=False):
        narrow = cell.high - cell.low <= width + SAME_DIGITS * (high - low)
        if not narrow or _said(space, rules, cell, cell.low):
            continue
        edges = (*_said(space, rules, before, cell.low), *_said(space, rules, after, cell.high))
        if before.mask & _bits(space, rules) and after.mask & _bits(space, rules) and any(edges):
            middle = _round((cell.low + cell.high) / 2, high - low)
            shown: dict[str, Value] = {fact: middle}
            speakers = [r.id for r in rules if space.plan.bits[r.id] & (before.mask | after.mask)]
            data = {
                "decision": base.decisions[decision].title,
                "fact": base.facts[fact].title,
                "value": typed(middle, base.facts[fact].unit),
            }
            yield Finding("gap", "rule", tuple(speakers), data, shown)


def _said(space: Space, rules: list[Rule], cell: Cell, at: float) -> list[int]:
    """Return what the rules that speak on a stretch give at one of its edges."""
    return [_effect(space, rule, cell, at) for rule in rules if space.holds(rule, cell.mask)]


def _round(value: float, span: float) -> float:
    """Return a value without the hair's breadth that thresholds are widened by."""
    return 0.0 if abs(value) < 2 * SAME_DIGITS * span else float(f"{value:.7g}")


def _bits(space: Space, rules: list[Rule]) -> int:
    """Return the bits of several rules."""
    bits = 0
    for rule in rules:
        bits |= space.plan.bits[rule.id]
    return bits
