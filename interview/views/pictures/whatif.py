"""What if as rows: what is so now on the left, what would be so on the right, a sign where they differ."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Row, clipped, padded, row, wrapped

if TYPE_CHECKING:
    from interview.views.bay.whatif import Beside, WhatIfView
    from interview.views.pictures.glyphs import Glyphs

_TITLE = 9
"""Cells of a line's title."""


def whatif_rows(view: WhatIfView, width: int, glyphs: Glyphs) -> Picture:
    """Return both fittings side by side in `width` cells; of a club the lines that differ come first."""
    rows = [*_heads(width), *(_line(one, width, glyphs) for one in view.pair)]
    for role, lines in view.clubs:
        rows += [Row(), row(Ink(clipped(f"{role.upper()} CLUB", width), "head"))]
        rows += [_line(one, width, glyphs) for one in sorted(lines, key=lambda line: not line.moved)]
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


def _line(one: Beside, width: int, glyphs: Glyphs) -> Row:
    """Return one line of both sides."""
    room = _room(width)
    sign = glyphs.arrow if one.moved else " "
    return row(
        Ink(padded(one.title, _TITLE), "dim"),
        Ink(padded(one.now, room), "plain" if one.moved else "dim"),
        Ink(f" {sign} ", "pick"),
        Ink(clipped(one.then, room), "strong" if one.moved else "dim"),
    )
