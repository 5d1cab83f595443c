"""Painters that every screen uses."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Role, Row, cells, clipped, padded, row, wrapped

if TYPE_CHECKING:
    from interview.screens.kit.orders import Order
    from interview.screens.kit.pane import Painter
    from interview.views.pictures import Glyphs


def heading(text: str) -> Painter:
    """Return the painter of a heading."""
    return lambda width, glyphs: (row(Ink(clipped(f" {text}", width), "head")),)


def sentence(text: str, role: Role = "plain") -> Painter:
    """Return the painter of one sentence; an empty row where there is none."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        return wrapped(text, width, role) if text else (Row(),)

    return paint


def page_of(text: str) -> Painter:
    """Return the painter of text with lines of its own; one too long goes on below, as far in as it began."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        rows: list[Row] = []
        for line in text.split("\n"):
            inner = line[: len(line) - len(line.lstrip())]
            if cells(line) <= width or width < 2 * len(inner) + 8:
                rows.append(row(clipped(line, width)) if line else Row())
            else:
                rows += wrapped(line, width, indent=f"{inner}  ")
        return tuple(rows)

    return paint


def order_list(orders: Sequence[Order]) -> Painter:
    """Return the painter of a list of orders: key, name, and what each does."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        rows = []
        for one in orders:
            key = one.key_name if one.key else ""
            lead = (
                Ink(padded(key, 8), "key"),
                Ink(padded(one.label, min(22, max(4, width // 3))), "strong"),
                " ",
            )
            used = sum(len(piece if isinstance(piece, str) else piece.text) for piece in lead)
            rows.append(row(*lead, Ink(clipped(one.help, max(1, width - used)), "dim"), target=one.id))
        return tuple(rows)

    return paint


def capital(text: str) -> str:
    """Return a sentence with a capital letter first, as it stands after a stop."""
    return f"{text[:1].upper()}{text[1:]}"
