"""What can go wrong with a class, each worded once: what, where, what to do."""

from __future__ import annotations

from pathlib import Path

from interview.text import one_line
from rules.problems import Problem


class ClassProblem(Problem):
    """Anything wrong with a class; `str()` is one sentence."""


class CannotKeepClass(ClassProblem):
    """A class folder that the operating system would not let us write."""

    def __init__(self, file: Path, error: OSError) -> None:
        self.file = file
        reason = (error.strerror or "it cannot be written").lower()
        super().__init__(
            f"the class could not be kept in {one_line(str(file), 160)}: {reason}; what was kept before is "
            "untouched, so make room, allow writing there, or name another folder"
        )


class Unreadable(ClassProblem):
    """A class file that was not written by this program, or was damaged since; it is left as it is."""

    def __init__(self, file: Path, where: str, what: str) -> None:
        self.file = file
        place = f"{one_line(str(file), 160)}{f', {where}' if where else ''}"
        super().__init__(
            f"{place}: {one_line(what, 200)}; the file was left as it is, so mend it or name another folder"
        )


class BadName(ClassProblem):
    """A name that is empty, or taken."""


class Nobody(ClassProblem):
    """A trainee who is not in the class."""

    def __init__(self, id: str) -> None:
        super().__init__(f"nobody in the class goes by '{one_line(id, 60)}'; add the name first")
