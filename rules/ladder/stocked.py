"""Rungs from the shelf: every kind and loft in stock for the golfer's hand, decided and flown."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from rules.ladder.assembly import impact_mass
from rules.ladder.decide import Decided, Filling, Place, begin, decide
from rules.ladder.options import by_loft, only_ranks
from rules.ladder.rung import Ledgers, Once, Opened, Rung, Spec, trade_name
from rules.problems import Problem
from rules.shelf import NoHeads, on_bench
from rules.units import parse

if TYPE_CHECKING:
    from rules.bench.build import Build
    from rules.golf.outcome import Flier
    from rules.ladder.judge import Judge
    from rules.shelf import Shelf
    from rules.shelf.parts import Grip, Head, Shaft

_DEGREE = parse("1 deg", "rad")


@dataclass(frozen=True, slots=True)
class Barred:
    """A place on the ladder that cannot be filled, and the sentence that says why."""

    id: str
    rule: str
    text: str


def no_heads(judge: Judge) -> tuple[Barred, ...]:
    """Say that the shop has no head for the golfer's hand, where that is so; his own clubs may still pair."""
    if places(judge):
        return ()
    hand = judge.golfer.word("hand")
    sentence = (
        f"The shop has no {hand}-hand head in stock, so no new club can be built; order one, or look in"
        " another catalogue."
    )
    return (Barred(f"{hand}-hand-heads", "no-heads-for-the-hand", sentence),)


def places(judge: Judge) -> list[Place]:
    """Return every place that heads in stock for the golfer's hand can fill, strongest first; maybe none."""
    hand = judge.golfer.word("hand")
    return judge.house.once(("places", hand), lambda: _places(judge.shelf, hand))  # type: ignore[no-any-return]


def _places(shelf: Shelf, hand: str) -> list[Place]:
    """Return every place that heads in stock for a hand can fill, strongest first."""
    try:
        heads = shelf.heads_for("left" if hand == "left" else "right")
    except NoHeads:
        return []
    return [
        Place(f"{kind}-{degrees:g}", group[0].kind, group[0].loft, group)
        for (kind, degrees), group in by_loft(heads).items()
    ]


def rung(judge: Judge, place: Place, flier: Flier | None = None) -> Rung | Barred:
    """Decide a place and fly it; Barred where nothing in stock will do."""
    filled = _filled(judge, place) if place.pins else judge.filled(place.id, lambda: _filled(judge, place))
    if isinstance(filled, Barred):
        return filled
    made, spec = filled
    label = trade_name(place.kind, spec.loft / _DEGREE)
    return Rung(
        place.id, place.kind, "new", label, spec, judge.flown(place.kind, spec, flier),
        Once(partial(_ledgers, judge, place, made)), made.own, pins=place.pins,
    )  # fmt: skip


def _ledgers(judge: Judge, place: Place, made: Decided) -> Ledgers:
    """Go over a decided place once more with its trace kept."""
    found = decide(judge.clerk, place, made)
    return Ledgers(Opened(found.decisions), {**judge.clerk.seen, **found.own}, found.waits)


def _filled(judge: Judge, place: Place) -> tuple[Decided, Spec] | Barred:
    """Decide a place and say what it is made of; Barred where nothing in stock will do."""
    filling = begin(judge, place)
    head = filling.made.head
    if head is None or place.pins or not only_ranks(judge):
        return _completed(judge, filling)
    return judge.completed(place.id, head.id, lambda: _completed(judge, filling))  # type: ignore[no-any-return]


def _completed(judge: Judge, filling: Filling) -> tuple[Decided, Spec] | Barred:
    """Decide what goes with a head and say what the club is made of."""
    made, place = filling.end(), filling.place
    if made.failed is not None:
        title = judge.base.decisions[made.failed].title
        return Barred(
            place.id, f"no-{made.failed}", f"Nothing in stock will do for the {title} of this club."
        )
    try:
        return made, specify(judge, made)
    except Problem as problem:
        return Barred(place.id, "cannot-be-built", f"It cannot be built from these parts: {problem}")


def specify(judge: Judge, made: Decided) -> Spec:
    """Return what a decided place is made of; raises the bench's problems where it cannot be built."""
    head, shaft, grip = made.head, made.shaft, made.grip
    assert head is not None
    assert shaft is not None
    assert grip is not None
    length, extra = made.amounts["length"], made.tip_extra
    built = bare_club(judge, head, shaft, grip, length, extra)
    return Spec(
        loft=head.loft,
        length=made.amounts["length"],
        balance=made.amounts["balance"],
        lie=made.amounts["lie"],
        face_angle=head.face_angle,
        head=head,
        shaft=shaft,
        grip=grip,
        tip_extra=made.tip_extra,
        face_height=head.face_height,
        impact_mass=impact_mass(built, head, made.amounts["balance"]),
    )


def bare_club(judge: Judge, head: Head, shaft: Shaft, grip: Grip, length: float, tip_extra: float) -> Build:
    """Return a club with empty ports on paper, put together once; raises what the bench raises."""
    return judge.house.once(  # type: ignore[no-any-return]
        ("built", head.id, shaft.id, grip.id, length, tip_extra),
        lambda: on_bench.club(head, shaft, grip, length, judge.shelf, tip_extra),
    )
