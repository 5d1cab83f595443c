"""The classroom: which cases are taught, who is in the class, what was tried, and what is due again."""

from __future__ import annotations

from interview.classroom.book import CLASS_FILE, ClassBook
from interview.classroom.faults import BadName, CannotKeepClass, ClassProblem, Nobody, Unreadable
from interview.classroom.lessons import Lessons, lessons_in
from interview.classroom.progress import Progress, progress, summary_csv, summary_toml, write_summary
from interview.classroom.repeats import INTERVALS, PASS, Due, due, repeats
from interview.classroom.roll import Attempt, Roll, Trainee

__all__ = [
    "CLASS_FILE", "INTERVALS", "PASS", "Attempt", "BadName", "CannotKeepClass", "ClassBook", "ClassProblem",
    "Due", "Lessons", "Nobody", "Progress", "Roll", "Trainee", "Unreadable", "due", "lessons_in", "progress",
    "repeats", "summary_csv", "summary_toml", "write_summary",
]  # fmt: skip
