"""What the program keeps with a session: read as strictly as the rest, and noted whenever a run is kept."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date, datetime
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from interview.session.faults import ValueFault
from interview.session.record import SECTIONS, Record, Session
from interview.text import one_line

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.fitting import Outcome

    Facts = Mapping[str, Fact]
    At = tuple[str | int, ...]

_KEYS = (
    "rules_digest", "catalogue_digest", "read", "decided", "because", "consent", "expires", "skipped",
)  # fmt: skip
_MOST = 64
"""Entries of a table that is kept, and rules of one decision, at most."""
_LONGEST = 120
"""Characters of an entry that is kept, at most."""
_LARGEST = 1e9
"""No rule gives as much as this; nor is what is not a number below it."""
_SHORT = 12
"""Characters kept of a section's digest: it only has to tell two versions of one session apart."""


def with_run(session: Session, ran: Session, outcome: Outcome) -> Session:
    """Note on a session what a run decided: the road of `ran`, the same session then or now.

    What was read is noted too, so that a later reader can tell whether it has changed since.
    """
    from rules.inquiry.audit import decided

    made = decided(outcome)
    record = replace(
        session.record,
        rules_digest=outcome.house.base.digest,
        catalogue_digest=outcome.house.shelf.digest,
        read=section_digests(ran),
        decided=made.picks,
        because=made.spoke,
    )
    return replace(session, record=record)


def section_digests(session: Session) -> dict[str, str]:
    """Return a digest of each section that the road reads, as it is written; empty sections have none."""
    return {
        name: hashlib.sha256(json.dumps(_plain(part), sort_keys=True).encode()).hexdigest()[:_SHORT]
        for name in SECTIONS
        if (part := session.written.get(name))
    }


def _plain(value: Any) -> Any:
    """Return a value as JSON holds it; a whole number is the same with a decimal point as without."""
    if isinstance(value, Mapping):
        return {key: _plain(part) for key, part in value.items()}
    if isinstance(value, list):
        return [_plain(part) for part in value]
    if isinstance(value, float) and value.is_integer():
        return int(value)
    return value if isinstance(value, str | int | float) else str(value)


def changed_sections(session: Session) -> tuple[str, ...]:
    """Return the sections that are no longer what the last run read, in the order of the file."""
    now, then = section_digests(session), session.record.read
    return tuple(name for name in SECTIONS if now.get(name) != then.get(name))


def read_record(table: Mapping[str, Any]) -> Record:
    """Read a record in which no fault was found."""
    return Record(
        rules_digest=one_line(table.get("rules_digest", "")),
        catalogue_digest=one_line(table.get("catalogue_digest", "")),
        read=_texts(table.get("read", {})),
        decided=_texts(table.get("decided", {})),
        because={
            one_line(decision): {one_line(rule): float(by) for rule, by in rules.items()}
            for decision, rules in table.get("because", {}).items()
        },
        consent=table.get("consent", False),
        expires=table.get("expires"),
        skipped=tuple(dict.fromkeys(table.get("skipped", []))),
    )


def _texts(table: Mapping[str, str]) -> dict[str, str]:
    return {one_line(key): one_line(text) for key, text in table.items()}


def record_faults(record: Any, facts: Facts) -> Iterator[ValueFault]:
    """Find what is wrong with what the program keeps."""
    if not isinstance(record, Mapping):
        yield ValueFault(("record",), "the record is a table, written [record]")
        return
    yield from unknown_keys(record, _KEYS, ("record",))
    wanted = {
        "rules_digest": (str, "a text"),
        "catalogue_digest": (str, "a text"),
        "consent": (bool, "true or false"),
        "expires": (date, "a date"),
    }
    for key, (kind, words) in wanted.items():
        if key in record and (not isinstance(record[key], kind) or isinstance(record[key], datetime)):
            yield ValueFault(("record", key), f"{words} is wanted here")
    for key in ("read", "decided"):
        yield from _table_faults(record.get(key, {}), ("record", key), "short texts", _is_short)
    because = record.get("because", {})
    yield from _table_faults(because, ("record", "because"), "tables", lambda one: isinstance(one, Mapping))
    for decision, rules in because.items() if isinstance(because, Mapping) else ():
        if isinstance(rules, Mapping):
            yield from _table_faults(rules, ("record", "because", decision), "numbers", _is_number)
    yield from _skipped_faults(record.get("skipped", []), facts)


def _table_faults(table: Any, at: At, what: str, fits: Any) -> Iterator[ValueFault]:
    """Find what is wrong with a table of one sort of values."""
    if not isinstance(table, Mapping) or len(table) > _MOST:
        yield ValueFault(at, f"a table of at most {_MOST} {what} is wanted here")
        return
    for key, value in table.items():
        if len(key) > _LONGEST or not fits(value):
            yield ValueFault((*at, key), f"a table of {what} is wanted here; take this entry out")


def _is_short(value: Any) -> bool:
    return isinstance(value, str) and len(value) <= _LONGEST


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < _LARGEST


def _skipped_faults(skipped: Any, facts: Facts) -> Iterator[ValueFault]:
    """Find what is wrong with the list of questions passed over."""
    if not isinstance(skipped, list) or not all(isinstance(id, str) for id in skipped):
        yield ValueFault(("record", "skipped"), "a list of questions is wanted here")
        return
    questions = [id for id, fact in facts.items() if fact.ask is not None]
    for index, id in enumerate(skipped):
        if id not in questions:
            close = get_close_matches(id, questions, 1)
            hint = f"; did you mean '{close[0]}'?" if close else ""
            yield ValueFault(("record", "skipped", index), f"'{one_line(id, 40)}' is not a question{hint}")


def unknown_keys(table: Mapping[str, Any], known: tuple[str, ...], at: At) -> Iterator[ValueFault]:
    """Find the keys of a table that nobody knows, each with what may have been meant."""
    for key in table:
        if key not in known:
            close = get_close_matches(key, known, 1)
            hint = f"; did you mean '{close[0]}'?" if close else f"; known are {', '.join(known)}"
            yield ValueFault((*at, key), f"'{one_line(key, 40)}' is not known here{hint}")
