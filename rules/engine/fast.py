"""The quick way for sampling: best values only, no trace, the same answers."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from rules.engine.evaluate import Along, Layout, layout
from rules.engine.plan import Plan
from rules.engine.sides import Best

NOBODY: frozenset[str] = frozenset()
"""No fact on which only an assumption stands."""


class Laid(NamedTuple):
    """What a ground tells the rules of one decision."""

    mask: int
    """Cases that survive its facts."""
    ids: tuple[str, ...]
    """The facts that are still to be read."""
    ramps: Mapping[int, int]
    """What ramps on its facts give, thousandths, by bit."""


class Ground:
    """Facts that many decisions have in common, looked up once for each decision."""

    def __init__(self, best: Best, unknown: frozenset[str] = NOBODY) -> None:
        """`unknown` names the facts, these or others, on which only an assumption stands."""
        self.best, self.unknown = best, unknown
        self._laid: dict[Plan, Laid] = {}

    def under(self, plan: Plan) -> Laid:
        """Return what these facts tell the rules of a decision."""
        found = self._laid.get(plan)
        if found is None:
            found = self._laid[plan] = self._look(plan)
        return found

    def _look(self, plan: Plan) -> Laid:
        """Look the facts up."""
        rest = tuple([id for id in plan.ids if id not in self.best])
        whole = layout(plan, self.best)
        mask = whole.shared.mask(self.best, plan.full, self.unknown)
        along = [(bit, one) for bit, one in whole.along.items() if one.place < 0]
        return Laid(mask, rest, dict(given(along, self.best, mask)))


def points_of(plan: Plan, shared: Best, candidates: Sequence[Best], ground: Ground) -> list[int | None]:
    """Return each candidate's points, thousandths; None where it is ruled out.

    Facts are read from the ground, else from what is shared, else from the candidate.
    """
    laid = ground.under(plan)
    split = layout(plan, shared, laid.ids)
    start = split.shared.mask(shared, laid.mask, ground.unknown)
    found: list[int | None] = []
    for own in candidates:
        mask = split.own.mask(own, start, ground.unknown)
        if mask & plan.rule_outs:
            found.append(None)
            continue
        mask = plan.once(mask) if plan.several else mask
        ramped = mask & split.ramp_bits
        found.append(plan.fixed.sum(mask) + (_along(split, ramped, laid.ramps, shared, own) if ramped else 0))
    return found


def moved_by(plan: Plan, best: Best, ground: Ground) -> int:
    """Return what the rules of an amount give together, thousandths; facts as in `points_of`."""
    laid = ground.under(plan)
    split = layout(plan, best, laid.ids)
    mask = split.shared.mask(best, laid.mask, ground.unknown)
    for rows in split.own.rows:
        mask &= rows.absent
    mask = plan.once(mask) if plan.several else mask
    ramped = mask & split.ramp_bits
    return plan.fixed.sum(mask) + (_along(split, ramped, laid.ramps, best, best) if ramped else 0)


def _along(split: Layout, mask: int, ramps: Mapping[int, int], shared: Best, own: Best) -> int:
    """Add up what ramps give."""
    total = 0
    x: Any
    while mask:
        bit = mask & -mask
        mask ^= bit
        if bit in ramps:
            total += ramps[bit]
            continue
        ramp, xs, segments, place, _ = split.along[bit]
        x = (shared if place < 0 else own)[ramp.fact]
        start, result, slope = segments[bisect_right(xs, x)]
        total += round(result + (x - start) * slope)
    return total


def given(ramps: Sequence[tuple[int, Along]], values: Best, mask: int) -> list[tuple[int, int]]:
    """Return what ramps give on facts that are not absent, by bit, of the rules that may speak."""
    found = []
    for bit, (ramp, xs, segments, _, group) in ramps:
        x: Any = values.get(ramp.fact) if group & mask else None
        if x is not None:
            start, result, slope = segments[bisect_right(xs, x)]
            found.append((bit, round(result + (x - start) * slope)))
    return found


def best_of(points: Sequence[int | None]) -> int | None:
    """Return the place of the most points, the earlier of equals; None when all are ruled out."""
    top = max((p for p in points if p is not None), default=None)
    return None if top is None else points.index(top)
