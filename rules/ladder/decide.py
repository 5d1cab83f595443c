"""The seven decisions of a rung, in their order, each by the rules and each with its ledger."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import TYPE_CHECKING, cast

from rules.facts.known import NOTHING, Known
from rules.ladder.deciding import to_thousandth
from rules.ladder.options import head_options, tip_options
from rules.ladder.rung import Once
from rules.ladder.start import usual_length

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.ledger import Amount, Choice
    from rules.facts.subject import Kind
    from rules.ladder.deciding import Deciding, Seen
    from rules.ladder.options import Option
    from rules.shelf.parts import Grip, Head, Shaft


@dataclass(frozen=True, slots=True)
class Place:
    """A place on the ladder before anything is decided: kind, loft, and what may fill it."""

    id: str
    kind: Kind
    loft: float
    heads: tuple[Head, ...]
    start_length: float | None = None
    """Where length starts, m; None for the usual length of this kind and loft."""
    facts: Mapping[str, Known] = field(default_factory=dict)
    """Facts of an owned club: state, liking, cut."""
    pins: Mapping[str, object] = field(default_factory=dict)
    """Decisions taken by a person: amounts in SI, choices by candidate id."""

    def with_pins(self, pins: Mapping[str, object]) -> Place:
        """Return the place with other decisions pinned."""
        return replace(self, pins=pins)


@dataclass(slots=True)
class Decided:
    """What the decisions came to, filled as they fall."""

    head: Head | None = None
    shaft: Shaft | None = None
    grip: Grip | None = None
    tip_extra: float = 0.0
    picks: dict[str, str | None] = field(default_factory=dict)
    """What the rules picked of each choice, whatever a person took instead."""
    decisions: dict[str, Once[Choice] | Once[Amount]] = field(default_factory=dict)
    """Ledgers, where they are kept."""
    own: Seen = field(default_factory=dict)
    """Facts of the place and of the parts picked, which the decisions read besides the golfer's."""
    amounts: dict[str, float] = field(default_factory=dict)
    waits: dict[str, frozenset[str]] = field(default_factory=dict)
    """Open questions behind the options' facts, by fact."""
    failed: str | None = None
    """The decision for which nothing in stock would do."""


def decide(judge: Deciding, place: Place, told: Decided | None = None) -> Decided:
    """Decide a place, part by part. `failed` names the decision for which nothing would do.

    `told` is what the judge decided, for the clerk who keeps the trace of it.
    """
    return begin(judge, place, told).end()


def begin(judge: Deciding, place: Place, told: Decided | None = None) -> Filling:
    """Begin to decide a place: its head."""
    made = Decided(own=_place_views(judge, place))
    filling = Filling(judge, place, made, told or made)
    made.head = cast("Head | None", filling.choose("head", head_options(judge, place)))
    return filling


def _place_views(judge: Deciding, place: Place) -> Seen:
    """Return what is known of a place before anything is decided."""
    if place.start_length is None and not place.facts:
        made = partial(_place_facts, judge.base, place)
        return judge.house.once(("place", judge.traces, place.kind, place.loft), lambda: judge.views(made()))  # type: ignore[no-any-return]
    return judge.views({**_place_facts(judge.base, place), **place.facts})


def _place_facts(base: RuleBase, place: Place) -> dict[str, Known]:
    """Return the facts of a place that no golfer changes."""
    start = place.start_length
    return {
        "kind": Known(place.kind),
        "loft": Known(place.loft),
        "owned": Known("new"),
        "owned_liked": Known("not_owned"),
        "cut": Known(0.0),
        "usual_length": Known(usual_length(base, place.kind, place.loft) if start is None else start),
    }


@dataclass(frozen=True, slots=True)
class Filling:
    """One place being filled."""

    judge: Deciding
    place: Place
    made: Decided
    told: Decided

    def end(self) -> Decided:
        """Decide what goes with the head."""
        made = self.made
        for amount in ("length", "balance"):
            self.amount(amount)
        shafts = self.judge.shafts(self.place.kind, made.head, made.amounts["length"])
        made.shaft = cast("Shaft | None", self.choose("shaft", shafts, alike=True))
        tips = tip_options(self.judge, made.head, made.shaft, self.place.loft, made.amounts["length"])
        made.tip_extra = cast(float, self.choose("tip", tips) or 0.0)
        made.grip = cast("Grip | None", self.choose("grip", self.judge.grips, alike=True))
        self.amount("lie")
        return made

    def choose(self, decision: str, options: Sequence[Option], *, alike: bool = False) -> object:
        """Take one choice, note its ledger, and let the picked option's facts stand for what follows."""
        made, told = self.made, self.told.picks.get(decision)
        picked, ledger = self.judge.choose(decision, made.own, options, told, alike=alike)
        made.picks[decision] = picked
        if ledger is not None:
            made.decisions[decision] = ledger
            self._note_waits(options)
        wanted = self.place.pins.get(decision)
        if wanted is not None and any(one.id == wanted for one in options):
            picked = cast(str, wanted)
        for option in options:
            if option.id == picked:
                # A ledger is put into words later and reads what it was decided on: never change that.
                made.own = {**made.own, **option.seen}
                return option.part
        if made.failed is None:
            made.failed = decision
        return None

    def _note_waits(self, options: Sequence[Option]) -> None:
        """Note the open questions behind the facts of several options."""
        waits = self.made.waits
        for option in options:
            for id, questions in option.waits.items():
                if questions:
                    waits[id] = waits.get(id, NOTHING) | questions

    def amount(self, decision: str) -> None:
        """Take one amount and note its ledger; a pinned value is a line of the ledger too."""
        made, judge = self.made, self.judge
        if decision == "lie" and "head_lie" not in made.own:
            made.amounts["lie"] = 0.0
            return
        value, ledger = judge.amount(decision, made.own, self.told.amounts.get(decision))
        if decision in self.place.pins:
            value = to_thousandth(judge, decision, cast(float, self.place.pins[decision]))
            ledger = Once(partial(_pinned, ledger, value)) if ledger else None
        if ledger is not None:
            made.decisions[decision] = ledger
        made.amounts[decision] = value


def _pinned(ledger: Once[Amount], si: float) -> Amount:
    """Return the ledger of an amount that a person set."""
    return ledger().pinned(si, lambda _: "Set by the fitter.")
