"""Stock arithmetic: what is on hand is what was counted less what is booked, and never below nought.

A count that the cataloguer left out means that nobody counts: there is always one. The built-in demo
shop is never written.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TypeVar

from rules.problems import Problem
from rules.shelf.bookings import Bill, Booking, Key, bookings_text, read_bookings, total
from rules.shelf.faults import did_you_mean
from rules.shelf.files import only_writer, replace_file
from rules.shelf.parts import Grip, Head, Piece, Shaft
from rules.shelf.reader import DEMO, load_shelf
from rules.shelf.shelf import Shelf
from rules.shelf.tables import BOOKINGS_FILE
from rules.shelf.values import Wrong, label

Counted = TypeVar("Counted", Head, Shaft, Grip, Piece)
"""A part that may be counted."""


class DemoIsReadOnly(Problem):
    """An attempt to book from the built-in demo shop."""

    def __init__(self) -> None:
        super().__init__(
            "the built-in demo shop is never written; make the shop's own with `turfpair shop init FOLDER`"
            " and name it with --catalogue"
        )


class NotInStock(Problem):
    """Parts wanted that are not there; nothing was booked."""

    def __init__(self, short: Mapping[Key, tuple[int, int]]) -> None:
        self.short = dict(short)
        """For each part (sort, id): how many are wanted and how many are on hand."""
        lines = [
            f"{sort} {part} ({wanted} wanted, {there} on hand)"
            for (sort, part), (wanted, there) in short.items()
        ]
        super().__init__(f"nothing was booked, because these are not in stock: {'; '.join(lines)}")


class NotBooked(Problem):
    """A session that has nothing booked."""

    def __init__(self, session: str, known: Sequence[str]) -> None:
        self.session = session
        super().__init__(f"nothing is booked for session '{session[:60]}'{did_you_mean(session, known)}")


class BadSessionName(Problem):
    """A name of a session that could not be read back from the bookings."""

    def __init__(self, why: str) -> None:
        super().__init__(f"this session cannot be booked for under its name: {why}")


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One line of the order list: a part that has run out, or nearly."""

    sort: str
    """head, shaft, grip or piece."""
    id: str
    """The part's id; a piece's is its mass."""
    label: str
    """What a person calls it."""
    count: int
    """How many were counted; nought for a part that has left the catalogue."""
    booked: int
    """How many are promised."""
    on_hand: int
    """How many are left to propose."""
    short: int
    """How many are promised that are not there (the catalogue was recounted after a booking)."""


def book(folder: Path | None, session: str, bills: Sequence[Bill], when: datetime | None = None) -> Booking:
    """Book the parts of a session's clubs, all of them or none; an earlier booking of it is replaced.

    Raises DemoIsReadOnly, NotInStock, BadSessionName, Busy, CannotWrite, or what reading the catalogue
    raises.
    """
    own, session = _own_shop(folder), _session(session)
    with only_writer(own):
        shelf, bookings = load_shelf(own), read_bookings(own)
        others = [one for one in bookings if one.session != session]
        made = when or datetime.now(UTC).replace(microsecond=0)
        booking = Booking(session, made, tuple(bills))
        _check(shelf, booking.counts(), total(one.counts() for one in others))
        replace_file(own / BOOKINGS_FILE, bookings_text([*others, booking]))
    return booking


def release(folder: Path | None, session: str) -> Booking:
    """Give back what a session had booked, and return what that was; NotBooked when it had nothing."""
    own = _own_shop(folder)
    with only_writer(own):
        bookings = read_bookings(own)
        found = next((one for one in bookings if one.session == session), None)
        if found is None:
            raise NotBooked(session, [one.session for one in bookings])
        replace_file(own / BOOKINGS_FILE, bookings_text([one for one in bookings if one is not found]))
    return found


def on_hand(shelf: Shelf, session: str = "") -> Shelf:
    """Give the shelf with its counts less what is booked for sessions other than this one."""
    return without(
        shelf, total(one.counts() for one in read_bookings(shelf.folder) if one.session != session)
    )


def without(shelf: Shelf, gone: Counter[Key]) -> Shelf:
    """Give the shelf with its counts less these parts; what nobody counts stays, and nought is the least."""
    if not gone:
        return shelf
    return replace(
        shelf,
        heads=_less("head", shelf.heads, gone),
        shafts=_less("shaft", shelf.shafts, gone),
        grips=_less("grip", shelf.grips, gone),
        pieces=_less("piece", shelf.pieces, gone),
    )


def orders(folder: Path, at_most: int = 0) -> tuple[OrderLine, ...]:
    """List the parts of which `at_most` are left to propose, and those promised that are not there."""
    shelf = load_shelf(folder)
    booked = total(one.counts() for one in read_bookings(folder))
    labels = {key: part.id if isinstance(part, Piece) else part.label for key, part in _stock(shelf).items()}
    found = []
    for key, number in {**counts(shelf), **{key: 0 for key in booked if key not in labels}}.items():
        if number is None:
            continue
        left = number - booked[key]
        if left <= at_most:
            line = OrderLine(*key, labels.get(key, key[1]), number, booked[key], max(left, 0), max(-left, 0))
            found.append(line)
    return tuple(found)


def _session(name: str) -> str:
    """Insist on a name that the bookings can hold."""
    try:
        if label(name) == name:
            return name
        why = "it begins or ends with a blank"
    except Wrong as wrong:
        why = str(wrong)
    raise BadSessionName(why)


def _own_shop(folder: Path | None) -> Path:
    """Insist on a shop of one's own."""
    if folder is None or folder.resolve() == DEMO.resolve():
        raise DemoIsReadOnly
    return folder


def _stock(shelf: Shelf) -> dict[Key, Head | Shaft | Grip | Piece]:
    """Give every part of a shelf by sort and id, in the order of the catalogue."""
    sorts: tuple[tuple[str, Sequence[Head | Shaft | Grip | Piece]], ...] = (
        ("head", shelf.heads), ("shaft", shelf.shafts), ("grip", shelf.grips), ("piece", shelf.pieces)
    )  # fmt: skip
    return {(sort, part.id): part for sort, parts in sorts for part in parts}


def counts(shelf: Shelf) -> dict[Key, int | None]:
    """Give every part's count by sort and id; None is a part that nobody counts."""
    return {key: part.count for key, part in _stock(shelf).items()}


def _check(shelf: Shelf, wanted: Counter[Key], booked: Counter[Key]) -> None:
    """Refuse what is wanted if any of it is not there; NotInStock names all of it."""
    there_are = counts(shelf)
    short: dict[Key, tuple[int, int]] = {}
    for key, number in wanted.items():
        count = there_are.get(key, 0)
        there = number if count is None else max(count - booked[key], 0)
        if number > there:
            short[key] = (number, there)
    if short:
        raise NotInStock(short)


def _less(sort: str, parts: tuple[Counted, ...], gone: Counter[Key]) -> tuple[Counted, ...]:
    """Take what is gone off the counts of parts."""
    return tuple(
        replace(part, count=max(part.count - less, 0)) if part.count is not None and less else part
        for part, less in ((part, gone[sort, part.id]) for part in parts)
    )
