"""What each pane of the bay shows, as painters: from frozen views to rows for the width there is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from interview.screens.kit.faces import capital, order_list
from interview.views.bay.drawn import PICTURES
from interview.views.pictures.bars import points_text
from interview.views.pictures.beam import BeamView, beam_rows
from interview.views.pictures.distances import LadderView, ladder_rows
from interview.views.pictures.face import FaceView, face_rows
from interview.views.pictures.flights import FlightsView, flights_rows
from interview.views.pictures.ink import Ink, Picture, Row, between, fitted, row, wrapped
from interview.views.pictures.ledger import contrast_rows, ledger_rows, near_rows, reason_rows
from interview.views.pictures.parts import parts_rows
from interview.views.pictures.standing import firm_line, standing_key, standing_line, standing_rows
from interview.views.pictures.talk import ask_rows, said_rows
from interview.views.pictures.topics import topic_key, topic_list, topic_strip

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.screens.kit.orders import Order
    from interview.screens.kit.pane import Painter
    from interview.store import Entry
    from interview.views.bay.drawn import Drawn
    from interview.views.bay.parts import PartsView
    from interview.views.bay.reasons import ContrastView, ReasonsView
    from interview.views.bay.standing import StandingView
    from interview.views.bay.talk import TalkView
    from interview.views.pictures import Glyphs


def masthead(talk: TalkView, name: str, kept: str) -> Painter:
    """Return the painter of the top: whose fitting it is, how far it is, and the map of topics."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        count = f"  {talk.answered} said {glyphs.dot} {talk.open} open {glyphs.dot} {kept} "
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
        return (top, row(Ink(firm_line(view, glyphs), "dim")), *standing_rows(view, width, glyphs))

    return paint


def parts(view: PartsView, column: int | None) -> Painter:
    """Return the painter of the decisions."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        return (row(Ink("DECISIONS", "head")), *parts_rows(view, width, glyphs, column))

    return paint


def picture(name: str, view: Drawn, rows: int) -> Painter:
    """Return the painter of one picture with its heading, in so many rows where it can be stretched."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        high = max(6, rows - 1)
        place = f"{PICTURES.index(name) + 1} of {len(PICTURES)}"
        top = between((Ink(name.upper(), "head"),), (Ink(place, "dim"),), width)
        return (top, *_drawn(view, width, glyphs, high))

    return paint


def _drawn(view: Drawn, width: int, glyphs: Glyphs, high: int) -> Picture:
    """Return a picture in the rows there are."""
    if isinstance(view, LadderView):
        return ladder_rows(view, width, glyphs)
    if isinstance(view, FlightsView):
        return flights_rows(view, width, glyphs, high)
    if isinstance(view, FaceView):
        return face_rows(view, width, glyphs, high)
    if isinstance(view, BeamView):
        return beam_rows(view, width, glyphs)
    return wrapped("There is nothing to draw: no pair is possible.", width, "dim")


def why_heading(view: ReasonsView, views: tuple[str, ...], at: int, rival: int) -> Painter:
    """Return the painter of the top of the reasons: what is decided, and what can be looked at."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        firm = "settled" if view.settled else "may still move"
        title = Ink(f" {capital(view.title)}: ", "head")
        top = between((title, Ink(view.picked, "pick")), (Ink(f"  {firm} ", "dim"),), width)
        pieces = []
        for number, name in enumerate(views):
            here = number == at
            mark = glyphs.cursor if here else " "
            pieces += [Ink(f"{mark}{number + 1} ", "key"), Ink(f"{name}   ", "strong" if here else "dim")]
        if at == 1 and view.rivals:
            place = f"{rival % len(view.rivals) + 1} of {len(view.rivals)}"
            pieces += [Ink("left, right ", "key"), Ink(f"rival {place}", "dim")]
        return (top, row(*pieces))

    return paint


def ledger(view: ReasonsView) -> Painter:
    """Return the painter of a ledger."""
    return lambda width, glyphs: ledger_rows(view, width, glyphs)


def near(view: ReasonsView) -> Painter:
    """Return the painter of the rules that kept silent."""
    return lambda width, glyphs: near_rows(view.near, width, glyphs)


def contrast(view: ContrastView | None) -> Painter:
    """Return the painter of two ledgers beside each other."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        if view is None:
            return wrapped("There is no rival: this is an amount, or the only one there is.", width, "dim")
        return contrast_rows(view, width, glyphs)

    return paint


def detail(view: ReasonsView, rule: str) -> Painter:
    """Return the painter of everything there is to say of one line."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        line = next((one for one in view.lines if one.rule == rule), None)
        if line is not None:
            return reason_rows(line, width)
        silent = next((one for one in view.near if one.rule == rule), None)
        return wrapped(f"{silent.teaches} ({silent.rule})", width, "ghost") if silent else ()

    return paint


def options(view: ReasonsView) -> Painter:
    """Return the painter of what a decision could be instead."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        rows = []
        for one in view.rivals:
            number = "ruled out" if one.out else points_text(one.points, glyphs)
            name = (Ink(one.name, "dim" if one.out else "plain"),)
            rows.append(between(name, (Ink(f" {number}", "dim"),), width, target=one.id))
        return tuple(rows)

    return paint


_WIDE = 60
"""Cells from which on a session's year and its answers stand before its name."""


def entries(found: Sequence[Entry], here: str) -> Painter:
    """Return the painter of a list of sessions; the one that is open is marked."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        if not found:
            return wrapped("No session is found.", width, "dim")
        return tuple(_entry(one, one.id == here, width, glyphs) for one in found)

    return paint


def _entry(one: Entry, open_here: bool, width: int, glyphs: Glyphs) -> Row:
    """Return one session: when it was changed, how much was said, and what it is called."""
    mark = glyphs.leads if open_here else " "
    when, name = one.changed.astimezone(), one.note.split("\n")[0] or one.id
    told = f"{when:%Y-%m-%d %H:%M}  {one.answers:>2} said  " if width >= _WIDE else f"{when:%m-%d %H:%M}  "
    lead = (Ink(f"{mark} ", "pick"), Ink(told, "dim"))
    if one.problem is not None:
        return fitted(row(*lead, Ink(f"{one.id}: {one.problem}", "alert"), target=one.id), width)
    tail = f"  {one.id}" if one.note else ""
    return fitted(row(*lead, Ink(name, "strong"), Ink(tail, "dim"), target=one.id), width)


def question_map(talk: TalkView) -> Painter:
    """Return the painter of the whole map of questions."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        return (*topic_key(width, glyphs), *topic_list(talk, width, glyphs))

    return paint


_TYPING = (
    "What you can type, at any moment:",
    "85 mph    42 1/4 in    5'11\"    180    about 85    85 mph measured: a quantity; a bare number takes "
    "the unit that is asked for",
    "2    thin, low    slice: a choice by its number or by its word, several where several are asked",
    "tight 50 rough 30 tee 20    30 50 20: shares, by name or in the order of the choices",
    "slice    thin heel    windy: words that only one question takes need no name, whichever is up",
    "tempo smooth    18 handicap: any other question, by part of its name; its name alone goes to it",
    "name Ruth    my 3-wood 15 deg 43 in hates it: whose fitting this is; a club that is owned",
    "that is all: whatever is still open is not known",
    "what if tempo smooth: tries it on a copy, side by side.    sheets: shows and writes both sheets",
    "dk or F2: not known.    - or F3: pass it over.    ?: why is this asked?    back: the one before",
    "Up goes back up the talk; enter there takes an answer up again, delete takes it back.",
)

_FIRM = (
    "settled: proved, no open answer can change the pair.",
    "steady: tried, every plausible way of answering what is open gives this pair.",
    "sure: how often this pair wins when every answer is drawn anew within what is known of it; settled and "
    "steady say nothing of how good the answers are, this does.",
    "w a wood, h a hybrid, * an owned club as it is, / one shortened: 4w 17 is a 4-wood of 17 degrees.",
)


def help_page(orders: Sequence[Order]) -> Painter:
    """Return the painter of the help: every key, what can be typed, and what the signs mean."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        keys = tuple(Row(one.inks) for one in order_list(orders)(width, glyphs))
        typing = tuple(one for text in _TYPING for one in wrapped(text, width, indent="    "))
        firm = tuple(one for text in _FIRM for one in wrapped(text, width, indent="    "))
        signs = (*topic_key(width, glyphs), *standing_key(width, glyphs))
        return (*keys, Row(), *typing, Row(), *signs, Row(), *firm)

    return paint


def urgent(state: State) -> list[str]:
    """Return what must be seen at once: cautions of the body, and claims that cannot be."""
    units = state.session.units
    notices = state.outcome.notices
    found = [one.text(units) for one in notices if one.kind == "caution" and one.topic in ("body", "claim")]
    stale = [one.decision for one in state.outcome.overridden if one.stale and one.followed]
    followed = {one.decision for one in state.outcome.overridden if one.followed}
    lost = set(state.session.subject.overrides) - followed
    found += [f"The rules now decide {one} as you did" for one in stale]
    found += [f"What you took for {one} cannot be followed any more" for one in sorted(lost)]
    return found


def at_stake(talk: TalkView) -> str:
    """Return in a few words what hangs on the question that is up."""
    if talk.ask is None or talk.ask.said:
        return ""
    if not talk.ask.stake:
        return "Nothing hangs on this one any more."
    return f"Up to {talk.ask.stake:.1f} points hang on this one."
