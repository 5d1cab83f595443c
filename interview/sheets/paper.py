"""What a sheet is made of before it is text or HTML: stamps, lines with boxes, blocks, and notes."""

from __future__ import annotations

from datetime import date
from typing import Literal, NamedTuple

from interview.session.identity import ticket_code
from interview.text import one_line

Box = Literal["", "read", "tick"]
"""Nothing to fill in; a blank for a reading; a small box to tick."""


class Stamp(NamedTuple):
    """Where a sheet comes from, so that it can be found and built again."""

    session: str
    ticket: str
    printed: str
    shop: str
    hand: str
    rules: str
    """Beginning of the digest of the rule base that decided."""


class Cell(NamedTuple):
    """One figure of one club."""

    text: str = ""
    box: Box = ""
    read: str = ""
    """The reading, where it was taken; printed in the box."""
    out: bool = False
    """Whether the reading is out of what is allowed."""


class Line(NamedTuple):
    """One line of the build: a label, and a cell for each club."""

    label: str
    cells: tuple[Cell, ...]


class Block(NamedTuple):
    """Lines that belong together."""

    title: str
    lines: tuple[Line, ...]


class Note(NamedTuple):
    """A heading with sentences or figures under it."""

    title: str
    items: tuple[str, ...]


NONE = Cell("–")
"""A cell of a club that has no such line."""


def stamp(session: str, shop: str, hand: str, rules: str, printed: date) -> Stamp:
    """Return a sheet's stamp; nothing in it tells who the golfer is."""
    return Stamp(
        session, ticket_code(session), printed.isoformat(), one_line(shop, 40), f"{hand}-handed", rules[:10]
    )
