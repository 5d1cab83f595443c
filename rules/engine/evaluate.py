"""Evaluates a plan for one or many candidates: masks of cases, points, bounds."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from math import inf
from typing import Any, NamedTuple

from rules.engine.plan import Plan, ramp_interval
from rules.engine.rows import Rows
from rules.engine.views import ABSENT, View


class Masks(NamedTuple):
    """Which cases hold: on the best values, under some answer, under every answer."""

    best: int
    may: int
    must: int


class Layout:
    """How the facts of a plan are split between those shared by all candidates and their own."""

    def __init__(self, plan: Plan, shared: frozenset[str]) -> None:
        self.shared_ids = tuple(id for id in plan.ids if id in shared)
        self.own_ids = tuple(id for id in plan.ids if id not in shared)
        self.shared = [Reader.of(plan.rows[id]) for id in self.shared_ids]
        self.own = [Reader.of(plan.rows[id]) for id in self.own_ids]
        place = {id: i for i, id in enumerate(self.own_ids)}
        self.shared_place = {id: i for i, id in enumerate(self.shared_ids)}
        self.effects = {
            bit: (scored.amount, scored.ramp, place.get(scored.ramp.fact, -1) if scored.ramp else -1)
            for bit, scored in plan.scored.items()
        }
        """By bit: fixed result, ramp, and the place of the ramp's fact among a candidate's own (-1: shared)."""


class Reader(NamedTuple):
    """What the inner loop needs of one fact: cuts and rows when they suffice, else the Rows."""

    cuts: list[float] | None
    by_value: Any
    """Rows by stretch or word; None where the fact's being known matters."""
    rows: Rows

    @staticmethod
    def of(rows: Rows) -> Reader:
        """Return the reader of a fact's rows."""
        simple = None if rows.asks_known or rows.kind == "set" else rows.by_known
        return Reader(rows.cuts if rows.kind == "number" else None, simple, rows)


def layout(plan: Plan, shared: Mapping[str, View]) -> Layout:
    """Return the split for these shared facts, worked out once."""
    key = frozenset(id for id in plan.ids if id in shared)
    found = plan.layouts.get(key)
    if found is None:
        found = plan.layouts[key] = Layout(plan, key)
    return found  # type: ignore[return-value]


def masks(readers: list[Reader], seen: list[View], start: Masks) -> tuple[Masks, bool]:
    """Join the rows of several facts to what held before; also whether any of them is open."""
    best, may, must = start
    is_open = False
    for (cuts, rows, all_rows), view in zip(readers, seen, strict=True):
        value = view[0]
        if view[2] == "open":
            is_open = True
            best &= all_rows.best(view)
            may &= all_rows.may(view)
            must &= all_rows.must(view)
            continue
        if value is None:
            row = all_rows.absent
        elif rows is None or (cuts is None and value not in rows):
            row = all_rows.best(view)
        else:
            row = rows[bisect_right(cuts, value)] if cuts is not None else rows[value]
        best &= row
        may &= row
        must &= row
    return Masks(best, may, must), is_open


class Outcome(NamedTuple):
    """One candidate evaluated."""

    masks: Masks
    points: int
    """Sum of what the rules that spoke gave, thousandths."""
    low: float
    high: float
    """Bounds of the sum over all that open questions permit; -inf where ruled out."""
    seen: list[View]
    """The candidate's own facts as read, in the order of the layout's `own_ids`."""


class Run:
    """One evaluation of a plan: the shared facts once, then each candidate."""

    __slots__ = ("layout", "plan", "shared", "shared_masks", "shared_open", "views")

    def __init__(self, plan: Plan, views: Mapping[str, View]) -> None:
        self.plan, self.views = plan, views
        self.layout = layout(plan, views)
        self.shared = [views[id] for id in self.layout.shared_ids]
        full = plan.full
        self.shared_masks, self.shared_open = masks(self.layout.shared, self.shared, Masks(full, full, full))

    def candidate(self, views: Mapping[str, View]) -> Outcome:
        """Evaluate one candidate."""
        get = views.get
        seen = [get(id, ABSENT) for id in self.layout.own_ids]
        found, is_open = masks(self.layout.own, seen, self.shared_masks)
        if self.plan.several:
            once = self.plan.once
            found = Masks(once(found.best), once(found.may), once(found.must))
        points = self._sum(found.best & self.plan.scores, seen)
        if not (is_open or self.shared_open):
            low = high = points if not found.best & self.plan.rule_outs else -inf
            return Outcome(found, points, low, high, seen)
        low, high = self._bounds(found, seen)
        return Outcome(found, points, low, high, seen)

    def _sum(self, mask: int, seen: list[View]) -> int:
        """Add up what the cases of a mask give on the best values."""
        effects = self.layout.effects
        total = 0
        while mask:
            bit = mask & -mask
            mask ^= bit
            amount, ramp, place = effects[bit]
            if ramp is None:
                total += amount
            else:
                view = seen[place] if place >= 0 else self.views[ramp.fact]
                total += ramp.value(view[0])  # type: ignore[arg-type]
        return total

    def _bounds(self, found: Masks, seen: list[View]) -> tuple[float, float]:
        """Add up the least and the greatest that each rule can give."""
        if found.must & self.plan.rule_outs:
            return -inf, -inf
        low: float = -inf if found.may & self.plan.rule_outs else 0
        high: float = 0
        for least, most in self.intervals(found, seen).values():
            low += least
            high += most
        return low, high

    def intervals(self, found: Masks, seen: list[View]) -> dict[int, tuple[int, int]]:
        """Return, by bit, the least and the greatest that each scoring rule can give."""
        result = {}
        mask = found.may & self.plan.scores
        while mask:
            bit = mask & -mask
            mask ^= bit
            amount, ramp, place = self.layout.effects[bit]
            if ramp is None:
                least = most = amount
            else:
                view = seen[place] if place >= 0 else self.views[ramp.fact]
                least, most = ramp_interval(ramp, view, self.plan.facts[ramp.fact].range)
            if not found.must & bit:
                least, most = min(0, least), max(0, most)
            result[bit] = (least, most)
        return result


def run_all(
    plan: Plan, shared: Mapping[str, View], candidates: Sequence[Mapping[str, View]]
) -> tuple[Run, list[Outcome]]:
    """Evaluate every candidate."""
    run = Run(plan, shared)
    return run, [run.candidate(views) for views in candidates]
