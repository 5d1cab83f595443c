"""The decisions so far as a table: one row a decision, one column a club."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest
from typing import TYPE_CHECKING

from interview.broken import broken_at_commas
from interview.views.pictures.ink import Ink, Picture, Role, Row, clipped, padded, row

if TYPE_CHECKING:
    from interview.views.bay.parts import PartsView, PartView
    from interview.views.pictures.glyphs import Glyphs

_TITLE = 9
"""Cells of a row's title."""


def parts_rows(view: PartsView, width: int, glyphs: Glyphs, column: int | None = None) -> Picture:
    """Return both clubs, decision by decision; `column` marks the club that choosing a row is about."""
    if not view.rows:
        return (row(Ink(clipped("Nothing is decided: no pair is possible.", width), "dim")),)
    room = max(1, (width - _TITLE - 2) // 2)
    rows = [
        row(
            Ink(padded("", _TITLE)),
            *(
                Ink(padded(_headed(name, column == at, glyphs), room) + " ", "pick")
                for at, name in enumerate(view.names)
            ),
        )
    ]
    for one in view.rows:
        target = (one.shorter if column == 1 else one.longer).id
        rows.append(
            row(
                Ink(padded(one.title, _TITLE), "dim"),
                *_part(one.longer, room, glyphs, column == 0),
                " ",
                *_part(one.shorter, room, glyphs, column == 1),
                target=target,
            )
        )
    rows += [line for one in view.figures for line in _figures(one.title, (one.longer, one.shorter), room)]
    return tuple(rows)


def _headed(name: str, chosen: bool, glyphs: Glyphs) -> str:
    """Return a club's name, with a sign where it is the one that is looked at."""
    return f"{glyphs.cursor}{name}" if chosen else name


def _part(one: PartView, room: int, glyphs: Glyphs, chosen: bool) -> tuple[Ink, ...]:
    """Return one decision: by hand, still moving or settled is told by its first sign."""
    sign = glyphs.pen if one.by_hand else " " if one.settled else glyphs.open
    role: Role = "alert" if one.stale else "strong" if chosen or one.by_hand else "plain"
    return (Ink(f"{sign} ", "dim"), Ink(padded(one.text, max(1, room - 2)), role))


def _figures(title: str, texts: tuple[str, str], room: int) -> Iterator[Row]:
    """Yield one figure of both clubs, on as many rows as it takes to say it whole."""
    each = max(1, room - 2)
    for pair in zip_longest(*(broken_at_commas(text, each) for text in texts), fillvalue=""):
        yield row(Ink(padded(title, _TITLE), "dim"), *(Ink(f"  {padded(text, each)} ") for text in pair))
        title = ""
