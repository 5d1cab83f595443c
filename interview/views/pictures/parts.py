"""The decisions so far as a table: one row a decision, one column a club."""

from __future__ import annotations

from typing import TYPE_CHECKING

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
    rows += [_figures(one.title, (one.longer, one.shorter), room) for one in view.figures]
    return tuple(rows)


def _headed(name: str, chosen: bool, glyphs: Glyphs) -> str:
    """Return a club's name, with a sign where it is the one that is looked at."""
    return f"{glyphs.cursor}{name}" if chosen else name


def _part(one: PartView, room: int, glyphs: Glyphs, chosen: bool) -> tuple[Ink, ...]:
    """Return one decision: by hand, still moving or settled is told by its first sign."""
    sign = glyphs.pen if one.by_hand else " " if one.settled else glyphs.open
    role: Role = "alert" if one.stale else "strong" if chosen or one.by_hand else "plain"
    return (Ink(f"{sign} ", "dim"), Ink(padded(one.text, max(1, room - 2)), role))


def _figures(title: str, texts: tuple[str, str], room: int) -> Row:
    """Return one figure of both clubs."""
    return row(
        Ink(padded(title, _TITLE), "dim"), *(Ink(f"  {padded(text, max(1, room - 2))} ") for text in texts)
    )
