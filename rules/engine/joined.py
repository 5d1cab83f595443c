"""Candidates joined from parts that several of them share: for sampling, best values only, no trace.

Sixteen things make more than a hundred pairs. A fact of one thing is looked up once for the thing, and not
once for every pair that it is in.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from functools import partial, reduce
from operator import and_, getitem, itemgetter
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from rules.engine.ceiling import Ceiling
from rules.engine.evaluate import layout
from rules.engine.fast import given
from rules.engine.sides import Side

if TYPE_CHECKING:
    from rules.engine.evaluate import Along, Layout
    from rules.engine.fast import Ground
    from rules.engine.language import Fact
    from rules.engine.plan import Plan
    from rules.engine.sides import Best


class Part(NamedTuple):
    """A part of candidates as evaluated."""

    mask: int
    """Cases that survive its facts."""
    ramps: list[tuple[int, int]]
    """What its ramps give, thousandths, by bit."""


def both(one: Part, other: Part) -> Part:
    """Return two parts of the same candidate as one."""
    return Part(one.mask & other.mask, one.ramps + other.ramps)


class Joined:
    """One evaluation of a plan on plain best values; the facts shared by all candidates are read once."""

    def __init__(self, plan: Plan, ground: Ground, own: Iterable[str]) -> None:
        """`own` names all the facts that parts of a candidate hold; what is not on the ground is absent."""
        laid = ground.under(plan)
        self._plan, self._unknown = plan, ground.unknown
        self._split = split = layout(plan, {}, laid.ids)
        start, held = laid.mask, set(own)
        for rows in split.own.rows:
            if rows.fact.id not in held:
                start &= rows.absent
        self.start = start
        """Cases that survive the ground, and what no part holds."""
        self.shared = list(laid.ramps.items())
        """What ramps on the ground give, thousandths, by bit."""

    def part(self, own: Best) -> Part:
        """Evaluate a part: facts that no other part of the same candidate holds."""
        side, along = self._sorted(own)
        mask = side.mask(own, self.start, self._unknown)
        return Part(mask, given(along, own, mask))

    def _sorted(self, own: Best) -> tuple[Side, list[tuple[int, Along]]]:
        """Return the facts and ramps of parts of one sort, worked out once."""
        key = tuple(own)
        found = self._split.parts.get(key)
        if found is None:
            rows = [rows for rows in self._split.own.rows if rows.fact.id in own]
            along = [(bit, one) for bit, one in self._split.along.items() if one.ramp.fact in own]
            found = self._split.parts[key] = (Side(rows), along)
        return cast("tuple[Side, list[tuple[int, Along]]]", found)

    def numbers(self, ids: tuple[str, ...]) -> Callable[[Sequence[float]], Part]:
        """Return what evaluates parts that are numbers alone, each given as its values in this order.

        A number beyond its fact's declared range counts as at the end of it.
        """
        key = ("numbers", *ids)
        found = cast("_Numbers | None", self._split.parts.get(key))
        if found is None:
            found = self._split.parts[key] = _Numbers(self._plan, self._split, ids)
        return partial(found.read, self.start, self._unknown)

    def ceiling(self, sorts: Mapping[str, Collection[str]]) -> Ceiling:
        """Return what tells how many points a candidate may get at most; `sorts` as it takes them."""
        key = ("ceiling", *sorts, *map(tuple, sorts.values()))
        found = self._split.parts.get(key)
        if found is None:
            found = self._split.parts[key] = Ceiling(self._plan, self._split.own.ids, sorts)
        return cast("Ceiling", found)

    def points(self, parts: Sequence[Part]) -> tuple[int, bool]:
        """Return the points of a candidate joined from parts, thousandths, and whether it is ruled out."""
        plan, mask = self._plan, self.start
        for part, _ in parts:
            mask &= part
        if plan.several:
            mask = plan.once(mask)
        total = plan.fixed.sum(mask)
        for bit, gives in self.shared:
            if bit & mask:
                total += gives
        for _, ramps in parts:
            for bit, gives in ramps:
                if bit & mask:
                    total += gives
        return total, bool(mask & plan.rule_outs)


class _Numbers:
    """How parts of one sort, numbers alone, are read: rows and ramps within the facts' declared ranges."""

    def __init__(self, plan: Plan, split: Layout, ids: tuple[str, ...]) -> None:
        place = {id: i for i, id in enumerate(ids)}
        rows = [rows for rows in split.own.rows if rows.fact.id in place]
        plain = [one for one in rows if not one.asks_known]
        self._rest = [(place[one.fact.id], one) for one in rows if one.asks_known]
        self._pick = _picked([place[one.fact.id] for one in plain])
        # What lies beyond an end of the range is in the stretch at that end.
        ends = [[bisect_right(one.cuts, end) for end in one.fact.range] for one in plain]
        self._cuts = [one.cuts[a:b] for one, (a, b) in zip(plain, ends, strict=True)]
        self._rows = [one.by_known[a : b + 1] for one, (a, b) in zip(plain, ends, strict=True)]
        self._along = [
            (place[one.ramp.fact], bit, one.group, *_within(one, plan.facts[one.ramp.fact]))
            for bit, one in split.along.items()
            if one.ramp.fact in place
        ]

    def read(self, start: int, unknown: Collection[str], values: Sequence[float]) -> Part:
        """Evaluate one part."""
        found = map(bisect_right, self._cuts, self._pick(values))
        mask = reduce(and_, map(getitem, self._rows, found), start)
        for place, rows in self._rest:
            low, high = rows.fact.range
            mask &= rows.at(min(high, max(low, values[place])), rows.fact.id not in unknown)
        ramps = []
        for place, bit, group, xs, segments in self._along:
            if group & mask:
                x = values[place]
                begin, result, slope = segments[bisect_right(xs, x)]
                ramps.append((bit, round(result + (x - begin) * slope)))
        return Part(mask, ramps)


def _picked(places: Sequence[int]) -> Callable[[Sequence[float]], Sequence[Any]]:
    """Return what takes the values at some places."""
    if len(places) > 1:
        return cast("Callable[[Sequence[float]], Sequence[Any]]", itemgetter(*places))
    return lambda values: [values[place] for place in places]


def _within(one: Along, fact: Fact) -> tuple[list[float], list[tuple[float, float, float]]]:
    """Return nodes and stretches of a ramp that stays, beyond its fact's declared range, what it is there."""
    xs, segments = one.xs, one.segments
    low, high = fact.range
    if low <= xs[0] and xs[-1] <= high:
        return xs, segments
    first, last = bisect_right(xs, low), bisect_right(xs, high)
    begin, result, slope = segments[first]
    below = (low, result + (low - begin) * slope, 0.0)
    begin, result, slope = segments[last]
    above = (high, result + (high - begin) * slope, 0.0)
    return [low, *xs[first:last], high], [below, *segments[first : last + 1], above]
