"""How the decisions of a road are taken: with a full trace, or on best values alone.

One road, one set of rules: both judges run the same code of the ladder and pick the same. The traced one
keeps what explanations need; the quick one serves where thousands of roads are run and only the outcome
counts.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Any

from rules.engine.text import named_facts
from rules.engine.views import Candidate, View
from rules.facts.known import NOTHING, Known, views
from rules.ladder.options import READS, grip_options, shaft_options
from rules.units import unit

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.engine.ledger import Amount, Choice
    from rules.facts.golfer import Golfer
    from rules.facts.subject import Kind
    from rules.house import House
    from rules.ladder.options import Option
    from rules.shelf.parts import Head

Seen = Mapping[str, Any]
"""Facts as the judge's engine reads them: views, or plain best values."""
Stamp = Callable[[Mapping[str, float]], Mapping[str, Any]]
"""Turns several derived numbers into what the engine reads."""


class Judge:
    """Takes decisions for one golfer and keeps their traces."""

    traces = True
    """Whether ledgers are kept."""
    unsaid: frozenset[str] = NOTHING
    """The golfer's facts on which only an assumption stands, where values are plain."""

    def __init__(self, house: House, golfer: Golfer) -> None:
        self.house, self.golfer = house, golfer
        self.base, self.shelf = house.base, house.shelf
        self.seen: Seen = self._golfer()
        self._filled: dict[str, Any] | None = None
        self._ruled: dict[tuple[Any, ...], tuple[str | None, Choice | None]] = {}
        self._shafts: dict[tuple[object, ...], list[Option]] = {}

    def _golfer(self) -> Seen:
        """Return the golfer's own facts."""
        return self.golfer.views

    @cached_property
    def grips(self) -> list[Option]:
        """The grips in stock: the same candidates for every club of one golfer."""
        return grip_options(self)

    def shafts(self, kind: Kind, head: Head | None, length: float) -> list[Option]:
        """Return the shafts for a head and length (m): the same candidates for heads of one kind and bore."""
        stock = self.house.once(("shafts", kind), lambda: self.shelf.shafts_for(kind))
        long_enough = tuple([shaft for shaft in stock if shaft.raw_length >= length])
        key = (kind, head and head.bore, *[shaft.id for shaft in long_enough])
        if key not in self._shafts:
            self._shafts[key] = shaft_options(self, kind, head, long_enough)
        return self._shafts[key]

    def views(self, known: Mapping[str, Known]) -> dict[str, Any]:
        """Return facts as the engine reads them."""
        return views(self.base, known)

    def part(self, sort: str, id: str, known: Callable[[], Mapping[str, Known]]) -> Seen:
        """Return the facts of a part that no golfer changes."""
        return self.house.once(("part", self.traces, sort, id), lambda: self.views(known()))  # type: ignore[no-any-return]

    def stamps(self, decision: str, waits: Mapping[str, frozenset[str]]) -> Stamp:
        """Return what turns derived numbers into what the engine reads, each within its declared range.

        `waits` names the numbers that rules of a decision may read, with the open questions behind each.
        """
        stamps = {id: _stamp(self.base.facts[id], questions) for id, questions in waits.items()}
        return lambda numbers: {id: stamps[id](number) for id, number in numbers.items()}

    def choose(
        self, decision: str, seen: Seen, candidates: Sequence[Candidate]
    ) -> tuple[str | None, Choice | None]:
        """Decide a choice: the picked candidate, and the ledger where one is kept."""
        choice = self.base.choose(decision, seen, candidates)
        return choice.pick.candidate.id if choice.pick else None, choice

    def kept(self, place: str, fill: Callable[[], Any]) -> Any:
        """Return how a place is filled, as kept from a road where all that it hangs on was the same."""
        if self._filled is None:
            self._filled = self.house.lately(self._hangs_on())
        if place not in self._filled:
            self._filled[place] = fill()
        return self._filled[place]

    def _hangs_on(self) -> tuple[object, ...]:
        """Return all of the golfer that the decisions of a place hang on, or that their ledgers name."""
        golfer, seen = self.golfer, self.seen
        ids = self.house.once(("facts of rungs",), self._facts_of_rungs)
        return (
            self.traces,
            tuple([seen.get(id) for id in ids]),
            self.unsaid.intersection(ids),
            tuple([golfer.known[id] for id in READS]),
            (golfer.pattern.mean_high, golfer.pattern.sd_high),
            golfer.lies.met,
            golfer.lies.tightest,
            golfer.strike_waits,
        )

    def _facts_of_rungs(self) -> tuple[str, ...]:
        """Return the golfer's facts that rules on the decisions of a place read or name."""
        scopes = {id: decision.scope for id, decision in self.base.decisions.items()}
        starts = {one.start_fact for one in self.base.decisions.values() if one.start_fact}
        rules = [rule for rule in self.base.rules.values() if scopes.get(rule.decision or "") == "rung"]
        facts = {id for rule in rules for id in (*rule.reads, *named_facts(rule.because + rule.teaches))}
        return tuple(sorted((facts | starts) & self.seen.keys()))

    def choose_alike(
        self, decision: str, seen: Seen, options: Sequence[Option]
    ) -> tuple[str | None, Choice | None]:
        """Decide a choice among options that clubs share, once for all that its rules cannot tell apart.

        `options` are kept by this judge for the golfer's whole road.
        """
        telling = self.house.once(("telling", decision), lambda: self._telling(decision, seen, options))
        key = (decision, id(options), *[seen.get(id) for id in telling])
        found = self._ruled.get(key)
        if found is None:
            candidates = [Candidate(one.id, one.seen) for one in options]
            found = self._ruled[key] = self.choose(decision, seen, candidates)
        return found

    def _telling(self, decision: str, seen: Seen, options: Sequence[Option]) -> tuple[str, ...]:
        """Return facts of a club, not of golfer or option, that a decision's rules read or name."""
        rules = self.base.plan(decision).rules
        facts = {id for rule in rules for id in (*rule.reads, *named_facts(rule.because + rule.teaches))}
        own = {id for one in options for id in one.seen}
        return tuple(sorted(facts - self.seen.keys() - own))

    def amount(self, decision: str, seen: Seen) -> tuple[float, Amount | None]:
        """Decide an amount, SI, with its ledger where one is kept."""
        amount = self.base.amount(decision, seen)
        return amount.pick_si, amount


class Quick(Judge):
    """Takes decisions for one golfer on best values alone."""

    traces = False

    def _golfer(self) -> Seen:
        known = self.golfer.known
        self.unsaid = frozenset(
            [id for id, one in known.items() if one.how == "assumed" or (one.closed and not one.waits)]
        )
        return {id: one.value for id, one in known.items()}

    def views(self, known: Mapping[str, Known]) -> dict[str, Any]:
        """Return facts as plain best values."""
        return {id: one.value for id, one in known.items()}

    def stamps(self, decision: str, waits: Mapping[str, frozenset[str]]) -> Stamp:
        """Return what holds derived numbers within their declared ranges, where that can matter."""
        ids = tuple(waits)
        held = self.house.once(("held", decision, ids), lambda: self._held(decision, ids))

        def stamp(numbers: Mapping[str, float]) -> Mapping[str, Any]:
            found = dict(numbers)
            for id, low, high in held:
                if id in found:
                    found[id] = min(high, max(low, found[id]))
            return found

        return stamp

    def _held(self, decision: str, ids: Sequence[str]) -> tuple[tuple[str, float, float], ...]:
        """Return the facts with a threshold or a node at or beyond an end of their range, with that range."""
        rows, found = self.base.plan(decision).rows, []
        ramps = [rule.effect.ramp for rule in self.base.plan(decision).rules if rule.effect.ramp]
        for id in ids:
            low, high = self.base.facts[id].range
            cuts = rows[id].cuts if id in rows else []
            nodes = [x for ramp in ramps if ramp.fact == id for x in ramp.xs]
            if not (all(low < cut <= high for cut in cuts) and all(low <= x <= high for x in nodes)):
                found.append((id, low, high))
        return tuple(found)

    def choose(
        self, decision: str, seen: Seen, candidates: Sequence[Candidate]
    ) -> tuple[str | None, Choice | None]:
        """Decide a choice without a ledger."""
        plain: list[Mapping[str, Any]] = [candidate.views for candidate in candidates]
        place, _ = self.base.fast_choose(decision, seen, plain, self.unsaid)
        return None if place is None else candidates[place].id, None

    def amount(self, decision: str, seen: Seen) -> tuple[float, Amount | None]:
        """Decide an amount without a ledger."""
        return self.base.fast_amount(decision, seen, self.unsaid), None


def _stamp(fact: Fact, waits: frozenset[str]) -> Callable[[float], View]:
    """Return what turns one derived number into a view."""
    (low, high), widest = fact.range, fact.widest

    def waiting(value: float) -> View:
        return View(min(high, max(low, value)), widest, "open", "derived", 0.0)

    def known(value: float) -> View:
        held = min(high, max(low, value))
        return View(held, (held, held), "known", "derived", 0.0)

    return waiting if waits else known


def thousandths(judge: Judge, decision: str, si: float) -> int:
    """Return an amount in whole thousandths of its decision's unit."""
    return round(unit(judge.base.decisions[decision].unit).from_si(si) * 1000)
