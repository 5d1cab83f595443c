"""Sentences of the trainer's screens, and the few shapes that all of their pictures share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Role, Row, cells, clipped, padded, row, wrapped
from interview.wording.words import words

if TYPE_CHECKING:
    from collections.abc import Iterable

_TITLE_SHARE = 3
"""A title takes at most one in so many cells of a row."""


def said(key: str, **values: object) -> str:
    """Return a sentence of the trainer's screens, with its names filled in."""
    return words().say(f"trainer_screen.{key}", "trainer", **values)


def cases_words(count: int) -> str:
    """Return how many cases there are, in words."""
    return said("names.one_case") if count == 1 else said("names.some_cases", count=count)


def headed(text: str, rows: Picture, width: int) -> Picture:
    """Return rows under a heading; nothing where there are none."""
    return (row(Ink(clipped(text, width), "head")), *rows) if rows else ()


def told(title: str, text: str, width: int, role: Role = "plain", *, title_width: int = 0) -> Picture:
    """Return a titled text: the title once, the text beside it in as many rows as it takes."""
    if not text:
        return ()
    room = title_width or cells(title) + 1
    if width - room < max(12, width // _TITLE_SHARE):
        return (row(Ink(clipped(title, width), "dim")), *wrapped(text, width, role))
    first, *more = wrapped(text, width - room, role) or (Row(),)
    lead = Ink(padded(title, room), "dim")
    return (Row((lead, *first.inks)), *(row(" " * room, *one.inks) for one in more))


def blocks(parts: Iterable[Picture]) -> Picture:
    """Return pictures one under the other with an empty row between them."""
    rows: list[Row] = []
    for part in parts:
        if part and rows:
            rows.append(Row())
        rows += part
    return tuple(rows)
