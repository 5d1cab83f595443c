"""Evaluates a plan for one or many candidates: which cases hold, the points, and their bounds."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from math import inf
from typing import Any, NamedTuple, cast

from rules.engine.plan import Plan
from rules.engine.ramps import Ramp
from rules.engine.rows import Rows
from rules.engine.views import ABSENT, View

Interval = tuple[int, int]
"""Least and greatest, thousandths."""


class Reader(NamedTuple):
    """What the inner loop needs of one fact: cuts and rows when they suffice, else the Rows."""

    cuts: list[float] | None
    by_value: Any
    """Rows by stretch or word; None where that is not enough."""
    rows: Rows

    @staticmethod
    def of(rows: Rows) -> Reader:
        """Return the reader of a fact's rows."""
        enough = None if rows.asks_known or rows.kind == "set" else rows.by_known
        return Reader(rows.cuts if rows.kind == "number" else None, enough, rows)


class Effects(NamedTuple):
    """What one case gives: fixed, or along a ramp on a fact."""

    amount: int
    ramp: Ramp | None
    place: int
    """Where the ramp's fact is among a candidate's own; -1 for a shared one."""


class Layout:
    """How the facts of a plan are split between those shared by all candidates and their own."""

    def __init__(self, plan: Plan, is_shared: tuple[bool, ...]) -> None:
        split = list(zip(plan.ids, is_shared, strict=True))
        self.shared_ids = [id for id, shared in split if shared]
        self.own_ids = [id for id, shared in split if not shared]
        self.shared = [Reader.of(plan.rows[id]) for id in self.shared_ids]
        self.own = [Reader.of(plan.rows[id]) for id in self.own_ids]
        place = {id: i for i, id in enumerate(self.own_ids)}
        self.effects = {
            bit: Effects(scored.amount, scored.ramp, place.get(scored.ramp.fact, -1) if scored.ramp else -1)
            for bit, scored in plan.scored.items()
        }
        """By bit."""
        self.shared_ramps = [
            (bit, e.ramp, plan.bits[plan.scored[bit].rule.id])
            for bit, e in self.effects.items()
            if e.ramp and e.place < 0
        ]
        """Ramps on shared facts, each with its bit and all cases of its rule."""
        self.ramps = [(bit, e) for bit, e in self.effects.items() if e.ramp]
        self.own_ramps = sum(bit for bit, e in self.effects.items() if e.ramp and e.place >= 0)
        """Bits of the cases whose ramp follows a candidate's own fact."""
        self.fast: object = None
        """Kept by the quick way for sampling."""


def layout(plan: Plan, shared: Mapping[str, object]) -> Layout:
    """Return the split for these shared facts, worked out once."""
    key = tuple([id in shared for id in plan.ids])
    found = plan.layouts.get(key)
    if found is None:
        found = plan.layouts[key] = Layout(plan, key)
    return cast(Layout, found)


def join(readers: list[Reader], seen: list[View], full: int) -> tuple[int, int, int, bool]:
    """Join the rows of several facts: cases that hold on best values, may hold, must hold; any open?"""
    sure = best = may = must = full
    is_open = False
    for (cuts, rows, every), view in zip(readers, seen, strict=True):
        value = view[0]
        if view[2] == "open":
            is_open = True
            best &= every.best(view)
            may &= every.may(view)
            must &= every.must(view)
        elif value is None:
            sure &= every.absent
        elif cuts is not None and rows is not None:
            sure &= rows[bisect_right(cuts, value)]
        elif rows is not None and value in rows:
            sure &= rows[value]
        else:
            sure &= every.best(view)
    return best & sure, may & sure, must & sure, is_open


class Run:
    """One evaluation of a plan: the shared facts once, then each candidate."""

    __slots__ = ("best", "is_open", "layout", "may", "must", "plan", "ramped", "views")

    def __init__(self, plan: Plan, views: Mapping[str, View]) -> None:
        self.plan, self.views = plan, views
        self.layout = layout(plan, views)
        seen = [views[id] for id in self.layout.shared_ids]
        self.best, self.may, self.must, self.is_open = join(self.layout.shared, seen, plan.full)
        self.ramped = self._shared_ramps()
        """By bit: what ramps on shared facts give."""

    def _shared_ramps(self) -> dict[int, int]:
        """Work out the ramps on shared facts of the rules that may speak."""
        found = {}
        for bit, ramp, group in self.layout.shared_ramps:
            if group & self.best:
                found[bit] = ramp.value(cast(float, self.views[ramp.fact][0]))
        return found

    def candidate(self, views: Mapping[str, View]) -> Outcome:
        """Evaluate one candidate."""
        get = views.get
        seen = [get(id, ABSENT) for id in self.layout.own_ids]
        return Outcome(self, seen, join(self.layout.own, seen, self.plan.full))


class Outcome:
    """One candidate evaluated."""

    __slots__ = (
        "_open",
        "best",
        "is_open",
        "may",
        "must",
        "own_must",
        "points",
        "run",
        "seen",
    )

    def __init__(self, run: Run, seen: list[View], own: tuple[int, int, int, bool]) -> None:
        self.run = run
        self.seen = seen
        """The candidate's own facts as read, in the order of the layout's `own_ids`."""
        best, may, self.own_must, is_open = own
        self.best = best & run.best
        """Cases that hold on the best values."""
        self.may = may & run.may
        """Cases that hold under some answer."""
        self.must = self.own_must & run.must
        """Cases that hold under every answer."""
        self.is_open = is_open or run.is_open
        plan = run.plan
        if plan.several:
            self.best, self.may, self.must = plan.once(self.best), plan.once(self.may), plan.once(self.must)
            self.own_must = plan.whole(self.own_must)
        self.points = self._sum(self.best & plan.scores)
        """Sum of what the rules that spoke gave, thousandths."""
        self._open: tuple[int, int] | None = None

    def _sum(self, mask: int) -> int:
        """Add up what the cases of a mask give on the best values."""
        effects, ramped, seen = self.run.layout.effects, self.run.ramped, self.seen
        total = 0
        while mask:
            bit = mask & -mask
            mask ^= bit
            amount, ramp, place = effects[bit]
            if ramp is None:
                total += amount
            elif place < 0:
                total += ramped[bit]
            else:
                x = cast(float, seen[place][0])
                start, result, slope = ramp.segments[bisect_right(ramp.xs, x)]
                total += round(result + (x - start) * slope)
        return total

    @property
    def unsure(self) -> int:
        """Bits of the scoring rules whose result some answer may still change."""
        return self._parted()[0]

    @property
    def sure(self) -> int:
        """Sum over the rules whose result no answer can change, thousandths."""
        return self._parted()[1]

    def _parted(self) -> tuple[int, int]:
        """Part what is sure from what is not."""
        if self._open is None:
            unsure = 0
            if self.is_open:
                unsure = self.may & (~self.must | self._open_ramps()) & self.run.plan.scores
            self._open = unsure, self.points - self._sum(self.best & unsure)
        return self._open

    def _open_ramps(self) -> int:
        """Return the bits of the rules whose ramp follows an open fact."""
        found = 0
        for bit, (_, ramp, place) in self.run.layout.ramps:
            if bit & self.may:
                view = self.seen[place] if place >= 0 else self.run.views[cast(Ramp, ramp).fact]
                if view[2] == "open":
                    found |= bit
        return found

    @property
    def bounds(self) -> tuple[float, float]:
        """Least and greatest sum over all that open questions permit; -inf where ruled out."""
        outs = self.run.plan.rule_outs
        if self.must & outs:
            return -inf, -inf
        unsure, least = self._parted()
        most = least
        while unsure:
            bit = unsure & -unsure
            unsure ^= bit
            low, high = self.interval(bit)
            least += low
            most += high
        return (-inf if self.may & outs else least), most

    def interval(self, bit: int) -> Interval:
        """Return the least and the greatest that a rule which may speak can give."""
        low, high = self.when_speaking(bit)
        return (low, high) if self.must & bit else (min(0, low), max(0, high))

    def when_speaking(self, bit: int) -> Interval:
        """Return the least and the greatest that one case gives when it holds."""
        amount, ramp, place = self.run.layout.effects[bit]
        if ramp is None:
            return amount, amount
        view = self.seen[place] if place >= 0 else self.run.views[ramp.fact]
        if view.status == "open":
            could_be = self.run.plan.facts[ramp.fact].range if view.could_be is None else view.could_be
            return ramp.extremes(*cast("tuple[float, float]", could_be))
        value = ramp.value(cast(float, view.best))
        return value, value


def run_all(
    plan: Plan, shared: Mapping[str, View], candidates: Sequence[Mapping[str, View]]
) -> tuple[Run, list[Outcome]]:
    """Evaluate every candidate."""
    run = Run(plan, shared)
    return run, [run.candidate(views) for views in candidates]
