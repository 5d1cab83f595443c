"""The list of cases: past sessions to learn from, each with its teaching note and how far its pupil got."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from interview.views.pictures.ink import Ink, Picture, Role, Row, cells, clipped, padded, row, wrapped
from interview.views.trainer.said import cases_words, said

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs

Progress = Literal["new", "tried", "due", "unreadable"]
"""Never predicted; predicted; predicted, and due to be repeated; a file that cannot be read."""


@dataclass(frozen=True, slots=True)
class CaseLine:
    """One case of the list."""

    id: str
    title: str
    """Its name as words; what a person called it, so text."""
    note: str
    """What its session teaches; it often tells the answer."""
    progress: Progress = "new"
    marks: str = ""
    """The best marks so far, such as `71 %`; empty before the first attempt."""


@dataclass(frozen=True, slots=True)
class CasesView:
    """The cases, and who is at the keys."""

    cases: tuple[CaseLine, ...]
    trainee: str = ""
    """Whose attempts are marked; empty for nobody's."""
    open: bool = False
    """Whether a class is open."""
    notes: bool = False
    """Whether teaching notes are shown: they tell the answer, so they are covered at first."""

    def case(self, id: str) -> CaseLine | None:
        """Return one case; None where it is not there."""
        return next((one for one in self.cases if one.id == id), None)


def cases_heading(view: CasesView, width: int) -> Picture:
    """Return the top of the list: how many cases, and whose attempts count."""
    who = said("cases.nobody" if view.open else "cases.no_class")
    who = said("cases.trainee", name=view.trainee) if view.trainee else who
    count = cases_words(len(view.cases))
    left = (Ink(" Turfpair trainer  ", "head"), Ink(count, "strong"))
    room = width - sum(cells(one.text) for one in left) - 1
    name = clipped(who, max(0, room))
    return (row(*left, " " * max(1, room - cells(name)), Ink(name, "dim")),)


def cases_rows(view: CasesView, width: int, glyphs: Glyphs) -> Picture:
    """Return the list, one row a case."""
    if not view.cases:
        return wrapped(said("cases.none"), width, "dim")
    return tuple(_case(one, width, glyphs) for one in view.cases)


def _case(one: CaseLine, width: int, glyphs: Glyphs) -> Row:
    """Return one case: its sign, its name, and its marks."""
    signs: dict[Progress, tuple[str, Role]] = {
        "new": (glyphs.open, "dim"), "tried": (glyphs.known, "for"), "due": (glyphs.aim, "alert"),
        "unreadable": (glyphs.out, "alert"),
    }  # fmt: skip
    sign, role = signs[one.progress]
    tail = said(f"cases.{one.progress}", marks=one.marks)
    room = max(4, width - 3 - cells(tail))
    name: Role = "dim" if one.progress == "unreadable" else "strong"
    return row(Ink(f"{sign} ", role), Ink(padded(one.title, room), name), " ", Ink(tail, role), target=one.id)


def note_rows(view: CasesView, id: str, width: int) -> Picture:
    """Return the teaching note of a case, or that it is covered."""
    one = view.case(id)
    if one is None or not one.note:
        return ()
    if one.progress == "unreadable":
        return wrapped(one.note, width, "alert")
    if not view.notes:
        return wrapped(said("cases.covered"), width, "ghost")
    return wrapped(one.note, width)
