"""What can be wrong with a session, each worded once: what, where, what to do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from interview.text import one_line
from rules.problems import Problem

if TYPE_CHECKING:
    from rules.engine.document import FileProblem

_SHOWN = 120
"""Characters of a path or a value that are worth repeating in a sentence."""


_REMEDIES = {
    "absent": "'turfpair sessions list' shows those that are kept",
    "folder": "name one of the session files in it",
    "special": "name a session file that ends in .toml",
    "forbidden": "allow reading it, or copy it to where you may",
    "empty": "'schema = 1', an id, a voice and [answers] make a session",
    "not-text": "a session is plain text that ends in .toml",
    "not-toml": "mend that line, as one 'name = value' to a line, with words in quotes",
    "too-big": "name a session file",
    "too-deep": "an answer is one value, one list or one table",
}
"""What to do about a file that is no session, by the code of its fault."""


def with_remedy(problem: FileProblem) -> FileProblem:
    """Return what is wrong with a file, and what to do where that is a session's own matter."""
    remedy = _REMEDIES.get(problem.code)
    message = f"{problem.message}; {remedy}" if remedy else problem.message
    return type(problem)(problem.file, message, problem.line, problem.column, problem.code)


class SessionProblem(Problem):
    """Anything wrong with a session; `str()` is one sentence."""


class ValueFault(SessionProblem):
    """A value of a session that cannot stand: where it is, as keys and indices, and what is wanted."""

    def __init__(self, path: tuple[str | int, ...], message: str) -> None:
        self.path = path
        super().__init__(message)


class BadId(SessionProblem):
    """A session id that could not be a file name everywhere."""

    def __init__(self, given: str) -> None:
        self.given = given
        super().__init__(
            f"'{one_line(given, 40)}' cannot be a session's id; use small letters, digits and single "
            "hyphens, at most 64, beginning with a letter or a digit"
        )


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault in a session file."""

    line: int
    """Counted from 1."""
    column: int
    """Counted from 1."""
    key: str
    """The dotted key, such as `answers.handicap`."""
    message: str
    """What is wanted, in one sentence."""


class SessionFaults(SessionProblem):
    """A session file that cannot be used: every fault, in file order; the sentence tells the first."""

    def __init__(self, file: Path, faults: Sequence[Fault]) -> None:
        self.file = file
        self.faults = tuple(sorted(faults, key=lambda f: (f.line, f.column)))
        first = self.faults[0]
        where = f"{one_line(str(file), _SHOWN)} line {first.line}, column {first.column}"
        key = f"{first.key}: " if first.key else ""
        super().__init__(f"{where}: {key}{first.message}{self._rest()}")

    def _rest(self) -> str:
        """Say that there are more faults, and on which lines."""
        lines = [str(fault.line) for fault in self.faults[1:]]
        if not lines:
            return ""
        more = f"{len(lines)} more fault{'s' if len(lines) > 1 else ''}"
        shown = ", ".join(lines[:6]) + (" and on" if len(lines) > 6 else "")
        return f" ({more}, at line {shown})"
