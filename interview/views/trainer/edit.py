"""A rule or a threshold changed on a copy: its fields, the loader's verdict, and what the change does."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Row, between, cells, clipped, padded, row, wrapped
from interview.views.trainer.chart import replay_rows
from interview.views.trainer.said import blocks, headed, said, told

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs

_ABOUT = 20
"""Cells of what a field is about, where there is room."""


@dataclass(frozen=True, slots=True)
class EntryLine:
    """One rule or assumption of the list."""

    id: str
    about: str
    """Of what it decides, or that it is a value."""
    text: str
    """Its sentence."""
    changed: bool = False


@dataclass(frozen=True, slots=True)
class FieldLine:
    """One field that can be changed."""

    path: str
    about: str
    """Such as `below`, or `gives there`."""
    text: str
    """As it is written."""
    fact: str = ""
    """Title of the fact that is compared, or along which it runs; empty where there is none."""
    changed: bool = False
    """Whether it differs from ours."""


@dataclass(frozen=True, slots=True)
class Effect:
    """What the changed rules do to one golfer or to all past cases."""

    done: int = 0
    of: int = 0
    """Cases; 0 where nothing is changed, so that nothing has to be replayed."""
    moved: tuple[tuple[str, str, str], ...] | None = None
    """Each case that comes out otherwise, with what it was and what it is; None while that is worked out."""


@dataclass(frozen=True, slots=True)
class EditView:
    """The copy of the rules as it stands, and one entry of it in hand."""

    entry: EntryLine | None = None
    fields: tuple[FieldLine, ...] = ()
    off: bool = False
    """Whether the entry is switched off."""
    source: str = ""
    teaches: str = ""
    problems: tuple[str, ...] = ()
    """What the loader says against it; empty where it can be loaded."""
    changes: int = 0
    """Entries changed or switched off altogether."""
    golfer: str = ""
    """Title of the case at hand."""
    here: tuple[tuple[str, str, str], ...] | None = None
    """What comes out otherwise for this golfer: title, before, after; None while nobody knows."""
    everywhere: Effect | None = None
    """The same for all past cases; None while nothing is changed."""


def entries_rows(entries: tuple[EntryLine, ...], width: int, glyphs: Glyphs) -> Picture:
    """Return the list of rules and values that can be changed."""
    if not entries:
        return wrapped(said("edit.nothing_found"), width, "dim")
    rows: list[Row] = []
    for one in entries:
        sign = Ink(f"{glyphs.pen if one.changed else ' '} ", "pick")
        tail = (Ink(f" {clipped(one.about, max(1, width // 3))}", "dim"),)
        rows.append(between((sign, Ink(one.id, "strong")), tail, width, target=one.id))
        rows += [row("    ", Ink(clipped(one.text, max(1, width - 4)), "dim"), target=one.id)]
    return tuple(rows)


def edit_heading(view: EditView, width: int) -> Picture:
    """Return the top: the entry in hand, and how many are changed on this copy."""
    name = view.entry.id if view.entry is not None else ""
    end = (Ink(f"{said('edit.changes', count=view.changes)} ", "dim"),)
    return (between((Ink(f" {said('edit.heading')}: ", "head"), Ink(name, "strong")), end, width),)


def fields_rows(view: EditView, width: int, glyphs: Glyphs) -> Picture:
    """Return the fields of the entry in hand, each with its text; chosen to be changed."""
    if view.entry is None:
        return wrapped(said("edit.choose"), width, "dim")
    rows: list[Row] = list(wrapped(view.entry.text, width, "strong"))
    if view.off:
        rows += wrapped(said("edit.off"), width, "alert")
    about = min(_ABOUT, max(4, width // 2))
    fact = ""
    for one in view.fields:
        if one.fact and one.fact != fact:
            rows.append(row(Ink(clipped(one.fact, width), "dim")))
        fact = one.fact
        sign = Ink(f"{glyphs.pen if one.changed else ' '} ", "pick")
        text = clipped(one.text, max(1, width - about - 3), glyphs.more)
        value = Ink(text, "pick" if one.changed else "strong")
        rows.append(row(sign, Ink(padded(one.about, about)), " ", value, target=one.path))
    return tuple(rows)


def verdict_rows(view: EditView, width: int, glyphs: Glyphs) -> Picture:
    """Return the live verdict of the loader in a sentence."""
    if view.problems:
        return tuple(one for text in view.problems for one in wrapped(f"{glyphs.out} {text}", width, "alert"))
    key = "edit.loads" if view.changes else "edit.untouched"
    return wrapped(f"{glyphs.yes if view.changes else glyphs.needless} {said(key)}", width, "for")


def effect_rows(view: EditView, width: int, glyphs: Glyphs) -> Picture:
    """Return what the change does: to the golfer at hand, then to all past cases."""
    parts: list[Picture] = []
    if view.here is not None and view.changes and not view.problems:
        parts.append(headed(said("edit.here", name=view.golfer), _here(view.here, width, glyphs), width))
    if view.everywhere is not None and view.everywhere.of and not view.problems:
        title = said("edit.everywhere")
        found = view.everywhere
        parts.append(replay_rows(title, found.moved, found.done, found.of, width, glyphs))
    about = (*wrapped(view.teaches, width, "ghost"), *told(said("steps.source"), view.source, width, "dim"))
    return blocks((*parts, about))


def _here(moved: tuple[tuple[str, str, str], ...], width: int, glyphs: Glyphs) -> Picture:
    """Return what comes out otherwise for this golfer."""
    if not moved:
        return wrapped(said("edit.here_nothing"), width, "for")
    rows: list[Row] = []
    for title, before, after in moved:
        text = f"{before} {glyphs.arrow} {after}"
        if cells(title) + 2 + cells(text) <= width:
            rows.append(row(Ink(f"{title}  ", "dim"), Ink(text, "pick")))
        else:
            rows += [row(Ink(clipped(title, width), "dim")), *told("", text, width, "pick", title_width=2)]
    return tuple(rows)
