"""The judge: takes the decisions of a road on best values alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Any

from rules.engine.fast import Ground
from rules.facts.known import Known
from rules.ladder.clerk import Clerk
from rules.ladder.deciding import Deciding, Seen, Stamp
from rules.ladder.options import READS

if TYPE_CHECKING:
    from rules.engine.ledger import Amount, Choice
    from rules.facts.golfer import Golfer
    from rules.house import House
    from rules.ladder.options import Option
    from rules.ladder.rung import Once


class Judge(Deciding):
    """Takes decisions for one golfer on best values alone, and keeps no trace."""

    traces = False

    def __init__(self, house: House, golfer: Golfer) -> None:
        super().__init__(house, golfer, {id: one.value for id, one in golfer.known.items()})
        known = golfer.known.items()
        unsaid = [id for id, one in known if one.how == "assumed" or (one.closed and not one.waits)]
        self.ground = Ground(self.seen, frozenset(unsaid))
        """The golfer's facts, as the engine reads them for one decision after another."""
        self._filled: dict[str, Any] | None = None
        self._ruled: dict[tuple[Any, ...], str | None] = {}

    @cached_property
    def clerk(self) -> Clerk:
        """Who decides the same with its trace kept, for when somebody asks why."""
        return Clerk(self.house, self.golfer)

    def kept(self, place: str, fill: Callable[[], Any]) -> Any:
        """Return how a place is filled, as kept from a road where all that it hangs on was the same."""
        if self._filled is None:
            self._filled = self.house.lately(self._hangs_on())
        if place not in self._filled:
            self._filled[place] = fill()
        return self._filled[place]

    def _hangs_on(self) -> tuple[object, ...]:
        """Return all of the golfer that the decisions of a place hang on."""
        golfer, seen = self.golfer, self.seen
        ids = self.house.once(("facts of rungs",), self._facts_of_rungs)
        return (
            tuple([seen.get(id) for id in ids]),
            self.ground.unknown.intersection(ids),
            tuple([golfer.known[id] for id in READS]),
            (golfer.pattern.mean_high, golfer.pattern.sd_high),
            golfer.lies.met,
            golfer.lies.tightest,
        )

    def _facts_of_rungs(self) -> tuple[str, ...]:
        """Return the golfer's facts that rules on the decisions of a place read."""
        scopes = {id: decision.scope for id, decision in self.base.decisions.items()}
        starts = {one.start_fact for one in self.base.decisions.values() if one.start_fact}
        rules = [rule for rule in self.base.rules.values() if scopes.get(rule.decision or "") == "rung"]
        facts = {id for rule in rules for id in rule.reads}
        return tuple(sorted((facts | starts) & self.seen.keys()))

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
        self, decision: str, own: Seen, options: Sequence[Option], told: str | None = None,
        *, alike: bool = False,
    ) -> tuple[str | None, Once[Choice] | None]:  # fmt: skip
        """Decide a choice; among options that clubs share once for all that its rules cannot tell apart."""
        if not alike:
            return self._picked(decision, own, options), None
        telling = self.house.once(("telling", decision), lambda: self._telling(decision, options))
        key = (decision, id(options), *[own.get(id) for id in telling])
        if key not in self._ruled:
            self._ruled[key] = self._picked(decision, own, options)
        return self._ruled[key], None

    def _picked(self, decision: str, own: Seen, options: Sequence[Option]) -> str | None:
        """Return the option that a decision picks."""
        place, _ = self.base.fast_choose(decision, own, [one.seen for one in options], self.ground)
        return None if place is None else options[place].id

    def _telling(self, decision: str, options: Sequence[Option]) -> tuple[str, ...]:
        """Return facts of a club, not of golfer or option, that a decision's rules read."""
        read = {id for rule in self.base.plan(decision).rules for id in rule.reads}
        return tuple(sorted(read - self.seen.keys() - {id for one in options for id in one.seen}))

    def amount(
        self, decision: str, own: Seen, told: float | None = None
    ) -> tuple[float, Once[Amount] | None]:
        """Decide an amount."""
        return self.base.fast_amount(decision, own, self.ground), None
