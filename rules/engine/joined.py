"""Candidates joined from parts that several of them share: for sampling, best values only, no trace.

Sixteen things make more than a hundred pairs. A fact of one thing is looked up once for the thing, and not
once for every pair that it is in.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from rules.engine.evaluate import layout
from rules.engine.fast import given
from rules.engine.sides import Side

if TYPE_CHECKING:
    from rules.engine.evaluate import Along
    from rules.engine.fast import Ground
    from rules.engine.plan import Plan
    from rules.engine.sides import Best


class Part(NamedTuple):
    """A part of candidates as evaluated."""

    mask: int
    """Cases that survive its facts."""
    ramps: list[tuple[int, int]]
    """What its ramps give, thousandths, by bit."""


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
        self._start = start
        self._shared = tuple(laid.ramps.items())

    def part(self, own: Best) -> Part:
        """Evaluate a part: facts that no other part of the same candidate holds."""
        side, along = self._sorted(own)
        mask = side.mask(own, self._start, self._unknown)
        return Part(mask, given(along, own, mask))

    def _sorted(self, own: Best) -> tuple[Side, list[tuple[int, Along]]]:
        """Return the facts and ramps of parts of one sort, worked out once."""
        key = tuple(own)
        found = self._split.parts.get(key)
        if found is None:
            rows = [rows for rows in self._split.own.rows if rows.fact.id in own]
            along = [(bit, one) for bit, one in self._split.along.items() if one.ramp.fact in own]
            found = self._split.parts[key] = (Side(rows), along)
        return found

    def points(self, parts: Sequence[Part]) -> tuple[int, bool]:
        """Return the points of a candidate joined from parts, thousandths, and whether it is ruled out."""
        plan, mask = self._plan, self._start
        for part in parts:
            mask &= part.mask
        if plan.several:
            mask = plan.once(mask)
        total = plan.fixed.sum(mask)
        for bit, gives in self._shared:
            if bit & mask:
                total += gives
        for part in parts:
            for bit, gives in part.ramps:
                if bit & mask:
                    total += gives
        return total, bool(mask & plan.rule_outs)
