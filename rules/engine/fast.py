"""The quick way for sampling: best values only, no trace, the same answers."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Sequence
from typing import Any

from rules.engine.evaluate import Layout, layout
from rules.engine.plan import Plan
from rules.engine.sides import Best

NOBODY: Collection[str] = frozenset()
"""No fact on which only an assumption stands."""


def points_of(
    plan: Plan, shared: Best, candidates: Sequence[Best], unknown: Collection[str]
) -> list[int | None]:
    """Return each candidate's points, thousandths; None where it is ruled out.

    `unknown` names the facts on which only an assumption stands.
    """
    split = layout(plan, shared)
    start = split.shared.mask(shared, plan.full, unknown)
    found: list[int | None] = []
    for own in candidates:
        mask = split.own.mask(own, start, unknown)
        if mask & plan.rule_outs:
            found.append(None)
            continue
        mask = plan.once(mask) if plan.several else mask
        ramped = mask & split.ramp_bits
        found.append(plan.fixed.sum(mask) + (_along(split, ramped, shared, own) if ramped else 0))
    return found


def _along(split: Layout, mask: int, shared: Best, own: Best) -> int:
    """Add up what ramps give."""
    total = 0
    x: Any
    while mask:
        bit = mask & -mask
        mask ^= bit
        ramp, xs, segments, place, _ = split.along[bit]
        x = (shared if place < 0 else own)[ramp.fact]
        start, result, slope = segments[bisect_right(xs, x)]
        total += round(result + (x - start) * slope)
    return total


def best_of(points: Sequence[int | None]) -> int | None:
    """Return the place of the most points, the earlier of equals; None when all are ruled out."""
    top = max((p for p in points if p is not None), default=None)
    return None if top is None else points.index(top)
