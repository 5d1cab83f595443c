"""The quick way for sampling: best values only, no trace, the same answers.

Each of thousands of draws asks only who wins. Values come plain, the loops run inside C functions, and
fixed points are added a byte of rules at a time.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Collection, Mapping, Sequence
from functools import reduce
from operator import and_, getitem, itemgetter
from typing import Any, cast

from rules.engine.evaluate import Layout, Reader, layout
from rules.engine.plan import Plan
from rules.engine.views import Value

Best = Mapping[str, Value | None]
"""Plain values by fact; None, or nothing, where the fact is absent."""
NOBODY: Collection[str] = frozenset()


def _getter(ids: Sequence[str]) -> Callable[[Best], tuple[Any, ...]]:
    """Return what fetches several values as a tuple."""
    if len(ids) > 1:
        return cast("Callable[[Best], tuple[Any, ...]]", itemgetter(*ids))
    return lambda best: tuple(best[id] for id in ids)


class Side:
    """The facts of one side (shared, or a candidate's own), grouped by how their rows are found."""

    __slots__ = ("cuts", "get_numbers", "get_words", "number_rows", "pairs", "slow", "word_rows")

    def __init__(self, ids: Sequence[str], readers: Sequence[Reader]) -> None:
        self.pairs = list(zip(ids, readers, strict=True))
        self.slow = [(id, r) for id, r in self.pairs if r.by_value is None]
        quick = [(id, r) for id, r in self.pairs if r.by_value is not None]
        numbers = [(id, r) for id, r in quick if r.cuts is not None]
        words = [(id, r) for id, r in quick if r.cuts is None]
        self.get_numbers, self.get_words = (
            _getter([id for id, _ in numbers]),
            _getter([id for id, _ in words]),
        )
        self.cuts = [r.cuts for _, r in numbers]
        self.number_rows = [r.by_value for _, r in numbers]
        self.word_rows = [r.by_value for _, r in words]

    def mask(self, best: Best, start: int, unknown: Collection[str]) -> int:
        """Return the cases that hold."""
        try:
            numbers = self.get_numbers(best)
            if None in numbers:
                return self._one_by_one(self.pairs, best, start, unknown)
            rows = map(bisect_right, self.cuts, numbers)  # type: ignore[arg-type]
            mask = reduce(and_, map(getitem, self.number_rows, rows), start)
            mask = reduce(and_, map(getitem, self.word_rows, self.get_words(best)), mask)
        except KeyError:
            return self._one_by_one(self.pairs, best, start, unknown)
        return self._one_by_one(self.slow, best, mask, unknown) if self.slow else mask

    @staticmethod
    def _one_by_one(
        pairs: Sequence[tuple[str, Reader]], best: Best, mask: int, unknown: Collection[str]
    ) -> int:
        """Return the cases that hold where some facts may be absent or merely assumed."""
        for id, (_, _, rows) in pairs:
            value = best.get(id)
            mask &= rows.absent if value is None else rows.at(value, id not in unknown)
        return mask


class Fast:
    """One split of a plan's facts, ready for sampling."""

    def __init__(self, plan: Plan, split: Layout) -> None:
        self.plan = plan
        self.shared = Side(split.shared_ids, split.shared)
        self.own = Side(split.own_ids, split.own)
        self.ramps = {bit: e.ramp for bit, e in split.ramps if e.ramp is not None}
        self.ramped = sum(self.ramps)
        fixed = {bit: e.amount for bit, e in split.effects.items() if e.ramp is None}
        self.bytes = (plan.full.bit_length() + 7) // 8
        self.tables = [_table(fixed, 8 * i) for i in range(self.bytes)]
        """Sums of fixed points for every byte of the mask."""

    def sum(self, mask: int, shared: Best, own: Best) -> int:
        """Add up what the cases of a mask give."""
        total = sum(map(getitem, self.tables, mask.to_bytes(self.bytes, "little")))
        mask &= self.ramped
        while mask:
            bit = mask & -mask
            mask ^= bit
            ramp = self.ramps[bit]
            x = cast(float, shared[ramp.fact] if ramp.fact in shared else own[ramp.fact])
            start, result, slope = ramp.segments[bisect_right(ramp.xs, x)]
            total += round(result + (x - start) * slope)
        return total

    def points(self, shared: Best, candidates: Sequence[Best], unknown: Collection[str]) -> list[int | None]:
        """Return each candidate's points, thousandths; None where it is ruled out."""
        plan = self.plan
        start = self.shared.mask(shared, plan.full, unknown)
        found: list[int | None] = []
        for own in candidates:
            mask = self.own.mask(own, start, unknown)
            if mask & plan.rule_outs:
                found.append(None)
                continue
            found.append(self.sum(plan.once(mask) if plan.several else mask, shared, own))
        return found


def _table(fixed: Mapping[int, int], shift: int) -> list[int]:
    """Return the sums of fixed points for all values of one byte of a mask."""
    amounts = [fixed.get(1 << (shift + i), 0) for i in range(8)]
    sums = [0]
    for amount in amounts:
        sums += [amount + already for already in sums]
    return sums


def fast(plan: Plan, shared: Best) -> Fast:
    """Return the quick evaluation for these shared facts, worked out once."""
    split = layout(plan, shared)
    if split.fast is None:
        split.fast = Fast(plan, split)
    return cast(Fast, split.fast)


def best_of(points: Sequence[int | None]) -> int | None:
    """Return the place of the most points, the earlier of equals; None when all are ruled out."""
    top = max((p for p in points if p is not None), default=None)
    return None if top is None else points.index(top)
