"""A trial as plain text in three voices."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.outcome_text.page import Page
from interview.views.trial.beliefs import beliefs
from interview.views.trial.clubs import clubs
from interview.views.trial.compared import compared
from interview.views.trial.pick import picked
from interview.views.trial.said import Told
from rules.evidence.intervals import LEVEL

if TYPE_CHECKING:
    from interview.session import Voice
    from rules.evidence.table import ShotTable
    from rules.evidence.trial import Trial
    from rules.units import System

WIDTH = 80
"""Columns that a page takes unless told otherwise."""
_SHOWN = 12
"""Rows left out that are named; the rest are counted."""


@dataclass(frozen=True, slots=True)
class Import:
    """What came of a file of shots."""

    file: str
    table: ShotTable
    added: int
    """Balls that were taken in; 0 where all of them were there already."""


def trial_text(
    trial: Trial,
    voice: Voice = "fitter",
    units: System = "imperial",
    taken: Import | None = None,
    width: int = WIDTH,
) -> str:
    """Return a trial as plain text: no colour, no markup, no line beyond `width` columns."""
    told = Told.on(Page(width), voice, units)
    for notice in trial.change.after.notices:
        if notice.topic == "body" and notice.kind == "caution":
            told.page.say(notice.text(units))
    if taken is not None:
        _taken(taken, told)
    if not trial.clubs:
        told.page.say(told.phrase("nothing"))
        return told.page.text
    told.page.heading(told.phrase("heading"))
    told.page.say(told.phrase("all_count", level=told.share(LEVEL)))
    clubs(trial, told)
    compared(trial, told)
    beliefs(trial, told)
    picked(trial.change, told)
    _mind(trial, told)
    return told.page.text


def _taken(taken: Import, told: Told) -> None:
    """Say what came of the file: balls taken in, rows left out by their line, columns not used."""
    table = taken.table
    balls = len(table.rows)
    few, many = ("added_one", "added") if taken.added else ("already_one", "already")
    key = "added_none" if not balls else few if balls == 1 else many
    told.page.say(told.phrase(key, count=balls, file=taken.file))
    for row in table.rejected[:_SHOWN]:
        told.page.point(told.phrase("left_out", line=row.line, why=row.sentence))
    if len(table.rejected) > _SHOWN:
        told.page.point(_lines([row.line for row in table.rejected[_SHOWN:]]))
    if table.unused and not told.customer:
        told.page.point(told.phrase("unused", columns=", ".join(table.unused)))
    if table.units_taken and not told.customer:
        columns, units = ", ".join(table.units_taken), ", ".join(table.units_taken.values())
        told.page.point(told.phrase("taken", columns=columns, units=units))


def _lines(lines: Sequence[int]) -> str:
    return f"and {len(lines)} more, from line {lines[0]} on"


def _mind(trial: Trial, told: Told) -> None:
    """Say what a reader must know, and what to look at."""
    told.page.heading(told.phrase("mind.heading"))
    told.page.point(told.phrase("mind.misses"))
    grounds = [one for club in trial.clubs for one in club.conditions]
    for surface in ("mat", "tee"):
        if any(one.surface == surface for one in grounds):
            told.page.point(told.phrase(f"mind.{surface}"))
    if any(one.indoors for one in grounds):
        told.page.point(told.phrase("mind.indoors"))
    together: dict[str, list[str]] = {}
    for remark, names in trial.remarks:
        together.setdefault(remark, []).append(names)
    for said, clubs_of in together.items():
        told.page.point(told.phrase(f"mind.{said}", clubs=", ".join(clubs_of)))
