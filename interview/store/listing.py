"""What a list of sessions shows of each, read quickly and without judging its answers."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

from interview.session.record import SCHEMA
from interview.text import one_line
from rules.paths import read_bounded

_DAYS = (
    datetime.min.replace(tzinfo=UTC) + timedelta(days=2),
    datetime.max.replace(tzinfo=UTC) - timedelta(days=2),
)
"""The first and the last moment that every zone can tell the time of."""
_LARGEST = 2_000_000
"""Bytes beyond which a file is not a session."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One session of the store, as far as a list needs it."""

    id: str
    file: Path
    changed: datetime
    voice: str = ""
    note: str = ""
    answers: int = 0
    """How many questions are answered or closed."""
    expires: date | None = None
    """The day after which it is forgotten, where the golfer was promised one."""
    words: str = ""
    """Everything written in it, in small letters, to search in."""
    problem: str | None = None
    """Why it cannot be read, in one sentence; None when it can."""
    damaged: bool = False
    """Whether it is no session at all; one of a newer Turfpair is not damaged."""

    def lapsed(self, today: date) -> bool:
        """Return whether the golfer was promised that it is forgotten by now."""
        return self.expires is not None and self.expires < today


def local_day(moment: datetime | None = None) -> date:
    """Return the day of a moment, or today, where this machine stands: a promise is kept by its calendar."""
    first, last = _DAYS
    return min(max(datetime.now(UTC) if moment is None else moment, first), last).astimezone().date()


def moment_of(seconds: float) -> datetime:
    """Return the moment of a file's time stamp in universal time; one that no calendar reaches is its end."""
    first, last = _DAYS
    try:
        return min(max(datetime.fromtimestamp(seconds, UTC), first), last)
    except (OverflowError, OSError, ValueError):
        return last if seconds > 0 else first


def read_entry(file: Path) -> Entry | None:
    """Return what a list shows of a file, damaged or not; None when there is no such file."""
    try:
        state = file.stat()
    except OSError:
        return None
    changed = moment_of(state.st_mtime)
    try:
        data = tomllib.loads(read_bounded(file, _LARGEST).decode("utf-8-sig"))
        return _entry(file, changed, data) if data else _damaged(file, changed)
    except (OSError, ValueError, RecursionError):  # the second also for numbers too long to be written
        return _damaged(file, changed)


def _damaged(file: Path, changed: datetime) -> Entry:
    problem = "damaged: it cannot be read"
    return Entry(file.stem, file, changed, words=file.stem, problem=problem, damaged=True)


def _entry(file: Path, changed: datetime, data: Mapping[str, Any]) -> Entry:
    answers, record = data.get("answers"), data.get("record")
    expires = record.get("expires") if isinstance(record, dict) else None
    return Entry(
        id=file.stem,
        file=file,
        changed=changed,
        voice=one_line(str(data.get("voice", "fitter")), 12),
        note=one_line(str(data.get("note", ""))),
        answers=len(answers) if isinstance(answers, dict) else 0,
        expires=expires if isinstance(expires, date) and not isinstance(expires, datetime) else None,
        problem=_unread(data.get("schema")),
        words=" ".join((file.stem, *_texts(data))).casefold(),
    )


def _unread(schema: object) -> str | None:
    """Return why a file of another schema cannot be read; None for one of this."""
    if type(schema) is int and schema > SCHEMA:
        return "written by a newer Turfpair"
    return None if type(schema) is int and schema == SCHEMA else "it says no schema that is known"


def _texts(value: Any) -> Iterator[str]:
    """Yield every text in a value, however deep."""
    if isinstance(value, str):
        yield one_line(value, 4000)
    elif isinstance(value, dict):
        for part in value.values():
            yield from _texts(part)
    elif isinstance(value, list):
        for part in value:
            yield from _texts(part)
