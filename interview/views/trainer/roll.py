"""The class: who is in it, what each has tried and how well, and what is due to be repeated."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Row, between, cells, clipped, padded, row, wrapped
from interview.views.trainer.said import blocks, headed, said

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs

_BAR = 10
"""Cells of a bar of marks."""


@dataclass(frozen=True, slots=True)
class RollLine:
    """One trainee."""

    id: str
    name: str
    """As it was typed: text."""
    attempts: int
    mean: int | None
    """Hundredths; None before the first attempt."""
    due: int
    """Items due to be repeated."""
    here: bool = False
    """Whether he is at the keys."""


@dataclass(frozen=True, slots=True)
class KindLine:
    """How a trainee gets on with one kind of work. Shares are hundredths."""

    title: str
    attempts: int
    mean: int
    best: int
    latest: int
    """Mean of the latest few."""


@dataclass(frozen=True, slots=True)
class DueLine:
    """Something that comes back."""

    item: str
    title: str
    when: str
    """In words."""


@dataclass(frozen=True, slots=True)
class TraineeView:
    """One trainee in full."""

    name: str
    kinds: tuple[KindLine, ...]
    due: tuple[DueLine, ...] = ()
    """What is to be tried again now."""
    later: tuple[DueLine, ...] = ()
    """What comes back another day."""


@dataclass(frozen=True, slots=True)
class RollView:
    """The class at one moment."""

    lines: tuple[RollLine, ...]
    open: bool = True
    """Whether there is a class at all."""
    folder: str = ""
    """Where it is kept."""


def roll_heading(view: RollView, width: int) -> Picture:
    """Return the top: how many are in the class, and where it is kept."""
    left = (
        Ink(f" {said('roll.heading')}: ", "head"),
        Ink(said("roll.count", count=len(view.lines)), "strong"),
    )
    room = width - sum(cells(ink.text) for ink in left) - 2
    return (between(left, (Ink(f"{clipped(view.folder, max(0, room))} ", "dim"),), width),)


def roll_rows(view: RollView, width: int, glyphs: Glyphs) -> Picture:
    """Return the list of trainees: attempts, mean marks, and how much is due."""
    if not view.open:
        return wrapped(said("roll.closed"), width, "dim")
    if not view.lines:
        return wrapped(said("roll.empty"), width, "dim")
    return tuple(_line(one, width, glyphs) for one in view.lines)


def _line(one: RollLine, width: int, glyphs: Glyphs) -> Row:
    """Return one trainee."""
    sign = Ink(f"{glyphs.known if one.here else glyphs.open} ", "pick" if one.here else "dim")
    mean = "" if one.mean is None else f"{one.mean} %"
    tail = f" {said('roll.tried', count=one.attempts)}  {padded(mean, 5, right=True)}"
    due = f"  {said('roll.due', count=one.due)}" if one.due else ""
    tail = tail if width >= 34 else f" {mean}"
    end = (Ink(tail, "plain"), Ink(padded(due, 9) if width >= 34 else "", "alert"))
    return between((sign, Ink(one.name, "strong")), end, width, target=one.id)


def trainee_rows(view: TraineeView, width: int, glyphs: Glyphs) -> Picture:
    """Return one trainee in full: kind by kind, and what is due."""
    kinds = tuple(_kind(one, width, glyphs) for one in view.kinds)
    due, later = (tuple(_due(one, width, glyphs) for one in lines) for lines in (view.due, view.later))
    nothing = wrapped(said("roll.nothing_tried"), width, "dim") if not kinds else ()
    fresh = wrapped(said("roll.nothing_due"), width, "dim") if kinds and not due else ()
    name = (row(Ink(clipped(view.name, width), "head")),)
    due_now = headed(said("roll.due_heading"), due, width)
    return blocks(
        ((*name, *nothing, *kinds), due_now, fresh, headed(said("roll.later_heading"), later, width))
    )


def due_rows(lines: tuple[DueLine, ...], width: int, glyphs: Glyphs) -> Picture:
    """Return what is due, to choose from."""
    return tuple(Row(_due(one, width, glyphs).inks, one.item) for one in lines)


def _due(one: DueLine, width: int, glyphs: Glyphs) -> Row:
    """Return one thing that comes back."""
    return between((Ink(f"{glyphs.aim} ", "alert"), Ink(one.title)), (Ink(f" {one.when}", "dim"),), width)


def _kind(one: KindLine, width: int, glyphs: Glyphs) -> Row:
    """Return how a trainee gets on with one kind of work."""
    filled = padded(glyphs.bar_for * round(_BAR * one.mean / 100), _BAR)
    bar = f" {filled}" if width >= 44 else ""
    tail = said("roll.kind", count=one.attempts, mean=f"{one.mean:>3}", best=f"{one.best:>3}")
    tail = tail if width >= 62 else f"{one.mean:>3} %"
    return between((Ink(one.title),), (Ink(bar, "for"), Ink(f" {tail}", "dim")), width)
