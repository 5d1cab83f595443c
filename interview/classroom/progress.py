"""How a trainee gets on, kind by kind, and the whole class summed up in files that the trainer owns."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import tomli_w

from interview.classroom.repeats import due, repeats
from interview.classroom.roll import Attempt, Roll
from rules.evidence.table.columns import ACTS

if TYPE_CHECKING:
    from interview.classroom.book import ClassBook

SUMMARY_TOML, SUMMARY_CSV = "summary.toml", "summary.csv"
"""Names of the two files of a summary."""
_LATEST = 5
"""Attempts that say how it goes of late."""
_ALL = "all"
_COLUMNS = (
    "name",
    "kind",
    "attempts",
    "average_percent",
    "best_percent",
    "latest_percent",
    "due",
    "coming_back",
)


@dataclass(frozen=True, slots=True)
class Progress:
    """Attempts of one kind, or of all, summed up. Scores are 0 to 1."""

    kind: str
    """`all` for everything together."""
    attempts: int
    average: float
    best: float
    latest: float
    """Average of the last five."""
    due: int
    """Items to be tried again by now."""
    coming_back: int
    """Items that come back sooner or later, those due included."""


def progress(attempts: Iterable[Attempt], now: datetime) -> tuple[Progress, ...]:
    """Return how one trainee gets on: together, then kind by kind; empty where nothing was tried."""
    made = tuple(attempts)
    kinds = dict.fromkeys(one.kind for one in made)
    parts = [(kind, tuple(one for one in made if one.kind == kind)) for kind in kinds]
    return tuple(_summed(kind, part, now) for kind, part in ((_ALL, made), *parts) if part)


def _summed(kind: str, made: tuple[Attempt, ...], now: datetime) -> Progress:
    """Sum up some attempts."""
    scores = [one.score for one in made]
    latest = scores[-_LATEST:]
    return Progress(
        kind=kind,
        attempts=len(made),
        average=sum(scores) / len(scores),
        best=max(scores),
        latest=sum(latest) / len(latest),
        due=len(due(made, now)),
        coming_back=len(repeats(made)),
    )


def summary_toml(roll: Roll, now: datetime) -> str:
    """Return the class summed up as TOML: a table a trainee, kind by kind, and what comes back when."""
    people = []
    for one in roll.trainees:
        made = roll.of(one.id)
        rows = [dict(zip(_COLUMNS[1:], _figures(part), strict=True)) for part in progress(made, now)]
        back = [{"item": each.item, "due": each.when, "got_right": each.step} for each in repeats(made)]
        people.append({"name": one.name, "progress": rows, "coming_back": back})
    return tomli_w.dumps({"schema": 1, "written": now, "trainee": people})


def summary_csv(roll: Roll, now: datetime) -> str:
    """Return the class summed up as comma-separated values (RFC 4180), a line a trainee and kind.

    A name that a spreadsheet would take for a formula begins with a quote (OWASP, CSV Injection).
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(_COLUMNS)
    for one in roll.trainees:
        for part in progress(roll.of(one.id), now) or (Progress(_ALL, 0, 0.0, 0.0, 0.0, 0, 0),):
            writer.writerow([harmless(one.name), *map(harmless, map(str, _figures(part)))])
    return out.getvalue()


def _figures(part: Progress) -> Iterator[str | int]:
    """Yield what stands in the columns after the name."""
    yield part.kind
    yield part.attempts
    yield from (round(100 * share) for share in (part.average, part.best, part.latest))
    yield from (part.due, part.coming_back)


def harmless(text: str) -> str:
    """Return a cell that no spreadsheet acts on."""
    return f"'{text}" if text.lstrip("' ").startswith(ACTS) else text


def write_summary(book: ClassBook, now: datetime) -> tuple[Path, Path]:
    """Write both summaries beside the class and return their files; raises what keeping raises."""
    moment = now.replace(microsecond=0)
    return (
        book.write(SUMMARY_TOML, summary_toml(book.roll, moment)),
        book.write(SUMMARY_CSV, summary_csv(book.roll, moment)),
    )
