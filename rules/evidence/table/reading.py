"""A table of shots read: headings matched, bad rows named by their line and left out, nothing guessed."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from rules.evidence.table.columns import (
    ACTS,
    COLUMNS,
    NOTHING,
    Heading,
    heading,
    near_name,
    read_cell,
    unit_of,
)
from rules.facts.reading import SubjectProblem, read_subject
from rules.problems import Problem
from rules.units import UnitError

if TYPE_CHECKING:
    from rules.engine.language import Fact

_LARGEST = 2_000_000
"""Characters beyond which no trial's table is."""
_MOST_ROWS = 2000
_MOST_CELLS = 300
"""Cells of one row; no table of shots is so wide."""
_SEARCHED = 25
"""Lines in which the headings must stand; programs like to write a few lines before them."""
_CLUB_KEYS = ("kind", "loft", "length")
_DELIMITERS = (",", ";", "\t", "|")


class TableProblem(Problem):
    """A table of which nothing can be used, and why."""


@dataclass(frozen=True, slots=True)
class Rejected:
    """A row that was left out."""

    line: int
    """Of the file, counted from 1."""
    sentence: str
    """Why."""


@dataclass(frozen=True, slots=True)
class ShotTable:
    """What a table held."""

    rows: tuple[Mapping[str, Any], ...]
    """Shots as the session file holds them, in the table's order."""
    clubs: tuple[Mapping[str, Any], ...]
    """Clubs that the table describes and the session did not know, as [[trial_clubs]] holds them."""
    rejected: tuple[Rejected, ...]
    used: Mapping[str, str]
    """Headings that were used, each with the key it stands for."""
    unused: tuple[str, ...]
    """Headings that were not, as they are written."""
    units_taken: Mapping[str, str]
    """Headings that say no unit, with the unit that a bare number below them was given."""


def read_shots(
    text: str, facts: Mapping[str, Fact], written: Mapping[str, Any], club: str | None = None
) -> ShotTable:
    """Read a table of shots against a session's clubs (`written`: its parts as the file holds them).

    `club` is whose balls they are where the table does not say. A club that the session does not know is
    taken in where the table gives its kind. TableProblem where there is nothing to read at all.
    """
    if len(text) > _LARGEST:
        raise TableProblem("this table is far too large for a trial; save only the balls of this golfer")
    records, place, headings = _laid_out(text.lstrip("\ufeff"))
    place, headings = _units_row(records, place, headings)
    has = {one.column.key for one in headings if one.column is not None}
    if "club" not in has and club is None:
        raise TableProblem("no column says which club hit the ball; add a column 'club' or give --club")
    reader = _Rows(facts, written, headings, club)
    for line, cells in records[place:]:
        if any(cell.strip() for cell in cells):
            reader.take(line, cells)
    if not reader.rows and not reader.rejected:
        raise TableProblem("there are headings but no balls below them")
    return ShotTable(
        tuple(reader.rows),
        tuple(reader.clubs.values()),
        tuple(reader.rejected),
        {one.text: one.column.key for one in headings if one.column is not None},
        tuple(one.text for one in headings if one.column is None and one.text.strip()),
        {
            one.text: one.symbol
            for one in headings
            if one.symbol is not None and not one.told
        },
    )  # fmt: skip


Record = tuple[int, list[str]]
"""The line on which a record begins, and its cells."""


def _laid_out(text: str) -> tuple[list[Record], int, list[Heading]]:
    """Return the records of a table, where its balls begin, and its headings.

    Of the marks that may part cells the one counts under which most headings are understood.
    """
    tables = [list(_records(text, mark)) for mark in _DELIMITERS if mark in text] or [
        list(_records(text, ","))
    ]
    found = [(records, *_headings(records)) for records in tables]
    records, place, headings = max(found, key=lambda one: _understood(one[2]))
    if _understood(headings) < (1 if len(headings) <= 3 else 2):
        first = next((cell for _, cells in records for cell in cells if cell.strip()), "")
        near = near_name(first)
        hint = f"; did you mean '{near}'?" if near else ""
        names = ", ".join(column.names[0] for column in COLUMNS if column.key not in _CLUB_KEYS)
        raise TableProblem(f"no line of headings was found{hint}; known are {names}")
    return records, place, _without_doubles(headings)


def _records(text: str, delimiter: str) -> Iterator[Record]:
    """Yield every record; TableProblem for what is no such table, or far too long a one."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    begins = 1
    try:
        for number, cells in enumerate(reader):
            if number > _MOST_ROWS + _SEARCHED:
                raise TableProblem(f"more than {_MOST_ROWS} rows are no trial; save only this golfer's balls")
            if len(cells) > _MOST_CELLS:
                where, many = f"line {begins} has {len(cells)} cells", f"more than {_MOST_CELLS} are no trial"
                raise TableProblem(f"{where}, and {many}; save only the columns that tell of a ball")
            yield begins, [cell.replace("\0", "") for cell in cells]
            begins = reader.line_num + 1
    except csv.Error as error:
        raise TableProblem(f"line {reader.line_num}: this is no table that can be read: {error}") from None


def _headings(records: Sequence[Record]) -> tuple[int, list[Heading]]:
    """Return where the balls begin and the headings: the line among the first that is understood best."""
    lines = [[heading(cell) for cell in cells] for _, cells in records[:_SEARCHED]]
    best = max(range(len(lines)), key=lambda index: _understood(lines[index]), default=None)
    return (0, []) if best is None else (best + 1, lines[best])


def _understood(headings: Sequence[Heading]) -> int:
    """Return how many different columns a line of headings names."""
    return len({one.column.key for one in headings if one.column is not None})


def _without_doubles(found: Sequence[Heading]) -> list[Heading]:
    """Refuse two columns of one meaning: nobody could say which is right."""
    seen: dict[str, str] = {}
    for one in found:
        if one.column is None:
            continue
        if one.column.key in seen:
            first, second = seen[one.column.key][:40], one.text[:40]
            raise TableProblem(f"the columns '{first}' and '{second}' mean the same; leave one of them out")
        seen[one.column.key] = one.text
    return list(found)


def _units_row(records: Sequence[Record], place: int, found: list[Heading]) -> tuple[int, list[Heading]]:
    """Take a line below the headings that holds nothing but units for what it is."""
    if place >= len(records):
        return place, found
    cells = [cell.strip().strip("[]()").lower() for cell in records[place][1]]
    units = {i: cell for i, cell in enumerate(cells) if cell and i < len(found)}
    fits = {
        i: symbol
        for i, cell in units.items()
        if (column := found[i].column) is not None and (symbol := unit_of(cell, column)) is not None
    }
    strange = [i for i in units if i not in fits and found[i].column is not None]
    if not fits or strange:
        return place, found
    return place + 1, [
        Heading(one.text, one.column, fits[i], True) if i in fits else one for i, one in enumerate(found)
    ]


class _Rows:
    """The rows of a table as they are read, one after the other."""

    def __init__(
        self,
        facts: Mapping[str, Fact],
        written: Mapping[str, Any],
        headings: Sequence[Heading],
        club: str | None,
    ) -> None:
        self._facts, self._headings, self._club = facts, headings, club
        self._known = {key: list(written.get(key, [])) for key in ("owned", "trial_clubs")}
        self.rows: list[Mapping[str, Any]] = []
        self.clubs: dict[str, Mapping[str, Any]] = {}
        self.rejected: list[Rejected] = []

    def take(self, line: int, cells: Sequence[str]) -> None:
        """Read one row, or note why it is left out."""
        try:
            row = self._row(cells)
            about = {key: row.pop(key) for key in _CLUB_KEYS if key in row}
            self._take(row, about)
        except (UnitError, SubjectProblem, _LeftOutError) as problem:
            self.rejected.append(Rejected(line, str(problem)))

    def _row(self, cells: Sequence[str]) -> dict[str, Any]:
        if len(cells) > len(self._headings) and any(cell.strip() for cell in cells[len(self._headings) :]):
            raise _LeftOutError(f"it has {len(cells)} cells under {len(self._headings)} headings")
        row: dict[str, Any] = {}
        for one, cell in zip(self._headings, cells, strict=False):
            if one.column is None or not _holds(cell, one):
                continue
            try:
                row[one.column.key] = read_cell(_unquoted(cell), one)
            except UnitError as error:
                raise _LeftOutError(f"{one.column.names[0]}: {error}") from None
        return row

    def _take(self, row: dict[str, Any], about: Mapping[str, Any]) -> None:
        """Hold a row against the session, and take in its club where that is new and described."""
        name = row.get("club", self._club)
        if name is None:
            raise _LeftOutError("it does not say which club hit the ball")
        row["club"] = self._named(name)
        if not set(row) - {"club", "surface", "indoors"}:
            raise _LeftOutError("it says nothing of a ball")
        known, new = self._known, None
        names = {club["name"] for part in known.values() for club in part}
        if row["club"] not in names and "kind" in about:
            new = {"name": row["club"], **about}
            known = {**known, "trial_clubs": [*known["trial_clubs"], new]}
        try:
            read_subject(self._facts, {**known, "shots": [row]})
        except SubjectProblem as problem:
            if problem.path[:1] == ("shots",) and problem.path[-1] == "club":
                raise _LeftOutError(
                    f"{problem}; a column 'kind' (fairway or hybrid) would take it in"
                ) from None
            raise
        self._known = known
        if new is not None:
            self.clubs[new["name"]] = new
        self.rows.append(row)

    def _named(self, name: str) -> str:
        """Return a club's name as the session writes it, whatever the case of its letters."""
        names = [str(club["name"]) for part in self._known.values() for club in part]
        plain = " ".join(name.split())[:200]
        return next((one for one in names if one.lower() == plain.lower()), plain)


class _LeftOutError(Exception):
    """Why a row is left out."""


def _holds(cell: str, found: Heading) -> bool:
    """Say whether a cell holds anything; a club may be called whatever it likes."""
    plain = cell.strip().lower()
    return bool(plain) and (plain not in NOTHING or (found.column is not None and found.column.key == "club"))


def _unquoted(cell: str) -> str:
    """Take off the quote that keeps a spreadsheet from acting on a cell."""
    return cell[1:] if cell.startswith("'") and cell.lstrip("'").startswith(ACTS) else cell
