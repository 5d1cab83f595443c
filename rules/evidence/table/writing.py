"""Trial shots written as a table that reads back the same and in which no cell is a formula."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from rules.evidence.table.columns import ACTS, COLUMNS, Column
from rules.facts.answers import Answer
from rules.units import unit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rules.facts.subject import OwnedClub, Shot, Subject, TrialClub

_FIELDS = {"toe_mm": "toe", "high_mm": "high", "side_yd": "side"}


def shots_table(subject: Subject) -> str:
    """Return the shots of a session as comma-separated values (RFC 4180), one unit a column.

    Names that a spreadsheet would take for a formula begin with a quote; `read_shots` takes it off again.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([_title(column) for column in COLUMNS])
    clubs: Sequence[OwnedClub | TrialClub] = (*subject.owned, *subject.trial_clubs)
    kinds = {club.name: club for club in clubs}
    for shot in subject.shots:
        club = kinds[shot.club]
        loft = club.loft.value if isinstance(club.loft, Answer) else club.loft
        about = {"kind": club.kind, "loft": loft, "length": club.length}
        writer.writerow([_cell(column, about.get(column.key, _of(shot, column))) for column in COLUMNS])
    return out.getvalue()


def _title(column: Column) -> str:
    """Return a column's heading, with its unit."""
    name = column.names[0].replace(" ", "_")
    return name if column.symbol is None else f"{name}_{column.symbol}"


def _of(shot: Shot, column: Column) -> object:
    return getattr(shot, _FIELDS.get(column.key, column.key), None)


def _cell(column: Column, value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float | int) and column.symbol is not None:
        return f"{round(unit(column.symbol).from_si(value), 3):g}"
    text = str(value)
    return f"'{text}" if text.lstrip("'").startswith(ACTS) else text
