"""The trace one rule at a time: what it read, what it did to whom, why, its source, and both schools."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from interview.views.outcome_text.quantities import opened
from interview.views.pictures.bars import bar
from interview.views.pictures.ink import (
    Ink,
    Picture,
    Role,
    Row,
    beside,
    between,
    cells,
    clipped,
    padded,
    row,
    wrapped,
)
from interview.views.trainer.said import blocks, headed, said, told

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs

Truth = Literal["holds", "fails", "absent", "undetermined", "read"]
"""How a comparison came out; `read` for a fact that is no comparison, such as that of a ramp."""
_TWO_COLUMNS = 56
"""Cells from which both schools stand side by side."""


@dataclass(frozen=True, slots=True)
class ReadFact:
    """One fact that a rule read."""

    text: str
    """What was wanted of it and what it was, in words."""
    truth: Truth = "read"


@dataclass(frozen=True, slots=True)
class RunningBar:
    """One candidate's ledger as far as it has run. Amounts are thousandths."""

    name: str
    after: int
    """What stands after this step, as the bar shows it."""
    said: str
    """The same in words."""
    by: int = 0
    """What this step did to it."""
    moved: str = ""
    """The same in words; empty where it did nothing."""
    leads: bool = False
    """Whether it leads after this step."""
    out: bool = False
    """Whether it is ruled out by now."""


@dataclass(frozen=True, slots=True)
class StepView:
    """One step of the walk through a decision."""

    at: int
    """Its place, from one."""
    count: int
    decision: str
    """Title of the decision."""
    rule: str
    """Id of the rule; empty for a start, a limit or the rounding."""
    text: str
    """Why, in a sentence with the values filled in."""
    read: tuple[ReadFact, ...]
    bars: tuple[RunningBar, ...]
    teaches: str = ""
    source: str = ""
    other: str = ""
    """The other school's sentence; empty where nobody disagrees."""
    leans: str = ""
    """Why this rule base leans as it does."""
    scale: int = 1
    """The amount that fills a side of a bar, the same for every step of a walk."""


def step_heading(view: StepView, width: int, glyphs: Glyphs) -> Picture:
    """Return the top of a step: the decision, and how far the walk has got."""
    filled = round(16 * view.at / max(1, view.count))
    track = glyphs.band * filled + glyphs.needless * (16 - filled)
    place = said("steps.place", at=view.at, count=view.count)
    end = (Ink(f" {track} " if width >= 60 else " ", "rule"), Ink(f"{place} ", "dim"))
    return (between((Ink(f" {opened(view.decision)}", "head"),), end, width),)


def bars_rows(view: StepView, width: int, glyphs: Glyphs) -> Picture:
    """Return the running ledgers: each candidate with the sum so far, as a bar about a line."""
    number = max((cells(one.said) for one in view.bars), default=0)
    moved = max((cells(one.moved) for one in view.bars), default=0)
    name = min(max((cells(one.name) for one in view.bars), default=0), max(6, width * 2 // 5))
    room = width - 2 - name - 1 - number - 1 - (moved + 1 if moved else 0)
    return tuple(_bar_row(one, view.scale, (name, number, moved, max(0, room)), glyphs) for one in view.bars)


def _bar_row(one: RunningBar, scale: int, cut: tuple[int, int, int, int], glyphs: Glyphs) -> Row:
    """Return one running ledger."""
    name, number, moved, room = cut
    sign = glyphs.out if one.out else glyphs.leads if one.leads else " "
    role: Role = "dim" if one.out else "pick" if one.leads else "plain"
    inks = [Ink(f"{sign} ", role), Ink(padded(one.name, name), role), Ink(" ")]
    if room >= 9:
        inks += bar(max(0, -one.after), max(0, one.after), scale, room, glyphs)
    inks.append(Ink(f" {padded(one.said, number, right=True)}", role))
    if moved:
        way: Role = "for" if one.by > 0 else "against"
        inks.append(Ink(f" {padded(one.moved, moved, right=True)}", way))
    return row(*inks)


_TRUTHS: dict[Truth, tuple[str, Role]] = {
    "holds": ("yes", "for"), "fails": ("out", "against"), "absent": ("closed", "dim"),
    "undetermined": ("open", "mark"), "read": ("dot", "dim"),
}  # fmt: skip


def read_rows(view: StepView, width: int, glyphs: Glyphs) -> Picture:
    """Return what the rule read: each fact, what was wanted of it, and what it was."""
    rows: list[Row] = []
    for one in view.read:
        sign, role = _TRUTHS[one.truth]
        first, *more = wrapped(one.text, max(1, width - 2)) or (Row(),)
        rows += [
            row(Ink(f"{getattr(glyphs, sign)} ", role), *first.inks),
            *(row("  ", *r.inks) for r in more),
        ]
    return tuple(rows)


def step_rows(view: StepView, width: int, glyphs: Glyphs) -> Picture:
    """Return one step in full, below its running ledgers."""
    last = (
        *wrapped(view.teaches, width, "ghost"),
        *told(said("steps.source"), view.source, width, "dim"),
        *told(said("steps.rule"), view.rule, width, "dim"),
    )
    return blocks(
        (
            wrapped(view.text, width, "strong"),
            headed(said("steps.read"), read_rows(view, width, glyphs), width),
            school_rows(view, width) if view.other else (),
            last,
        )
    )


def school_rows(view: StepView, width: int) -> Picture:
    """Return both schools of a contested rule with equal care: side by side where there is room."""
    room = (width - 3) // 2 if width >= _TWO_COLUMNS else width
    schools = [
        (row(Ink(clipped(said(f"steps.{name}"), room), "mark")), *wrapped(text, max(1, room)))
        for name, text in (("this_school", view.leans), ("other_school", view.other))
    ]
    if width < _TWO_COLUMNS:
        return (*schools[0], *schools[1])
    return beside([(one, room) for one in schools], "   ")
