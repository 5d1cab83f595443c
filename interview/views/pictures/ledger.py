"""Ledgers as bars to the left and to the right of a line, each with its sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.pictures.bars import bar, points_text
from interview.views.pictures.ink import Ink, Picture, Row, cells, clipped, padded, row, wrapped

if TYPE_CHECKING:
    from interview.views.bay.reasons import ContrastView, NearLine, ReasonLine, ReasonsView
    from interview.views.pictures.glyphs import Glyphs


def ledger_rows(view: ReasonsView, width: int, glyphs: Glyphs) -> Picture:
    """Return the ledger of a decision, as it adds up: bar, amount and sentence of each line."""
    scale = max((abs(one.amount) for one in view.lines), default=1) or 1
    number = min(max([cells(one.said) for one in view.lines] + [6]), 11)
    rows: list[Row] = []
    shown = [one for one in view.lines if one.amount or not view.total] or view.lines
    for one in shown:
        rows += _told(
            one.amount, _minus(one.said, glyphs), one.text, one.rule, (scale, number), width, glyphs
        )
    total = f"{view.picked}: {view.total}" if view.total else view.picked
    idle = len(view.lines) - len(shown)
    note = wrapped(f"Rules that spoke and weigh nothing just now: {idle}.", width, "dim") if idle else ()
    return (*rows, *note, row(Ink(clipped(f"= {total}", width), "pick")))


def _minus(text: str, glyphs: Glyphs) -> str:
    """Return a number with a minus that is seen."""
    return f"{glyphs.minus}{text[1:]}" if text.startswith("-") else text


def _told(
    amount: int, said: str, text: str, target: str, cut: tuple[int, int], width: int, glyphs: Glyphs
) -> Picture:
    """Return one line: its bar, its amount, and its sentence in as many rows as it takes."""
    scale, number = cut
    bar_width = 13 if width >= 60 else 7 if width >= 30 else 0
    lead = bar_width + number + 2
    if width - lead < 12:
        return (
            row(Ink(said, "strong"), target=target),
            *wrapped(text, width, "plain", target=target),
        )
    sentence = wrapped(text, width - lead)
    head = row(
        *bar(max(0, -amount), max(0, amount), scale, bar_width, glyphs),
        Ink(padded(said, number, right=True) + "  ", "strong"),
        *sentence[0].inks,
        target=target,
    )
    return (head, *(row(" " * lead, *more.inks, target=target) for more in sentence[1:]))


def reason_rows(one: ReasonLine, width: int) -> Picture:
    """Return everything there is to say of one line: facts, source, what it teaches, the other school."""
    rows: list[Row] = []
    if one.facts:
        rows += wrapped("Stands on: " + "; ".join(f"{title} {value}" for title, value in one.facts), width)
    rows += wrapped(f"Source: {one.source} ({one.rule})", width, "dim")
    if one.teaches:
        rows += wrapped(one.teaches, width, "ghost")
    if one.other_school:
        rows += wrapped(f"Others say: {one.other_school}", width, "mark")
        rows += wrapped(f"Why this leans here: {one.leans}", width, "dim")
    return tuple(rows)


def contrast_rows(view: ContrastView, width: int, glyphs: Glyphs) -> Picture:
    """Return two ledgers beside each other: bars to the left favour the rival, to the right the pick."""
    rows: list[Row] = [
        row(
            Ink(clipped(f"{glyphs.leads} {view.mine}  {points_text(view.my_points, glyphs)}", width), "pick")
        ),
        row(
            Ink(clipped(f"{glyphs.could_win} {view.theirs}  {points_text(view.their_points, glyphs)}", width))
        ),
    ]
    if view.out:
        rows += wrapped(f"Ruled out: {view.out}", width, "alert")
    sides = f"left of the line favours {glyphs.could_win}, right of it {glyphs.leads}"
    rows.append(row(Ink(clipped(sides, width), "dim")))
    scale = max((abs(one.mine - one.theirs) for one in view.lines), default=1) or 1
    for one in view.lines:
        apart = one.mine - one.theirs
        both = f"{points_text(one.mine, glyphs)} : {points_text(one.theirs, glyphs)}"
        rows += _told(apart, both, one.text, one.rule, (scale, 13), width, glyphs)
    text = f"{view.shared} more lines give both the same and cancel." if view.shared else ""
    rows += wrapped(text, width, "dim") if text else ()
    return tuple(rows)


def near_rows(lines: tuple[NearLine, ...], width: int, glyphs: Glyphs) -> Picture:
    """Return the rules that kept silent, each with what stands in its way."""
    if not lines:
        return wrapped("Every rule of this decision spoke.", width, "dim")
    scale = max(abs(one.amount) for one in lines) or 1
    rows: list[Row] = []
    for one in lines:
        text = "Needs " + "; and ".join(one.needs)
        rows += _told(one.amount, _minus(one.said, glyphs), text, one.rule, (scale, 9), width, glyphs)
    return tuple(rows)
