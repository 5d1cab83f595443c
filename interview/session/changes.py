"""From a session to the next one. Nothing here changes a session; each function returns another.

Whatever is put in is read at once, so a session never holds a value that cannot be read: AnswerProblem
or SubjectProblem say in one sentence what is wanted.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date, datetime
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from interview.session.faults import ValueFault
from interview.session.identity import checked_id
from interview.session.record import Session, Voice
from interview.text import note_text, one_line
from rules.facts.answers import UNKNOWN, Answer, AnswerProblem, read_answer, write_answer
from rules.facts.mixes import impossible
from rules.facts.reading import read_subject
from rules.units import System

if TYPE_CHECKING:
    from rules.engine.language import Fact

    Facts = Mapping[str, Fact]

_BARE = re.compile(r"[+-]?[\d\s.,/]+")
"""A number without a unit, which takes the fact's own."""


def begin(
    id: str, *, voice: Voice = "fitter", units: System = "imperial", created: datetime | None = None
) -> Session:
    """Return a session of which nothing has been said yet; BadId when the id cannot be a file name."""
    return Session(checked_id(id), voice, units, created)


def question_fact(facts: Facts, question: str) -> Fact:
    """Return the fact that a question asks for; ValueFault with a did-you-mean when it is no question."""
    fact = facts.get(question)
    if fact is not None and fact.ask is not None:
        return fact
    asked = [id for id, known in facts.items() if known.ask is not None]
    close = get_close_matches(question, asked, 1)
    hint = f"; did you mean '{close[0]}'?" if close else ""
    raise ValueFault(("answers", question), f"'{one_line(question, 40)}' is not a question{hint}")


def cleaned(value: Any) -> Any:
    """Return a value with every text in it cleaned and on one line, however deep."""
    if isinstance(value, str):
        return one_line(value, 10_000)
    if isinstance(value, Mapping):
        return {key: cleaned(part) for key, part in value.items()}
    return [cleaned(part) for part in value] if isinstance(value, list) else value


def with_answer(session: Session, facts: Facts, question: str, raw: object) -> Session:
    """Answer a question, or revise its answer, with typed text or a TOML value.

    What was said with its unit is kept as it was said; a bare number is given the unit it was asked in.
    """
    fact, said = question_fact(facts, question), cleaned(raw)
    answer = read_answer(fact, said)
    return _answered(session, fact, _as_said(fact, said) or write_answer(fact, answer))


def closed(session: Session, facts: Facts, question: str) -> Session:
    """Close a question with "I don't know": what usually holds stands in for it."""
    fact = question_fact(facts, question)
    return _answered(session, fact, write_answer(fact, UNKNOWN))


def _as_said(fact: Fact, said: object) -> object:
    """Return an answer that has been read as it was said, where the file can hold that; else None."""
    if isinstance(said, Mapping) and "value" in said and said.get("how") in ("measured", "estimated"):
        plain = _as_said(fact, said["value"])
        return plain and {"value": plain, "how": said["how"]}
    if fact.kind == "number" and isinstance(said, str) and not _BARE.fullmatch(said):
        return said
    if fact.kind == "shares" and isinstance(said, Mapping) and set(said) <= set(fact.values):
        return dict(said)
    return None


def _answered(session: Session, fact: Fact, text: object) -> Session:
    """Keep an answer as its file's value, and as what that value reads as, so that the two never differ."""
    written = {**session.written.get("answers", {}), fact.id: text}
    known = {**session.subject.answers, fact.id: read_answer(fact, text)}
    if (mix := impossible(known)) is not None:
        raise AnswerProblem(fact.id, mix[1])
    return _unskipped(_with_answers(session, written, known), fact.id)


def without_answer(session: Session, question: str) -> Session:
    """Withdraw an answer: the question is open again. Nothing else changes."""
    written = {id: raw for id, raw in session.written.get("answers", {}).items() if id != question}
    known = {id: answer for id, answer in session.subject.answers.items() if id != question}
    return _with_answers(session, written, known)


def _with_answers(session: Session, written: Mapping[str, Any], known: Mapping[str, Answer]) -> Session:
    return replace(
        session,
        written={**session.written, "answers": written},
        subject=replace(session.subject, answers=known),
    )


def skipped(session: Session, question: str) -> Session:
    """Pass a question over: it stays open, and is asked again last."""
    others = tuple(id for id in session.record.skipped if id != question)
    return with_record(session, skipped=(*others, question))


def _unskipped(session: Session, question: str) -> Session:
    if question not in session.record.skipped:
        return session
    return with_record(session, skipped=tuple(id for id in session.record.skipped if id != question))


def _with_part(session: Session, facts: Facts, section: str, part: object) -> Session:
    """Replace one section and read the whole again, since sections name one another's clubs."""
    written = {**session.written, section: cleaned(part)}
    return replace(session, written=written, subject=read_subject(facts, written))


def with_club(session: Session, facts: Facts, section: str, club: Mapping[str, object]) -> Session:
    """Add a club to `owned` or `trial_clubs`, or replace the one of its name."""
    kept = [c for c in session.written.get(section, []) if c.get("name") != club.get("name")]
    return _with_part(session, facts, section, [*kept, dict(club)])


def without_club(session: Session, facts: Facts, section: str, name: str) -> Session:
    """Take a club out of `owned` or `trial_clubs`, and with it the shots that were hit with it."""
    kept = [c for c in session.written.get(section, []) if c.get("name") != name]
    shots = [s for s in session.written.get("shots", []) if s.get("club") != name]
    written = {**session.written, section: kept, "shots": shots}
    return replace(session, written=written, subject=read_subject(facts, written))


def with_shots(session: Session, facts: Facts, shots: Iterable[Mapping[str, object]]) -> Session:
    """Add trial shots, written as in the session file (`club`, `toe_mm`, `outcome`, ...)."""
    added = [*session.written.get("shots", []), *(dict(shot) for shot in shots)]
    return _with_part(session, facts, "shots", added)


def without_shot(session: Session, facts: Facts, index: int = -1) -> Session:
    """Take one shot back, the last unless told otherwise."""
    shots = list(session.written.get("shots", []))
    if shots:
        del shots[index]
    return _with_part(session, facts, "shots", shots)


def with_override(session: Session, facts: Facts, decision: str, value: str, reason: str = "") -> Session:
    """Overrule a decision, with the reason if one was given."""
    row = {"value": value, **({"reason": reason} if reason.strip() else {})}
    return _with_part(session, facts, "overrides", {**session.written.get("overrides", {}), decision: row})


def without_override(session: Session, facts: Facts, decision: str) -> Session:
    """Let the engine decide again."""
    kept = {id: row for id, row in session.written.get("overrides", {}).items() if id != decision}
    return _with_part(session, facts, "overrides", kept)


def with_details(
    session: Session, *, voice: Voice | None = None, units: System | None = None, note: str | None = None
) -> Session:
    """Change whom the words are for, how quantities are displayed, or the note; None keeps each."""
    return replace(
        session,
        voice=voice or session.voice,
        units=units or session.units,
        note=session.note if note is None else note_text(note),
    )


def with_record(
    session: Session,
    *,
    consent: bool | None = None,
    expires: date | None = None,
    skipped: tuple[str, ...] | None = None,
) -> Session:
    """Change what the program keeps; None keeps each. Without consent there is no `expires`."""
    old = session.record
    agreed = old.consent if consent is None else consent
    record = replace(
        old,
        consent=agreed,
        expires=(old.expires if expires is None else expires) if consent is not False else None,
        skipped=old.skipped if skipped is None else skipped,
    )
    return replace(session, record=record)
