"""A prediction marked: what was predicted beside what came, how near it was, and whether the reasons held."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from interview.views.pictures.ink import (
    Ink,
    Picture,
    Role,
    Row,
    between,
    cells,
    padded,
    row,
    wrapped,
)
from interview.views.trainer.said import blocks, headed, said, told

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs

Judged = Literal["sound", "luck", "judgement", "near_guess", "misjudged", "astray", "blank"]
"""Right and for reasons that drove it; right for others; near with reasons; near without; far off with good
reasons; neither; nothing was predicted."""
_BAR = 8
"""Cells of the bar of a mark."""
_TITLE = 8
"""Cells of a decision's title."""


@dataclass(frozen=True, slots=True)
class FactMark:
    """One fact that was named, or that should have been."""

    title: str
    share: int
    """How much of the decision it carried, in hundredths."""
    named: bool


@dataclass(frozen=True, slots=True)
class MarkLine:
    """One decision marked; shares and marks are whole hundredths."""

    id: str
    title: str
    role: str
    """longer or shorter; empty for the pair."""
    predicted: str
    """In words; empty where nothing was predicted."""
    came: str
    """What the rules decided, in words."""
    judged: Judged
    marks: int
    near: int = 0
    """How near the prediction came to what was decided."""
    reasons: int = 0
    """How much of the decision the facts named carried."""
    facts: tuple[FactMark, ...] = ()
    """Facts named, and the heaviest of those that were not."""
    why: tuple[str, ...] = ()
    """Why so many marks, a sentence each."""


@dataclass(frozen=True, slots=True)
class RevealView:
    """A whole prediction marked."""

    title: str
    lines: tuple[MarkLine, ...]
    overall: int
    """Marks of all that was predicted, hundredths."""
    note: str = ""
    """The teaching note of the case, now that it gives nothing away."""

    def line(self, id: str) -> MarkLine | None:
        """Return the line of a decision; None where there is none."""
        return next((one for one in self.lines if one.id == id), None)


def reveal_heading(view: RevealView, width: int) -> Picture:
    """Return the top of a marked prediction: the case, and the marks of all that was predicted."""
    end = (Ink(f"{said('reveal.overall', share=view.overall)} ", "pick"),)
    return (between((Ink(f" {said('reveal.heading')}: ", "head"), Ink(view.title, "strong")), end, width),)


def reveal_rows(view: RevealView, width: int, glyphs: Glyphs) -> Picture:
    """Return every decision with its marks, by club."""
    rows: list[Row] = []
    for role in dict.fromkeys(line.role for line in view.lines):
        body = tuple(_line(line, width, glyphs) for line in view.lines if line.role == role)
        rows += headed(said(f"predict.{role or 'pair'}"), body, width)
    return tuple(rows)


_SIGNS: dict[Judged, tuple[str, Role]] = {
    "sound": ("yes", "for"), "luck": ("could_win", "mark"), "judgement": ("half_tone", "for"),
    "near_guess": ("needless", "mark"), "misjudged": ("half_against", "against"),
    "astray": ("out", "against"), "blank": ("open", "dim"),
}  # fmt: skip


def _line(one: MarkLine, width: int, glyphs: Glyphs) -> Row:
    """Return one decision: its sign, what came, the verdict in a word, and its marks as bar and number."""
    name, role = _SIGNS[one.judged]
    number = padded("" if one.judged == "blank" else f"{one.marks} %", 5, right=True)
    verdict = padded(said(f"reveal.short_{one.judged}"), 9)
    tail = f"{verdict} {_bar(one.marks, glyphs)} {number}" if width >= 66 else f"{verdict} {number}"
    tail = tail if width >= 44 else number
    title = min(_TITLE, max(4, width // 3))
    room = max(1, width - 2 - title - 1 - cells(tail) - 1)
    return row(
        Ink(f"{getattr(glyphs, name)} ", role), Ink(padded(one.title, title), "plain"), " ",
        Ink(padded(one.came, room), "strong"), " ", Ink(tail, role), target=one.id,
    )  # fmt: skip


def _bar(marks: int, glyphs: Glyphs) -> str:
    """Return marks as a bar of half cells."""
    halves = round(2 * _BAR * marks / 100)
    filled = glyphs.bar_for * (halves // 2) + glyphs.half_for * (halves % 2)
    return padded(filled + glyphs.needless * (_BAR - cells(filled)), _BAR)


def mark_rows(one: MarkLine, width: int, glyphs: Glyphs) -> Picture:
    """Return all there is to say of one mark: prediction and outcome, why so many marks, and the facts."""
    name, role = _SIGNS[one.judged]
    judged = wrapped(f"{getattr(glyphs, name)} {said(f'reveal.{one.judged}')}", width, role)
    lead = 11
    beside = (
        *told(said("reveal.predicted"), one.predicted or said("reveal.nothing"), width, title_width=lead),
        *told(said("reveal.came"), one.came, width, "strong", title_width=lead),
    )
    why = tuple(line for text in one.why for line in wrapped(text, width))
    named, missed = (
        tuple(_fact(fact, width, glyphs) for fact in one.facts if fact.named == named)
        for named in (True, False)
    )
    parts = (headed(said("reveal.named"), named, width), headed(said("reveal.missed"), missed, width))
    return blocks(((*judged, *beside), why, *parts))


def _fact(one: FactMark, width: int, glyphs: Glyphs) -> Row:
    """Return one fact: named and drove, named in vain, or drove and was not named."""
    role: Role = "dim" if not one.named else "for" if one.share else "against"
    sign = glyphs.open if not one.named else glyphs.yes if one.share else glyphs.out
    tail = f" {one.share:>3} %"
    return row(Ink(padded(f"{sign} {one.title}", max(1, width - cells(tail))), role), Ink(tail, "strong"))
