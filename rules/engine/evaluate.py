"""Evaluates a plan for one or many candidates: which cases hold, the points, and their bounds."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from math import inf
from typing import Any, NamedTuple, cast

from rules.engine.plan import Plan
from rules.engine.ramps import Ramp
from rules.engine.sides import Joined, Side
from rules.engine.views import Candidate, View

Interval = tuple[int, int]
"""Least and greatest, thousandths."""


class Along(NamedTuple):
    """A ramp as the evaluation needs it."""

    ramp: Ramp
    xs: list[float]
    segments: list[tuple[float, float, float]]
    place: int
    """Where its fact is among a candidate's own; -1 for a shared one."""
    group: int
    """All cases of its rule."""


class Layout:
    """How the facts of a plan are split between those shared by all candidates and their own."""

    def __init__(self, plan: Plan, split: Sequence[tuple[str, bool]]) -> None:
        """`split` says of each fact whether it is shared; facts that it leaves out were read already."""
        self.shared = Side([plan.rows[id] for id, shared in split if shared])
        """The facts shared by all candidates."""
        self.own = Side([plan.rows[id] for id, shared in split if not shared])
        """The facts of each candidate."""
        place = {id: i for i, id in enumerate(self.own.ids)}
        self.along = {
            bit: Along(ramp, ramp.xs, ramp.segments, place.get(ramp.fact, -1), plan.bits[rule.id])
            for bit, (rule, _, ramp) in plan.scored.items()
            if ramp is not None
        }
        """The ramps, by bit."""
        self.ramp_bits = sum(self.along)
        """Bits of the cases that follow a ramp."""
        self.own_ramps = sum(bit for bit, along in self.along.items() if along.place >= 0)
        """Bits of the cases whose ramp follows a candidate's own fact."""
        self.parts: dict[tuple[object, ...], object] = {}
        """Kept by `joined`: how parts of candidates are read."""


def layout(plan: Plan, shared: Mapping[str, object], ids: tuple[str, ...] | None = None) -> Layout:
    """Return the split for these shared facts, worked out once; `ids` names the facts still to be read."""
    if ids is None:
        ids = plan.ids
    key = (ids, tuple([id in shared for id in ids]))
    found = plan.layouts.get(key)
    if found is None:
        found = plan.layouts[key] = Layout(plan, list(zip(*key, strict=True)))
    return found  # type: ignore[return-value]


class Run:
    """One evaluation of a plan: the shared facts once, then each candidate."""

    __slots__ = ("best", "is_open", "layout", "may", "must", "plan", "ramped", "views")

    def __init__(self, plan: Plan, views: Mapping[str, View]) -> None:
        self.plan, self.views = plan, views
        self.layout = layout(plan, views)
        side = self.layout.shared
        self.best, self.may, self.must, self.is_open = side.join(side.look(views), plan.full)
        self.ramped = self._shared_ramps()
        """By bit: what ramps on shared facts give."""

    def _shared_ramps(self) -> dict[int, int]:
        """Work out the ramps on shared facts of the rules that may speak."""
        return {
            bit: along.ramp.value(cast(float, self.views[along.ramp.fact].best))
            for bit, along in self.layout.along.items()
            if along.place < 0 and along.group & self.best
        }

    def candidate(self, views: Mapping[str, View]) -> Outcome:
        """Evaluate one candidate."""
        own = self.layout.own
        seen = own.look(views)
        return Outcome(self, seen, own.join(seen, self.plan.full))


class Outcome:
    """One candidate evaluated."""

    __slots__ = (
        "_bounds",
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

    def __init__(self, run: Run, seen: Sequence[View], own: Joined) -> None:
        plan = run.plan
        best, may, must, is_open = own
        self.run = run
        self.seen = seen
        """The candidate's own facts as read, in the order of the layout's own side."""
        self.best = best & run.best
        """Cases that hold on the best values."""
        self.may = may & run.may
        """Cases that hold under some answer."""
        self.must = must & run.must
        """Cases that hold under every answer."""
        self.own_must = must
        """Cases whose conditions on the candidate's own facts hold under every answer."""
        self.is_open = is_open or run.is_open
        if plan.several:
            self.best, self.may, self.must = plan.once(self.best), plan.once(self.may), plan.once(self.must)
            self.own_must = plan.whole(must)
        self.points = self._sum(self.best & plan.scores)
        """Sum of what the rules that spoke gave, thousandths."""
        self._open: tuple[int, int] | None = None
        self._bounds: tuple[float, float] | None = None

    def _sum(self, mask: int) -> int:
        """Add up what the cases of a mask give on the best values."""
        total = self.run.plan.fixed.sum(mask)
        along, ramped, seen = self.run.layout.along, self.run.ramped, self.seen
        mask &= self.run.layout.ramp_bits
        x: Any
        while mask:
            bit = mask & -mask
            mask ^= bit
            if bit in ramped:
                total += ramped[bit]
                continue
            _, xs, segments, place, _ = along[bit]
            x = seen[place][0]
            start, result, slope = segments[bisect_right(xs, x)]
            total += round(result + (x - start) * slope)
        return total

    @property
    def is_ruled_out(self) -> bool:
        """Whether a rule forbids it on the best values."""
        return bool(self.best & self.run.plan.rule_outs)

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
        for bit, along in self.run.layout.along.items():
            if bit & self.may and self._followed(along).status == "open":
                found |= bit
        return found

    def _followed(self, along: Along) -> View:
        """Return the view of the fact that a ramp follows."""
        return self.seen[along.place] if along.place >= 0 else self.run.views[along.ramp.fact]

    @property
    def bounds(self) -> tuple[float, float]:
        """Least and greatest sum over all that open questions permit; -inf where ruled out."""
        if self._bounds is None:
            self._bounds = self._bound()
        return self._bounds

    def _bound(self) -> tuple[float, float]:
        """Add up the least and the greatest that each rule can give."""
        outs = self.run.plan.rule_outs
        if self.must & outs:
            return -inf, -inf
        if not self.is_open:
            return self.points, self.points
        unsure, least = self._parted()
        most = least
        least += self.run.plan.fixed_least.sum(unsure)
        most += self.run.plan.fixed_most.sum(unsure)
        unsure &= self.run.layout.ramp_bits
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
        along = self.run.layout.along.get(bit)
        if along is None:
            amount = self.run.plan.scored[bit].amount
            return amount, amount
        view = self._followed(along)
        if view.status == "open":
            widest = self.run.plan.facts[along.ramp.fact].range
            low, high = cast("tuple[float, float]", view.could_be or widest)
            return along.ramp.extremes(low, high)
        value = along.ramp.value(cast(float, view.best))
        return value, value


class Later:
    """A candidate of which the points are known from its best values; the rest is evaluated when asked."""

    __slots__ = ("_run", "is_ruled_out", "points")

    def __init__(self, run: Callable[[], Run], points: int, is_ruled_out: bool) -> None:
        self._run, self.points, self.is_ruled_out = run, points, is_ruled_out

    def traced(self, candidate: Candidate) -> Outcome:
        """Evaluate the candidate in full; it must come to the points that it was picked by."""
        found = self._run().candidate(candidate.views)
        assert (found.points, found.is_ruled_out) == (self.points, self.is_ruled_out)
        return found
