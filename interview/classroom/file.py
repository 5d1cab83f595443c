"""A class as the text of its file, and back. Reading is strict: damage is found and never written over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import tomli_w

from interview.classroom.faults import Unreadable
from interview.classroom.roll import LONGEST_ITEM, LONGEST_NAME, Attempt, Roll, Trainee
from interview.text import one_line

SCHEMA = 1
"""The version of the class file that this program reads and writes."""
HEADING = (
    "# A class of Turfpair's trainer: names as they were typed, and what was tried. Yours to keep or delete."
)
_TRAINEE = {"id": str, "name": str}
_ATTEMPT = {"trainee": str, "at": datetime, "item": str, "kind": str, "score": float, "verdict": str}


def roll_text(roll: Roll) -> str:
    """Return the text of a class; reading it gives an equal class."""
    trainees = [{"id": one.id, "name": one.name} for one in roll.trainees]
    attempts = [
        {
            "trainee": one.trainee, "at": one.at, "item": one.item, "kind": one.kind, "score": one.score,
            "verdict": one.verdict,
        }
        for one in roll.attempts
    ]  # fmt: skip
    data = {"schema": SCHEMA, "trainee": trainees, "attempt": attempts}
    return f"{HEADING}\n\n{tomli_w.dumps({key: value for key, value in data.items() if value})}"


def read_roll(file: Path, data: Mapping[str, Any]) -> Roll:
    """Return a class from plain data; raises Unreadable for whatever this program did not write."""
    if data.get("schema") != SCHEMA:
        raise Unreadable(file, "", f"schema = {SCHEMA} is wanted; it may come from a newer Turfpair")
    strange = sorted(set(data) - {"schema", "trainee", "attempt"})
    if strange:
        raise Unreadable(file, "", f"'{strange[0]}' is not known here")
    roll = Roll(tuple(_trainees(file, data.get("trainee", []))))
    ids = {one.id for one in roll.trainees}
    attempts = []
    for where, row in _rows(file, "attempt", data.get("attempt", []), _ATTEMPT):
        if row["trainee"] not in ids:
            raise Unreadable(file, where, f"'{row['trainee']}' is nobody of the class")
        attempts.append(_attempt(file, where, row))
    return Roll(roll.trainees, tuple(attempts))


def _trainees(file: Path, rows: Any) -> Iterator[Trainee]:
    """Yield the people of a class."""
    seen: set[str] = set()
    for where, row in _rows(file, "trainee", rows, _TRAINEE):
        id, name = row["id"], one_line(row["name"], LONGEST_NAME)
        if not (id[:1] == "t" and id[1:].isdecimal() and len(id) < 10) or id in seen or not name:
            raise Unreadable(file, where, "an id such as t1, each once, and a name are wanted")
        seen.add(id)
        yield Trainee(id, name)


def _attempt(file: Path, where: str, row: Mapping[str, Any]) -> Attempt:
    """Return one attempt."""
    if not 0 <= row["score"] <= 1:
        raise Unreadable(file, where, "a score is from 0 to 1")
    try:
        at = row["at"] if row["at"].tzinfo else row["at"].replace(tzinfo=UTC)
        at = at.astimezone(UTC)
    except (OverflowError, ValueError):
        raise Unreadable(file, where, "this moment is no moment that a clock shows") from None
    item, kind, verdict = (one_line(row[key], LONGEST_ITEM) for key in ("item", "kind", "verdict"))
    return Attempt(row["trainee"], at, item, kind, float(row["score"]), verdict)


def _rows(
    file: Path, kind: str, rows: Any, wanted: Mapping[str, type]
) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Yield tables that hold just what is wanted, each with where it stands."""
    if not isinstance(rows, list):
        raise Unreadable(file, kind, "a list of tables is wanted")
    for number, row in enumerate(rows, 1):
        where = f"{kind} {number}"
        if not isinstance(row, dict) or set(row) != set(wanted):
            raise Unreadable(file, where, f"a table with {', '.join(wanted)} is wanted")
        for key, type_ in wanted.items():
            types = (int, float) if type_ is float else (type_,)
            if isinstance(row[key], bool) or not isinstance(row[key], types):
                raise Unreadable(file, where, f"'{key}' is not what it should be")
        yield where, row
