"""The judge: takes the decisions of a road on best values alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Any

from rules.engine.fast import Ground
from rules.facts.known import Known
from rules.ladder.clerk import Clerk
from rules.ladder.deciding import Deciding, Seen
from rules.ladder.flown import Flying
from rules.ladder.options import AFTER_HEAD, READS
from rules.ladder.pair_facts import READS as PAIR_READS

if TYPE_CHECKING:
    from rules.engine.ledger import Amount, Choice
    from rules.facts.golfer import Golfer
    from rules.facts.subject import Kind
    from rules.golf.outcome import Flier
    from rules.house import House
    from rules.ladder.options import Option
    from rules.ladder.rung import Flown, Once, Spec


class Judge(Deciding):
    """Takes decisions for one golfer on best values alone, and keeps no trace."""

    traces = False

    def __init__(self, house: House, golfer: Golfer) -> None:
        super().__init__(house, golfer, {id: one.value for id, one in golfer.known.items()})
        known = golfer.known.items()
        unsaid = [id for id, one in known if one.how == "assumed" or (one.closed and not one.waits)]
        self.ground = Ground(self.seen, frozenset(unsaid))
        """The golfer's facts, as the engine reads them for one decision after another."""
        self._flown: dict[Any, Any] | None = None
        self._ruled: dict[tuple[Any, ...], str | None] = {}

    @cached_property
    def clerk(self) -> Clerk:
        """Who decides the same with its trace kept, for when somebody asks why."""
        return Clerk(self.house, self.golfer)

    def filled(self, place: str, fill: Callable[[], Any]) -> Any:
        """Return how a place is filled, as kept from a road where all that it hangs on was the same."""
        if place not in self._places:
            self._places[place] = fill()
        return self._places[place]

    def completed(self, place: str, head: str, fill: Callable[[], Any]) -> Any:
        """Return what goes with a head at a place, likewise: strikes and lies no longer matter to it."""
        key = (place, head)
        if key not in self._rest:
            self._rest[key] = fill()
        return self._rest[key]

    def flown(self, kind: Kind, spec: Spec, flier: Flier | None = None) -> Flown:
        """Fly a club, or take how it flew for a golfer who swings and strikes the same in the same air.

        Most answers leave most clubs' flights alone. A `flier` (a surface over one law) serves where many
        thousands are flown.
        """
        if self._flown is None:
            self._flown = self.house.lately("flown", (flier, *self._flying.hangs_on))
        club = (kind, spec.loft, spec.length, spec.impact_mass, spec.head and spec.head.id)
        found = self._flown.get(club)
        if found is None:
            found = self._flown[club] = self._flying.club(kind, spec, flier)
        return found

    @cached_property
    def _flying(self) -> Flying:
        return Flying(self.base, self.golfer)

    @cached_property
    def _places(self) -> dict[Any, Any]:
        """Places filled for golfers of whom all that a place hangs on is the same."""
        return self.house.lately("filled", (*self._read_by("rung", READS), *self._strikes))

    @cached_property
    def _rest(self) -> dict[Any, Any]:
        """What goes with heads, for golfers whose facts come to the same for every rule on it."""
        told = self.house.once(("after the head",), lambda: self._rung_decisions()[1:])
        laid = [self.ground.under(self.base.plan(id)) for id in told]
        rules = [(one.mask, tuple(one.ramps.items())) for one in laid]
        starts = self.house.once(("starts",), lambda: self._starts() & self.seen.keys())
        return self.house.lately("rest", (*rules, *[self.seen[id] for id in (*starts, *AFTER_HEAD)]))

    @cached_property
    def hangs_on(self) -> tuple[object, ...]:
        """All of the golfer that any decision hangs on."""
        golfer = self.golfer
        facts = self._read_by("every", (*READS, *PAIR_READS))
        iron = golfer.iron and golfer.iron.value
        return (*facts, *self._strikes, *self._flying.hangs_on, golfer.driver.carry, iron)

    @property
    def _strikes(self) -> tuple[object, ...]:
        pattern = self.golfer.pattern
        return pattern.mean_high, pattern.sd_high, self.golfer.lies

    def _read_by(self, scope: str, more: Sequence[str]) -> tuple[object, ...]:
        """Return the golfer's facts that rules on decisions of a scope read, and more of them."""
        ids = self.house.once(("read by", scope), lambda: self._reads(scope))
        known = self.golfer.known
        values, besides = [self.seen[id] for id in ids], [known[id].value for id in more]
        return tuple(values), tuple(besides), self.ground.unknown.intersection(ids)

    def _reads(self, scope: str) -> tuple[str, ...]:
        """Return the facts of golfers that rules on decisions of a scope read."""
        decisions = self.base.decisions if scope == "every" else self._rung_decisions()
        rules = [rule for rule in self.base.rules.values() if rule.decision in decisions]
        facts = {id for rule in rules for id in rule.reads}
        return tuple(sorted((facts | self._starts()) & self.seen.keys()))

    def _rung_decisions(self) -> tuple[str, ...]:
        """Return the decisions on a rung, in their order."""
        return tuple(id for id, decision in self.base.decisions.items() if decision.scope == "rung")

    def _starts(self) -> set[str]:
        """Return the facts at which amounts start."""
        return {one.start_fact for one in self.base.decisions.values() if one.start_fact}

    def views(self, known: Mapping[str, Known]) -> dict[str, Any]:
        """Return facts as plain best values."""
        return {id: one.value for id, one in known.items()}

    def derived(self, numbers: Mapping[str, float], waits: Mapping[str, frozenset[str]]) -> Mapping[str, Any]:
        """Return derived numbers as they are."""
        return numbers

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
        """Return the option that a decision picks; one that nothing can forbid needs no counting."""
        if len(options) == 1 and not self.base.forbids(decision, self.ground):
            return options[0].id
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
