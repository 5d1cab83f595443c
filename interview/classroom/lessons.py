"""Which cases are taught: a session, a folder of them, or golfers that the program invents."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from interview.session import load, session_of
from rules.inquiry.invented import invented
from rules.lessons.case import Case, open_case
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.session import Session
    from rules.fitting import House

INVENTED = 16
"""Golfers that are invented where no sessions are named."""
MOST_CASES = 400
"""Cases of a folder that are opened, by name; a class gets through fewer."""


@dataclass(frozen=True, slots=True)
class Lessons:
    """The cases of a lesson."""

    cases: tuple[Case, ...]
    problems: tuple[str, ...] = ()
    """Sessions that could not be opened, a sentence each; the rest went on."""


def lessons_in(place: Path | None, house: House) -> Lessons:
    """Open a session file, or every one of a folder, by name; None invents golfers, the same each time.

    A file that was named itself must open: its problem is raised. Of a folder those that do not are told.
    """
    if place is None:
        sessions = (session_of(invented(number), house.base.facts) for number in range(INVENTED))
        return Lessons(tuple(_case(one, house) for one in sessions))
    if not place.is_dir():
        return Lessons((_case(load(place, house.base.facts), house),))
    cases: dict[str, Case] = {}
    problems = []
    files = sorted(path for path in place.glob("*.toml") if path.is_file())
    for file in files[:MOST_CASES]:
        try:
            case = _case(load(file, house.base.facts), house)
        except Problem as problem:
            problems.append(" ".join(str(problem).split()))
        else:
            if cases.setdefault(case.id, case) is not case:
                problems.append(
                    f"{file}: another session of this folder is called '{case.id}' too; it was left out"
                )
    if len(files) > MOST_CASES:
        problems.append(f"{place} holds {len(files)} sessions; the first {MOST_CASES} by name were opened")
    return Lessons(tuple(cases.values()), tuple(problems))


def _case(session: Session, house: House) -> Case:
    """Open a session as a case."""
    return open_case(house.for_session(session.id), session.id, session.subject, session.note)
