"""One answer changed: what moves, what stays, and the flip that a trainee looks for himself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Role, Row, cells, clipped, padded, row, wrapped
from interview.views.trainer.said import blocks, headed, said

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs


@dataclass(frozen=True, slots=True)
class Shift:
    """Something that is otherwise, before and after, in words."""

    title: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class ChangeView:
    """What one changed answer moves."""

    question: str
    """Title of the question; empty before anything is changed."""
    was: str = ""
    now: str = ""
    pair: Shift | None = None
    """The pair before and after; the same where it stays."""
    decisions: tuple[Shift, ...] = ()
    """Parts of the clubs that are decided otherwise."""
    facts: tuple[Shift, ...] = ()
    """Facts that follow and are otherwise."""
    points: tuple[Shift, ...] = ()
    """What the pairs picked in either score in both."""
    gained: tuple[str, ...] = ()
    """Cautions and advice that come up."""
    lost: tuple[str, ...] = ()
    """Those that go."""
    working: bool = False
    """Whether it is still being worked out."""
    trouble: str = ""
    """Why the answer cannot be taken; empty where it can."""

    @property
    def flipped(self) -> bool:
        """Return whether the pair is another."""
        return self.pair is not None and self.pair.before != self.pair.after


def change_rows(view: ChangeView, width: int, glyphs: Glyphs) -> Picture:
    """Return what moves: the pair first, then points, parts and facts."""
    if view.trouble:
        return wrapped(view.trouble, width, "alert")
    if not view.question:
        return wrapped(said("change.choose"), width, "dim")
    top = _shift(Shift(view.question, view.was, view.now), width, glyphs, "strong")
    if view.working or view.pair is None:
        return (*top, *wrapped(said("change.working"), width, "dim"))
    verdict = said("change.flips" if view.flipped else "change.stays")
    pair = (
        *wrapped(verdict, width, "alert" if view.flipped else "for"),
        *(
            _shift(view.pair, width, glyphs, "pick")
            if view.flipped
            else wrapped(view.pair.after, width, "pick")
        ),
    )
    parts = [(*top, Row(), *pair)]
    for key, shifts in (("points", view.points), ("decisions", view.decisions), ("facts", view.facts)):
        body = tuple(one for shift in shifts for one in _shift(shift, width, glyphs, "plain"))
        parts.append(headed(said(f"change.{key}"), body, width))
    for key, texts in (("gained", view.gained), ("lost", view.lost)):
        body = tuple(one for text in texts for one in wrapped(text, width, indent="  "))
        parts.append(headed(said(f"change.{key}"), body, width))
    if not (view.decisions or view.facts or view.gained or view.lost or view.points):
        parts.append(wrapped(said("change.nothing"), width, "dim"))
    return blocks(parts)


def _shift(one: Shift, width: int, glyphs: Glyphs, role: Role) -> Picture:
    """Return one thing before and after: in one row where it fits, else one below the other."""
    text = f"{one.before} {glyphs.arrow} {one.after}"
    if cells(one.title) + 2 + cells(text) <= width:
        return (row(Ink(f"{one.title}  ", "dim"), Ink(text, role)),)
    room = max(1, width - 2)
    if cells(text) <= room:
        return (row(Ink(clipped(one.title, width), "dim")), row("  ", Ink(text, role)))
    return (
        row(Ink(clipped(one.title, width), "dim")),
        *(row("  ", *ink.inks) for ink in wrapped(one.before, room)),
        *(row(f"{glyphs.arrow} ", *ink.inks) for ink in wrapped(one.after, room, role)),
    )


@dataclass(frozen=True, slots=True)
class FlipView:
    """The hunt for a flip: which fact, what was guessed, and what was found."""

    fact: str
    """Title of the fact."""
    now: str
    """What it is, in words."""
    guesses: tuple[tuple[str, str, bool], ...] = ()
    """Each guess, what it gave, and whether the pair flipped."""
    told: tuple[str, ...] = ()
    """What the tool tells, once it is asked or the hunt is over; empty before."""
    marks: int | None = None
    """Hundredths; None while the hunt is on."""


def flip_rows(view: FlipView, width: int, glyphs: Glyphs) -> Picture:
    """Return the hunt: the question, the guesses so far, and in the end what is true."""
    ask = wrapped(said("flip.ask", fact=view.fact, now=view.now), width, "strong")
    guesses = tuple(_guess(one, width, glyphs) for one in view.guesses)
    parts = [ask, headed(said("flip.guesses"), guesses, width)]
    if view.marks is not None:
        parts.append(tuple(one for text in view.told for one in wrapped(text, width)))
        parts.append(wrapped(said("flip.marks", share=view.marks), width, "pick"))
    else:
        parts.append(wrapped(said("flip.how"), width, "dim"))
    return blocks(parts)


def _guess(one: tuple[str, str, bool], width: int, glyphs: Glyphs) -> Row:
    """Return one guess, and what it gave."""
    value, gave, flipped = one
    sign, role = (glyphs.yes, "for") if flipped else (glyphs.needless, "dim")
    room = min(18, max(4, width // 3))
    rest = max(1, width - 2 - room - 1)
    return row(
        Ink(f"{sign} ", role),  # type: ignore[arg-type]
        Ink(padded(value, room), "strong"),
        " ",
        Ink(clipped(gave, rest), "plain"),
    )
