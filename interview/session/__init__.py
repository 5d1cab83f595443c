"""The session: what was said, tried, read and overruled, as one frozen record with a strict file."""

from __future__ import annotations

from interview.session.changes import (
    begin,
    closed,
    skipped,
    with_answer,
    with_club,
    with_details,
    with_override,
    with_record,
    with_shots,
    without_answer,
    without_club,
    without_override,
    without_shot,
)
from interview.session.faults import BadId, Fault, SessionFaults, SessionProblem, ValueFault
from interview.session.identity import checked_id, is_id, new_id, read_ticket, ticket_code
from interview.session.reading import load, overrides_of, session_of
from interview.session.record import Record, Session, Voice
from interview.session.writing import session_text
from interview.text import clean, note_text, one_line

__all__ = [
    "BadId",
    "Fault",
    "Record",
    "Session",
    "SessionFaults",
    "SessionProblem",
    "ValueFault",
    "Voice",
    "begin",
    "checked_id",
    "clean",
    "closed",
    "is_id",
    "load",
    "new_id",
    "note_text",
    "one_line",
    "overrides_of",
    "read_ticket",
    "session_of",
    "session_text",
    "skipped",
    "ticket_code",
    "with_answer",
    "with_club",
    "with_details",
    "with_override",
    "with_record",
    "with_shots",
    "without_answer",
    "without_club",
    "without_override",
    "without_shot",
]
