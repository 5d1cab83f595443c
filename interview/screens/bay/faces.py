"""What each pane of the bay shows, as painters: from frozen views to rows for the width there is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Row, between, row, wrapped
from interview.views.pictures.parts import parts_rows
from interview.views.pictures.standing import standing_line, standing_rows
from interview.views.pictures.talk import ask_rows, said_rows
from interview.views.pictures.topics import topic_strip

if TYPE_CHECKING:
    from interview.screens.kit.pane import Painter
    from interview.views.bay import PartsView, StandingView, TalkView
    from interview.views.pictures import Glyphs, Role


def masthead(talk: TalkView, name: str, kept: str) -> Painter:
    """Return the painter of the top: whose fitting it is, how far it is, and the map of topics."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        count = f"{talk.answered} said {glyphs.dot} {talk.open} open {glyphs.dot} {kept} "
        top = between((Ink(" Turfpair bay  ", "head"), Ink(name, "strong")), (Ink(count, "dim"),), width)
        return (top, *topic_strip(talk, width, glyphs))

    return paint


def said(talk: TalkView) -> Painter:
    """Return the painter of what was said."""
    return lambda width, glyphs: said_rows(talk, width, glyphs)


def ask(talk: TalkView) -> Painter:
    """Return the painter of the question that is up."""
    return lambda width, glyphs: ask_rows(talk, width, glyphs)


def standing(view: StandingView) -> Painter:
    """Return the painter of the candidates."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        top = between((Ink("STANDING", "head"),), (Ink(standing_line(view, glyphs), "dim"),), width)
        return (top, *standing_rows(view, width, glyphs))

    return paint


def parts(view: PartsView, column: int | None) -> Painter:
    """Return the painter of the decisions."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        return (row(Ink("DECISIONS", "head")), *parts_rows(view, width, glyphs, column))

    return paint


def sentence(text: str, role: Role = "plain") -> Painter:
    """Return the painter of one sentence."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        return wrapped(text, width, role) if text else (Row(),)

    return paint
