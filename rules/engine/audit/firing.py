"""Rules that can never speak, always speak, or speak without effect; rules that contradict or repeat."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from rules.engine.audit.findings import Finding
from rules.engine.audit.space import Cell, Space, witness
from rules.engine.base import RuleBase
from rules.engine.language import Rule
from rules.engine.views import Value

Signs = tuple[int, int]
"""Least and greatest effect over where a rule speaks."""


def each_rule(base: RuleBase) -> Iterator[Finding]:
    """Yield what is wrong with single rules."""
    for rule in base.rules.values():
        space = Space(base, (rule,))
        blamed = _never_fits(space, rule)
        if blamed is not None:
            yield Finding("never", "rule", (rule.id,), {"fact": base.facts[blamed].title})
            continue
        if rule.when is not None and _always(space, rule):
            yield Finding("always", "rule", (rule.id,), witness=_middle(space))
        if rule.effect.kind in ("points", "adjust") and effect_where_speaking(space, rule) == (0, 0):
            yield Finding("no-effect", "rule", (rule.id,), witness=_speaking(space, rule))


def _never_fits(space: Space, rule: Rule) -> str | None:
    """Return the fact on which every case of a rule fails; None when some case can hold."""
    blamed = ""
    bits = space.plan.bits[rule.id]
    while bits:
        bit = bits & -bits
        bits ^= bit
        failing = [id for id, cells in space.cells.items() if not any(cell.mask & bit for cell in cells)]
        if not failing:
            return None
        blamed = failing[0]
    return blamed


def _always(space: Space, rule: Rule) -> bool:
    """Return whether a rule speaks on every combination of values; False when they are too many to try."""
    points = space.points(absent=False)
    return points is not None and all(space.holds(rule, mask) for mask, _ in points)


def _middle(space: Space) -> dict[str, Value]:
    """Return some value for every fact."""
    return witness({id: cells[len(cells) // 2 - 1] for id, cells in space.cells.items() if len(cells) > 1})


def _speaking(space: Space, rule: Rule) -> dict[str, Value] | None:
    """Return facts on which a rule speaks."""
    points = space.points()
    for mask, cells in points or ():
        if space.holds(rule, mask):
            return witness(cells)
    return None


def effect_where_speaking(space: Space, rule: Rule, bits: int | None = None) -> Signs:
    """Return least and greatest effect of a rule over the stretches where it can speak."""
    ramp = rule.effect.ramp
    if ramp is None:
        return rule.effect.amount, rule.effect.amount
    mine = space.plan.bits[rule.id] if bits is None else bits
    ends = [
        ramp.extremes(cell.low, cell.high)
        for cell in space.cells[ramp.fact]
        if cell.value is not None and cell.mask & mine
    ]
    return min((low for low, _ in ends), default=0), max((high for _, high in ends), default=0)


def pairs_of_rules(base: RuleBase) -> Iterator[Finding]:
    """Yield rules that contradict or repeat one another, or that another makes void."""
    groups: dict[tuple[str, frozenset[str]], list[Rule]] = {}
    for rule in base.rules.values():
        if rule.decision is not None:
            groups.setdefault((rule.decision, rule.reads), []).append(rule)
    for group in groups.values():
        for first, second in combinations(group, 2):
            yield from _compare(base, first, second)
    yield from _same_sentences(base)


def _same_sentences(base: RuleBase) -> Iterator[Finding]:
    """Yield rules of one decision that say the same sentence."""
    said: dict[tuple[str | None, str], str] = {}
    for rule in base.rules.values():
        key = (rule.decision, rule.because)
        if key in said:
            yield Finding("same-sentence", "rule", (rule.id, said[key]), {"other": said[key]})
        said.setdefault(key, rule.id)


def _compare(base: RuleBase, first: Rule, second: Rule) -> Iterator[Finding]:
    """Hold two rules that read the same facts against each other."""
    space = Space(base, (first, second))
    points = space.points()
    if points is None:
        return
    only_first = only_second = False
    together: dict[str, Cell] | None = None
    for mask, cells in points:
        one, other = space.holds(first, mask), space.holds(second, mask)
        only_first |= one and not other
        only_second |= other and not one
        if one and other:
            together = together or cells
    if together is None:
        return
    yield from _judge(space, first, second, only_first, only_second, witness(together))


def _judge(
    space: Space, first: Rule, second: Rule, only_first: bool, only_second: bool, shown: dict[str, Value]
) -> Iterator[Finding]:
    """Judge two rules by where they speak: in the same cases, or one wherever the other does."""
    data = {"other": first.id}
    outs = {rule.id for rule in (first, second) if rule.effect.kind == "rule_out"}
    if not only_first and not only_second and _pull(space, first) == _pull(space, second) != "":
        yield Finding("repeats", "rule", (second.id, first.id), data, shown)
    elif not (only_first and only_second) and {_pull(space, first), _pull(space, second)} == {"+", "-"}:
        yield Finding("contradicts", "rule", (second.id, first.id), data, shown)
    elif len(outs) == 1:
        scoring, ruling = (second, first) if first.id in outs else (first, second)
        if not (only_second if scoring is second else only_first):
            yield Finding("void", "rule", (scoring.id, ruling.id), {"other": ruling.id}, shown)


def _pull(space: Space, rule: Rule) -> str:
    """Return which way a rule pulls; empty when both ways or neither."""
    if rule.effect.kind == "rule_out":
        return "out"
    low, high = effect_where_speaking(space, rule)
    return "+" if low >= 0 < high else "-" if low < 0 >= high else ""
