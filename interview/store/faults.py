"""What can go wrong in keeping sessions, each worded once: what, where, what to do."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from difflib import get_close_matches
from pathlib import Path

from interview.text import one_line
from rules.problems import Problem


class StoreProblem(Problem):
    """Anything wrong in keeping sessions; `str()` is one sentence."""


class NoSuchSession(StoreProblem):
    """Neither an id in the store nor the code of a ticket."""

    def __init__(self, typed: str, ids: Iterable[str]) -> None:
        self.typed = typed
        close = get_close_matches(typed.lower(), list(ids), 1)
        hint = f"did you mean '{close[0]}'?" if close else "'turfpair sessions list' shows those there are"
        super().__init__(f"there is no session or ticket '{one_line(typed, 60)}'; {hint}")


class Lapsed(NoSuchSession):
    """A ticket whose day is over: it is nobody's to read any more."""

    def __init__(self, code: str, expires: date) -> None:
        self.typed = code
        self.expires = expires
        StoreProblem.__init__(
            self,
            f"ticket {code} could be kept until {expires:%d %b %Y} and is read no more; 'turfpair sessions "
            "purge' deletes it, and a running kiosk does so within the hour",
        )


class AlreadyThere(StoreProblem):
    """A session that was to be begun under an id that is taken."""

    def __init__(self, id: str) -> None:
        self.id = id
        super().__init__(f"there is already a session '{id}'; open it by that name or choose another")


class CannotKeep(StoreProblem):
    """A file that the operating system would not let us write."""

    def __init__(self, file: Path, error: OSError) -> None:
        self.file = file
        reason = (error.strerror or "it cannot be written").lower()
        super().__init__(
            f"the session could not be kept in {one_line(str(file), 160)}: {reason}; what was kept before is "
            "untouched, so make room, allow writing there, or keep it in another folder"
        )


class CannotLook(StoreProblem):
    """A folder of sessions that the operating system would not let us list."""

    def __init__(self, folder: Path, error: OSError) -> None:
        self.folder = folder
        reason = (error.strerror or "it cannot be read").lower()
        super().__init__(
            f"the sessions in {one_line(str(folder), 160)} cannot be listed: {reason}; allow reading there, "
            "or name another folder with --sessions"
        )


class Busy(StoreProblem):
    """A lock that another Turfpair did not let go of in time."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        super().__init__(
            f"another Turfpair is writing in {one_line(str(folder), 160)} and has not finished; try again"
        )
