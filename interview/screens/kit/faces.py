"""Painters that every screen uses."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Role, Row, cells, clipped, padded, row, wrapped

if TYPE_CHECKING:
    from interview.screens.kit.orders import Order
    from interview.screens.kit.pane import Painter
    from interview.views.pictures import Glyphs


_KEY, _LABEL = 8, 22
"""Cells of an order's key and of its name."""


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
    """Return the painter of a list of orders: key, name, and what each does, below where it is narrow."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        beside = width >= _KEY + 2 * _LABEL
        indent = _KEY + _LABEL + 1 if beside else _KEY
        rows: list[Row] = []
        for one in orders:
            label = padded(one.label, _LABEL + 1) if beside else clipped(one.label, max(1, width - _KEY))
            lead = (Ink(padded(one.key_name if one.key else "", _KEY), "key"), Ink(label, "strong"))
            helped = wrapped(one.help, max(1, width - indent), "dim")
            rows.append(row(*lead, *(helped[0].inks if beside else ()), target=one.id))
            rows += [row(" " * indent, *more.inks, target=one.id) for more in helped[1 if beside else 0 :]]
        return tuple(rows)

    return paint


def capital(text: str) -> str:
    """Return a sentence with a capital letter first, as it stands after a stop."""
    return f"{text[:1].upper()}{text[1:]}"
