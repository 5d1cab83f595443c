"""Parts promised to sessions: booked all or none, given back, and the list of what to order."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from interview.commands.common import house, opened, store
from interview.commands.errors import DONE, UsageProblem
from interview.text import counted, one_line
from rules.problems import Problem
from rules.shelf import catalogue_folder

if TYPE_CHECKING:
    from pathlib import Path

    from rules.fitting import Outcome
    from rules.shelf.bookings import Bill, Booking
    from rules.shelf.stock import OrderLine


class NothingToBook(Problem):
    """A session whose clubs take nothing from the shelf; nothing was booked and nothing changed."""


class FittingStopped(Problem):
    """A session of a golfer whom swinging hurts: no club is chosen or built until he is well."""

    def __init__(self, session: str) -> None:
        self.session = session
        super().__init__(
            f"session '{session}' stopped because swinging hurts, so nothing is booked: a licensed "
            "professional comes first, and his word changes the answer"
        )


def book(args: Namespace) -> int:
    """Book the parts of a session's two clubs: those the road proposes from what others leave."""
    from rules.shelf import stock

    folder = _own(args)
    session, outcome = opened(args, house(args), args.session)
    bills = _bills(session.id, outcome)
    booking = stock.book(folder, session.id, bills)
    print(f"Booked for session '{session.id}' from {one_line(outcome.house.shelf.shop.name)}:")
    _print(booking)
    print(f"Give it back with: turfpair shop release {session.id}")
    return DONE


def _own(args: Namespace) -> Path:
    """Return the shop's own folder; the demo shop is never written."""
    from rules.shelf.stock import DemoIsReadOnly

    folder = catalogue_folder(args.catalogue)
    if folder is None:
        raise DemoIsReadOnly
    return folder


def _bills(session: str, outcome: Outcome) -> list[Bill]:
    """Return what both clubs take; raises NothingToBook or FittingStopped."""
    from rules.workbench.shared import bill
    from rules.workbench.weighed import as_weighed

    if any(notice.kind == "caution" and notice.topic == "body" for notice in outcome.notices):
        raise FittingStopped(session)
    if not outcome.clubs:
        raise NothingToBook(f"no pair can be built for session '{session}', so nothing is booked")
    made = as_weighed(outcome.clubs, outcome.subject.readings, outcome.house.shelf)
    clubs = [right.club if right else club for club, right in zip(outcome.clubs, made, strict=True)]
    bills = [one for one in map(bill, clubs) if one is not None]
    if not bills:
        raise NothingToBook(f"both clubs of session '{session}' are his own, so there is nothing to book")
    return bills


def _print(booking: Booking) -> None:
    """Print a booking, a line for each club."""
    for bill in booking.bills:
        print(f"  {one_line(', '.join(_parts(bill)), 400)}")


def _parts(bill: Bill) -> Iterator[str]:
    """Yield the parts of one club."""
    from rules.shelf.parts import piece_id

    for sort, id in (("head", bill.head), ("shaft", bill.shaft), ("grip", bill.grip)):
        if id is not None:
            yield f"{sort} {id}"
    pieces = ", ".join(f"{number} x {piece_id(mass)}" for mass, number in bill.pieces.items())
    if pieces:
        yield f"pieces {pieces}"


def release(args: Namespace) -> int:
    """Give back what a session had booked."""
    from rules.shelf import stock

    folder = _own(args)
    session = _booked(folder, args)
    booking = stock.release(folder, session)
    parts = sum(booking.counts().values())
    print(f"Given back: {counted(parts, 'part')} of session '{one_line(session)}'.")
    return DONE


def _booked(folder: Path, args: Namespace) -> str:
    """Return the name under which a session is booked: as typed, by its ticket, or as its file says."""
    from interview.session import load, read_ticket, ticket_code
    from interview.store import NoSuchSession
    from rules.shelf.bookings import read_bookings

    typed: str = args.session
    names = [one.session for one in read_bookings(folder)]
    code = read_ticket(typed)
    found = [name for name in names if name == typed or (code is not None and ticket_code(name) == code)]
    if found:
        return found[0]
    try:
        file = store(args).locate(typed)
    except NoSuchSession:
        return typed  # forgotten or never there: the bookings say that nothing is booked for it
    return load(file, house(args).base.facts).id


def orders(args: Namespace) -> int:
    """List the parts of which few enough are left, and those promised that are not there."""
    from rules.shelf import stock
    from rules.shelf.reader import DEMO

    if not 0 <= args.at_most <= 1000:
        raise UsageProblem("shop: --at-most takes a whole number from 0 to 1000")
    lines = stock.orders(catalogue_folder(args.catalogue) or DEMO, args.at_most)
    for row in _order_rows(lines):
        print(row)
    if not lines:
        print("Nothing has run out.")
    return DONE


def _order_rows(lines: Iterable[OrderLine]) -> Iterator[str]:
    """Yield the order list, a part a line."""
    found = list(lines)
    if found:
        yield f"{'sort':<6} {'part':<16} {'counted':>7} {'booked':>6} {'left':>5} {'short':>5}  what"
    for one in found:
        figures = f"{one.count:>7} {one.booked:>6} {one.on_hand:>5} {one.short:>5}"
        yield f"{one.sort:<6} {one.id:<16.16} {figures}  {one_line(one.label, 40)}"
