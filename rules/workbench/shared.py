"""Two clubs from one shelf: what the first takes is not there for the second.

Heads, shafts and grips of which one is left, and pieces of mass, are shared. Where both clubs want the
last of something, one of them is decided again without it; where nothing else will do, it is said.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from rules.ladder.pairs import pairs
from rules.ladder.rung import Rung
from rules.ladder.stocked import places, rung
from rules.shelf.bookings import Bill, Key, total
from rules.shelf.faults import NoHeads
from rules.shelf.stock import counts, without
from rules.workbench.club import Club, finish
from rules.workbench.mass import WITHIN

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rules.engine import RuleBase
    from rules.facts.golfer import Golfer
    from rules.golf.outcome import Flier
    from rules.ladder.judge import Judge
    from rules.ladder.pairs import Pair
    from rules.shelf import Shelf


def bill(club: Club) -> Bill | None:
    """Return the parts that a club takes from the shelf; None for one of his own, which takes none."""
    parts = _parts(club.rung)
    if club.plan is None or not parts:
        return None
    pieces = Counter(mass for masses in club.plan.pieces.values() for mass in masses)
    return Bill(**parts, pieces=dict(sorted(pieces.items())))


def left_after(shelf: Shelf, clubs: Iterable[Club]) -> Shelf:
    """Return the shelf without what these clubs take."""
    return without(shelf, total(one.counts() for one in map(bill, clubs) if one is not None))


def finish_both(
    base: RuleBase, shelf: Shelf, golfer: Golfer, longer: Rung, shorter: Rung
) -> tuple[Club, Club]:
    """Finish the two clubs of a pair; no piece is planned into both.

    The longer takes first. Where that leaves the shorter off its target, the shorter takes first instead
    if the worse of the two then comes nearer.
    """
    first = finish(base, shelf, golfer, "longer", longer)
    clubs = (first, finish(base, left_after(shelf, (first,)), golfer, "shorter", shorter))
    if abs(clubs[1].left) <= WITHIN:
        return clubs
    second = finish(base, shelf, golfer, "shorter", shorter)
    if abs(second.left) >= abs(clubs[1].left) - 1e-9:
        return clubs
    turned = (finish(base, left_after(shelf, (second,)), golfer, "longer", longer), second)
    return min(clubs, turned, key=lambda two: max(abs(club.left) for club in two))


def apart(judge: Judge, picked: Pair, flier: Flier | None = None) -> Pair:
    """Return the pair built from parts of which there are enough.

    Where both clubs want the last of a part, the shorter is decided and flown again without it, else the
    longer; a part that a person pinned stays. The pair comes back as it is when nothing else will do:
    `lacking` then names what is missing.
    """
    if not _wanted_twice(judge.shelf, picked.longer, picked.shorter):
        return picked
    for changed, kept in ((picked.shorter, picked.longer), (picked.longer, picked.shorter)):
        other = _otherwise(judge, changed, kept, flier)
        if other is not None:
            return pairs(judge, (other, kept))[0]
    return picked


def lacking(shelf: Shelf, clubs: Iterable[Club]) -> tuple[tuple[Key, int, int], ...]:
    """List what these clubs want more of than the shelf has: the part, how many, and how many there are."""
    there_are = counts(shelf)
    wanted = total(one.counts() for one in map(bill, clubs) if one is not None)
    short = []
    for key, number in wanted.items():
        there = there_are.get(key, 0)
        if there is not None and there < number:
            short.append((key, number, there))
    return tuple(short)


def _parts(rung: Rung) -> dict[str, str]:
    """Return the ids of a rung's head, shaft and grip, by sort; his own club takes none from the shelf."""
    if rung.owned is not None:
        return {}
    found = {"head": rung.spec.head, "shaft": rung.spec.shaft, "grip": rung.spec.grip}
    return {sort: part.id for sort, part in found.items() if part is not None}


def _wanted_twice(shelf: Shelf, longer: Rung, shorter: Rung) -> set[str]:
    """Return the sorts of part of which both want the one that is left."""
    there_are, mine, other = counts(shelf), _parts(longer), _parts(shorter)
    return {sort for sort, id in mine.items() if other.get(sort) == id and there_are[sort, id] == 1}


def _otherwise(judge: Judge, changed: Rung, kept: Rung, flier: Flier | None) -> Rung | None:
    """Decide a rung again without the parts that the other takes; None when it cannot be filled so."""
    if any(sort in changed.pins for sort in _wanted_twice(judge.shelf, kept, changed)):
        return None
    rest = without(judge.shelf, Counter(dict.fromkeys(_parts(kept).items(), 1)))
    other = type(judge)(judge.house.with_shelf(rest), judge.golfer)
    try:
        place = next((one for one in places(other) if one.id == changed.id), None)
    except NoHeads:
        return None
    made = rung(other, place.with_pins(changed.pins), flier) if place else None
    return made if isinstance(made, Rung) else None
