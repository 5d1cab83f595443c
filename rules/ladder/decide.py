"""The seven decisions of a rung, in their order, each by the rules and each with its ledger."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, cast

from rules.engine import Candidate
from rules.facts.known import NOTHING, Known, views
from rules.ladder.options import grip_options, head_options, shaft_options, tip_options
from rules.ladder.start import usual_length

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.ledger import Amount, Choice
    from rules.engine.views import View
    from rules.facts.golfer import Golfer
    from rules.facts.subject import Kind
    from rules.ladder.options import Option
    from rules.shelf import Shelf
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
    decisions: dict[str, Choice | Amount] = field(default_factory=dict)
    views: dict[str, View] = field(default_factory=dict)
    amounts: dict[str, float] = field(default_factory=dict)
    waits: dict[str, frozenset[str]] = field(default_factory=dict)
    """Open questions behind the options' facts, by fact."""
    failed: str | None = None
    """The decision for which nothing in stock would do."""


def decide(base: RuleBase, shelf: Shelf, golfer: Golfer, place: Place) -> Decided:
    """Decide a place, part by part. `failed` names the decision for which nothing would do."""
    made = Decided(views={**golfer.views, **_place_views(base, place)})
    made.head = cast("Head | None", _choose(base, made, "head", head_options(base, golfer, place), place))
    for amount in ("length", "balance"):
        _amount(base, made, amount, place)
    shafts = shaft_options(base, shelf, golfer, place.kind, made.head, made.amounts["length"])
    made.shaft = cast("Shaft | None", _choose(base, made, "shaft", shafts, place))
    tips = tip_options(base, made.head, made.shaft, place.loft, made.amounts["length"])
    made.tip_extra = cast(float, _choose(base, made, "tip", tips, place) or 0.0)
    made.grip = cast("Grip | None", _choose(base, made, "grip", grip_options(base, shelf, golfer), place))
    _amount(base, made, "lie", place)
    return made


def _place_views(base: RuleBase, place: Place) -> dict[str, View]:
    """Return what is known of a place before anything is decided."""
    start = usual_length(base, place.kind, place.loft) if place.start_length is None else place.start_length
    facts = {
        "kind": Known(place.kind),
        "loft": Known(place.loft),
        "owned": Known("new"),
        "owned_liked": Known("not_owned"),
        "cut": Known(0.0),
        "usual_length": Known(start),
    }
    return views(base, {**facts, **place.facts})


def _choose(base: RuleBase, made: Decided, decision: str, options: Sequence[Option], place: Place) -> object:
    """Take one choice, note its ledger, and let the picked option's facts stand for what follows."""
    candidates = [Candidate(option.id, views(base, option.facts)) for option in options]
    choice = base.choose(decision, made.views, candidates)
    for option in options:
        for id, known in option.facts.items():
            if known.waits:
                made.waits[id] = made.waits.get(id, NOTHING) | known.waits
    wanted = place.pins.get(decision) if decision in place.pins else None
    picked = (
        wanted
        if wanted in {option.id for option in options}
        else (choice.pick.candidate.id if choice.pick else None)
    )
    made.decisions[decision] = choice
    for option, candidate in zip(options, candidates, strict=True):
        if option.id == picked:
            # A ledger is put into words later and reads the views it was decided on: never change them.
            made.views = {**made.views, **candidate.views}
            return option.part
    if made.failed is None:
        made.failed = decision
    return None


def _amount(base: RuleBase, made: Decided, decision: str, place: Place) -> None:
    """Take one amount and note its ledger; a pinned value is a line of the ledger too."""
    if decision == "lie" and "head_lie" not in made.views:
        made.amounts["lie"] = 0.0
        return
    amount = base.amount(decision, made.views)
    if decision in place.pins:
        amount = amount.pinned(cast(float, place.pins[decision]), lambda _: "Set by the fitter.")
    made.decisions[decision] = amount
    made.amounts[decision] = amount.pick_si
