"""What a shop has promised to its sessions: `bookings.toml`, kept by the program."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

import tomli_w

from rules.engine.scanner import Path as KeyPath
from rules.shelf.faults import ShelfFaults
from rules.shelf.parts import piece_id
from rules.shelf.sheet import Sheet, nth
from rules.shelf.tables import BOOKINGS_FILE, MOST_PARTS
from rules.shelf.values import Field, Wrong, count, label, name, quantity, shown

Key = tuple[str, str]
"""A part in stock: its sort (head, shaft, grip, piece) and its id."""


@dataclass(frozen=True, slots=True)
class Bill:
    """The parts that one club takes from the shelf; what the golfer owns already is None."""

    head: str | None = None
    """Id of the head."""
    shaft: str | None = None
    """Id of the shaft."""
    grip: str | None = None
    """Id of the grip."""
    pieces: Mapping[float, int] = field(default_factory=dict)
    """How many pieces of each mass (kg)."""

    def counts(self) -> Counter[Key]:
        """Count the parts by sort and id."""
        single = {"head": self.head, "shaft": self.shaft, "grip": self.grip}
        found = Counter({(sort, part): 1 for sort, part in single.items() if part is not None})
        for mass, number in self.pieces.items():
            found["piece", piece_id(mass)] += number
        return found


@dataclass(frozen=True, slots=True)
class Booking:
    """What is promised to one session."""

    session: str
    """Id of the session."""
    made: datetime
    """When it was booked."""
    bills: tuple[Bill, ...]
    """One bill for each club."""

    def counts(self) -> Counter[Key]:
        """Count its parts by sort and id."""
        return total(bill.counts() for bill in self.bills)


def total(many: Iterable[Counter[Key]]) -> Counter[Key]:
    """Add up counts of parts."""
    found: Counter[Key] = Counter()
    for one in many:
        found.update(one)
    return found


_MASS = quantity("g", "0.1 g", "30 g")
_BOOKING = (Field("session", label, required=True),)
_BILL = (Field("head", name), Field("shaft", name), Field("grip", name))


def read_bookings(folder: Path) -> tuple[Booking, ...]:
    """Read a shop's bookings, none when there is no file yet.

    Raises FileProblem or ShelfFaults when the file is damaged; it is then left as it is, and nothing is
    booked over it.
    """
    file = folder / BOOKINGS_FILE
    if not file.exists():
        return ()
    sheet = Sheet(file)
    sheet.only(sheet.data, (), "", ("schema", "booking"))
    found = [_booking(sheet, path, row) for path, row in sheet.tables("booking", MOST_PARTS)]
    if faults := sheet.faults():
        raise ShelfFaults(faults)
    return tuple(one for one in found if one is not None)


def _booking(sheet: Sheet, path: KeyPath, row: Mapping[str, Any]) -> Booking | None:
    """Read one booking; None when it is at fault, which the sheet then holds."""
    owner = nth("booking", path)
    sheet.only(row, path, owner, ("session", "made", "bill"))
    values = sheet.values(row, path, owner, _BOOKING)
    made, bills = row.get("made"), row.get("bill", [])
    if not isinstance(made, datetime):
        sheet.wrong((*path, "made"), owner, f"made: a date with its time is wanted, not {shown(made)}")
    if not isinstance(bills, list) or not all(isinstance(bill, dict) for bill in bills):
        sheet.wrong((*path, "bill"), owner, "bill: tables under [[booking.bill]] are wanted")
        return None
    read = [_bill(sheet, (*path, "bill", place), owner, bill) for place, bill in enumerate(bills)]
    if values is None or not isinstance(made, datetime) or None in read:
        return None
    return Booking(values["session"], made, tuple(bill for bill in read if bill is not None))


def _bill(sheet: Sheet, path: KeyPath, owner: str, row: Mapping[str, Any]) -> Bill | None:
    """Read the bill of one club; None when it is at fault."""
    sheet.only(row, path, owner, ("head", "shaft", "grip", "pieces"))
    values = sheet.values(row, path, owner, _BILL)
    pieces = row.get("pieces", {})
    if not isinstance(pieces, dict):
        sheet.wrong((*path, "pieces"), owner, "pieces: a table of mass and number is wanted")
        return None
    counts: dict[float, int] = {}
    for mass, number in pieces.items():
        try:
            counts[_mass(mass)] = count(number)
        except Wrong as wrong:
            sheet.wrong((*path, "pieces", mass), owner, f"pieces: {wrong}")
            return None
    return None if values is None else Bill(**values, pieces=counts)


def _mass(text: str) -> float:
    """Read the mass that names a piece (kg)."""
    found = _MASS(text)
    assert isinstance(found, float)
    return found


def bookings_text(bookings: Sequence[Booking]) -> str:
    """Write bookings as TOML, oldest first."""
    rows = [
        {"session": one.session, "made": one.made, "bill": [_bill_row(bill) for bill in one.bills]}
        for one in bookings
    ]
    return "# Kept by turfpair; what is promised to sessions.\n" + tomli_w.dumps(
        {"schema": 1, "booking": rows}
    )


def _bill_row(bill: Bill) -> dict[str, Any]:
    """Give a bill as TOML holds it: what is None is left out."""
    parts = {"head": bill.head, "shaft": bill.shaft, "grip": bill.grip}
    row: dict[str, Any] = {sort: part for sort, part in parts.items() if part is not None}
    row["pieces"] = {piece_id(mass): number for mass, number in bill.pieces.items() if number}
    return row
