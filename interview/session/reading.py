"""A session file, read strictly: each fault with its file, line, column, key and what is wanted."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any

from interview.session.changes import cleaned
from interview.session.faults import BadId, Fault, SessionFaults, ValueFault, with_remedy
from interview.session.identity import checked_id
from interview.session.record import SCHEMA, SECTIONS, SYSTEMS, VOICES, Session
from interview.session.recorded import read_record, record_faults, unknown_keys
from interview.text import LONGEST_NOTE, note_text, one_line
from rules.facts.reading import SubjectProblem, read_subject
from rules.facts.subject import Subject

if TYPE_CHECKING:
    from rules.engine.document import Document
    from rules.engine.language import Fact

    Facts = Mapping[str, Fact]
    At = tuple[str | int, ...]

_TOP = ("schema", "id", "voice", "units", "created", "note", "record", *SECTIONS)
_LARGEST = 10**12
"""Whole numbers beyond this are no answer to anything, and too large for a machine number."""


MOST_FAULTS = 200
"""Faults after which no more are looked for: nobody mends more at a time, and some files have no end."""


def load(file: Path, facts: Facts) -> Session:
    """Read a session file. Raises FileProblem (no such file, not TOML, ...) or SessionFaults, bounded."""
    from rules.engine.document import FileProblem, read_toml

    try:
        document = read_toml(file)
    except FileProblem as problem:
        raise with_remedy(problem) from None
    faults = list(islice(_faults(document.data, facts), MOST_FAULTS))
    if faults:
        placed = [_placed(document, fault) for fault in faults]
        # One value may be refused by two readers: what was found first says it best.
        first = {(fault.line, fault.column): fault for fault in reversed(placed)}
        raise SessionFaults(file, list(first.values()))
    return _built(document.data, facts)


@contextmanager
def overrides_of(file: Path) -> Iterator[None]:
    """Say where in a session's file an override stands that no road can read: SessionFaults."""
    from rules.engine.document import read_toml
    from rules.overrides import OverrideProblem

    try:
        yield
    except OverrideProblem as problem:
        fault = ValueFault(("overrides", problem.decision), str(problem))
        raise SessionFaults(file, [_placed(read_toml(file), fault)]) from None


def session_of(data: Mapping[str, Any], facts: Facts) -> Session:
    """Read a session's plain data; ValueFault or SubjectProblem with the path of the first fault."""
    for fault in _faults(data, facts):
        raise fault
    return _built(data, facts)


def _built(data: Mapping[str, Any], facts: Facts) -> Session:
    """Build the session of plain data in which no fault was found."""
    written = {section: cleaned(data[section]) for section in SECTIONS if section in data}
    return Session(
        id=data["id"],
        voice=data.get("voice", "fitter"),
        units=data.get("units", "imperial"),
        created=_aware(data.get("created")),
        note=note_text(data.get("note", "")),
        record=read_record(data.get("record", {})),
        written=written,
        subject=read_subject(facts, written),
    )


def _placed(document: Document, fault: ValueFault | SubjectProblem) -> Fault:
    """Add line and column to a fault: of the key where the key itself is the fault, else of the value."""
    line, column = document.position(fault.path, key=str(fault).startswith(f"'{fault.path[-1]}' is not"))
    return Fault(line, column, dotted(fault.path), str(fault))


def dotted(path: At) -> str:
    """Write a path as a person would: `shots[2].club`, entries counted from 1."""
    text = ""
    for part in path:
        text += f"[{part + 1}]" if isinstance(part, int) else f".{one_line(part, 60)}"
    return text.removeprefix(".")


def _faults(data: Mapping[str, Any], facts: Facts) -> Iterator[ValueFault | SubjectProblem]:
    """Find every fault; a file of another schema has one fault only, since its keys mean other things."""
    schema = data.get("schema")
    if type(schema) is not int or schema != SCHEMA:
        yield ValueFault(("schema",), _schema_message(schema))
        return
    yield from unknown_keys(data, _TOP, ())
    yield from _too_large(data, ())
    for key, check in _HEAD.items():
        if key in data or key == "id":
            yield from _checked(check, (key,), data.get(key))
    yield from record_faults(data.get("record", {}), facts)
    yield from _part_faults({s: cleaned(data[s]) for s in SECTIONS if s in data}, facts)


def _schema_message(schema: object) -> str:
    if isinstance(schema, int) and schema > SCHEMA:
        return (
            f"this session has schema {str(schema)[:9]}, written by a newer Turfpair; this one reads "
            f"schema {SCHEMA}, so bring it up to date and open the session again"
        )
    return f"a session begins with 'schema = {SCHEMA}'"


def _too_large(value: Any, at: At) -> Iterator[ValueFault]:
    """Find whole numbers that no machine number holds, however deep they are."""
    if isinstance(value, int) and abs(value) > _LARGEST:
        yield ValueFault(at, "this number is far too large to be an answer")
    elif isinstance(value, Mapping):
        for key, part in value.items():
            yield from _too_large(part, (*at, key))
    elif isinstance(value, list):
        for index, part in enumerate(value):
            yield from _too_large(part, (*at, index))


def _checked(check: Callable[[Any], str | None], at: At, value: Any) -> Iterator[ValueFault]:
    message = check(value)
    if message is not None:
        yield ValueFault(at, message)


def _id_message(value: Any) -> str | None:
    if not isinstance(value, str):
        return 'an id is wanted, such as id = "plain-lowercase-id"'
    try:
        checked_id(value)
    except BadId as problem:
        return str(problem)
    return None


def _one_of(words: tuple[str, ...]) -> Callable[[Any], str | None]:
    """Return a check for one of several words."""

    def check(value: Any) -> str | None:
        if isinstance(value, str) and value in words:
            return None
        return f"one of {', '.join(words)} is wanted, not '{one_line(str(value), 40)}'"

    return check


def _note_message(value: Any) -> str | None:
    if isinstance(value, str) and len(value) <= LONGEST_NOTE:
        return None
    return f"a note is a text of at most {LONGEST_NOTE} characters"


def _created_message(value: Any) -> str | None:
    return None if isinstance(value, datetime) else "a date and time is wanted, such as 2026-05-04T09:30:00Z"


_HEAD: Mapping[str, Callable[[Any], str | None]] = {
    "id": _id_message,
    "voice": _one_of(VOICES),
    "units": _one_of(SYSTEMS),
    "created": _created_message,
    "note": _note_message,
}


def _part_faults(written: Mapping[str, Any], facts: Facts) -> Iterator[SubjectProblem]:
    """Find what is wrong with the parts that the road reads; each answer is read alone."""
    try:
        read_subject(facts, written)
    except SubjectProblem as problem:
        found = [*islice(_each_fault(written, facts), MOST_FAULTS)]
        yield from found or [problem]


def _each_fault(written: Mapping[str, Any], facts: Facts) -> Iterator[SubjectProblem]:
    """Read each answer, reading and override alone, and the clubs with their shots together."""
    clubs = ("owned", "trial_clubs", "shots")
    pieces: list[Mapping[str, Any]] = [{key: written[key] for key in clubs if key in written}]
    for section in ("answers", "readings", "overrides"):
        table = written.get(section, {})
        split = isinstance(table, Mapping)
        pieces += [{section: {key: row}} for key, row in table.items()] if split else [{section: table}]
    for piece in pieces:
        try:
            read_subject(facts, piece)
        except SubjectProblem as problem:
            yield problem


def _aware(moment: datetime | None) -> datetime | None:
    """Read a time without a zone as universal time, so that sessions sort."""
    return moment.replace(tzinfo=UTC) if moment is not None and moment.tzinfo is None else moment


def subject_of(session: Session, facts: Facts) -> Subject:
    """Read a session's parts again against another rule base's facts; for replay."""
    return read_subject(facts, session.written)
