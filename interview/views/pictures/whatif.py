"""What if as rows: what is so now on the left, what would be so on the right, a sign where they differ."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest
from typing import TYPE_CHECKING

from interview.broken import broken_at_commas
from interview.views.pictures.ink import Ink, Picture, Row, clipped, padded, row, wrapped

if TYPE_CHECKING:
    from interview.views.bay.whatif import Beside, WhatIfView
    from interview.views.pictures.glyphs import Glyphs

_TITLE = 9
"""Cells of a line's title."""


def whatif_rows(view: WhatIfView, width: int, glyphs: Glyphs) -> Picture:
    """Return both fittings side by side in `width` cells; of a club the lines that differ come first."""
    rows = [*_heads(width), *(line for one in view.pair for line in _lines(one, width, glyphs))]
    for role, lines in view.clubs:
        rows += [Row(), row(Ink(clipped(f"{role.upper()} CLUB", width), "head"))]
        moved_first = sorted(lines, key=lambda line: not line.moved)
        rows += [line for one in moved_first for line in _lines(one, width, glyphs)]
    for heading, texts in (("THEN MIND AS WELL", view.gained), ("NO LONGER SAID", view.lost)):
        if texts:
            rows += [Row(), row(Ink(clipped(heading, width), "head"))]
            rows += [one for text in texts for one in wrapped(text, width, indent="  ")]
    return tuple(rows)


def changes_rows(view: WhatIfView | None, width: int, glyphs: Glyphs) -> Picture:
    """Return what is changed on the copy, a line an answer."""
    if view is None or not view.changed:
        text = "Nothing is changed on the copy yet. Type any answer with its question: 'tempo smooth'."
        return wrapped(text, width, "ghost")
    arrow = glyphs.arrow
    return tuple(
        row(Ink(clipped(f"{one.title}: {one.now} {arrow} {one.then}", width), "strong"))
        for one in view.changed
    )


def _room(width: int) -> int:
    """Return the cells of either side."""
    return max(1, (width - _TITLE - 3) // 2)


def _heads(width: int) -> Picture:
    room = _room(width)
    return (
        row(
            Ink(padded("", _TITLE)), Ink(padded("as it is", room), "head"), "   ", Ink("on the copy", "head")
        ),
    )


def _lines(one: Beside, width: int, glyphs: Glyphs) -> Iterator[Row]:
    """Yield one thing on both sides, on as many rows as it takes to say it whole."""
    room = _room(width)
    title, sign = one.title, glyphs.arrow if one.moved else " "
    for now, then in zip_longest(
        *(broken_at_commas(text, room) for text in (one.now, one.then)), fillvalue=""
    ):
        yield row(
            Ink(padded(title, _TITLE), "dim"),
            Ink(padded(now, room), "plain" if one.moved else "dim"),
            Ink(f" {sign} ", "pick"),
            Ink(then, "strong" if one.moved else "dim"),
        )
        title, sign = "", " "
