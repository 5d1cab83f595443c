"""A session as the text of its file. Dumped to text first, so that nothing half-written reaches a file."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime
from typing import Any

from interview.session.record import SCHEMA, SECTIONS, Session

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPED = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r", "\b": "\\b", "\f": "\\f"}


def session_text(session: Session) -> str:
    """Return the file's text; reading it gives an equal session."""
    return "\n".join(_lines(session)) + "\n"


def _lines(session: Session) -> Iterator[str]:
    yield from _head(session)
    for section in SECTIONS:
        part = session.written.get(section)
        if part and section != "overrides":
            yield from _section(section, part)
    yield from _record(session)
    yield from _section("overrides", session.written.get("overrides", {}))


def _head(session: Session) -> Iterator[str]:
    yield f"schema = {SCHEMA}"
    yield f"id = {_value(session.id)}"
    yield f"voice = {_value(session.voice)}"
    yield f"units = {_value(session.units)}"
    if session.created is not None:
        yield f"created = {_value(session.created)}"
    if session.note:
        yield f"note = {_long_text(session.note)}"


def _section(name: str, part: Any) -> Iterator[str]:
    """Write a section: a list as tables under [[name]], a table of tables as [name.key], else as [name]."""
    if isinstance(part, list):
        for row in part:
            yield from ("", f"[[{name}]]", *_pairs(row))
    elif name == "answers":
        yield from ("", f"[{name}]", *_pairs(part))
    else:
        for key, row in part.items():
            yield from ("", f"[{name}.{_text(key)}]", *_pairs(row))


def _record(session: Session) -> Iterator[str]:
    record = session.record
    kept = {
        "rules_digest": record.rules_digest,
        "catalogue_digest": record.catalogue_digest,
        "read": dict(record.read),
        "consent": record.consent,
        "expires": record.expires,
        "skipped": list(record.skipped),
    }
    if any(kept.values()):
        yield from ("", "[record]", *_pairs({key: value for key, value in kept.items() if value}))
    for name, table in (("decided", record.decided), ("because", record.because)):
        if table:
            yield from ("", f"[record.{name}]", *_pairs(table))


def _pairs(table: Mapping[str, Any]) -> Iterator[str]:
    for key, value in table.items():
        yield f"{_key(key)} = {_value(value)}"


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else _text(key)


def _value(value: Any) -> str:
    """Write one value; tables inside a section are written inline, as a person would."""
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    if isinstance(value, Mapping):
        return "{ " + ", ".join(_pairs(value)) + " }" if value else "{}"
    if isinstance(value, list):
        return f"[{', '.join(_value(part) for part in value)}]"
    if isinstance(value, datetime):
        return (value.astimezone(UTC) if value.tzinfo else value).isoformat().replace("+00:00", "Z")
    return value.isoformat() if isinstance(value, date) else repr(value)


def _text(text: str) -> str:
    """Write a text between quotes, everything escaped that must be."""
    return '"' + "".join(_character(c) for c in text) + '"'


def _character(c: str) -> str:
    if c in _ESCAPED:
        return _ESCAPED[c]
    return f"\\u{ord(c):04x}" if ord(c) < 32 or ord(c) == 127 else c


def _long_text(text: str) -> str:
    """Write a note over several lines when it has them, so that people can read it in the file."""
    if "\n" not in text:
        return _text(text)
    return '"""\n' + "\n".join(_text(line)[1:-1] for line in text.split("\n")) + '"""'
