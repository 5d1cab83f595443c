"""The class in the folder that the trainer named: every change is written at once, whole or not at all."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from interview.classroom.faults import CannotKeepClass, Unreadable
from interview.classroom.file import read_roll, roll_text
from interview.classroom.roll import Attempt, Roll, Trainee
from interview.store.files import locked
from rules.engine.document import MOST_BYTES, FileProblem, read_toml
from rules.whole_file import replace_content, sweep

CLASS_FILE = "class.toml"
"""Name of the file that holds a class."""
_LOCK = ".class.lock"
_PRIVATE, _PRIVATE_FOLDER = 0o600, 0o700


class ClassBook:
    """A class and the folder it is kept in."""

    def __init__(self, folder: Path, roll: Roll) -> None:
        self.folder = folder
        self.roll = roll
        """The class as it was last read or written."""

    @classmethod
    def open(cls, folder: Path) -> ClassBook:
        """Open the class kept in a folder; nothing is written before the first change.

        Raises Unreadable for a damaged file, which is left as it is, and CannotKeepClass for no folder.
        """
        if folder.exists() and not folder.is_dir():
            raise CannotKeepClass(folder, NotADirectoryError(20, "this is a file and not a folder"))
        return cls(folder, _read(folder / CLASS_FILE))

    @property
    def file(self) -> Path:
        """The file that holds the class."""
        return self.folder / CLASS_FILE

    @property
    def trainees(self) -> tuple[Trainee, ...]:
        """Everybody, in the order in which they came."""
        return self.roll.trainees

    @property
    def attempts(self) -> tuple[Attempt, ...]:
        """Everything that was tried, in its order."""
        return self.roll.attempts

    def add(self, name: str) -> Trainee:
        """Add a person; raises BadName and what keeping raises."""
        return self._change(lambda roll: roll.with_trainee(name)).trainees[-1]

    def rename(self, id: str, name: str) -> Trainee:
        """Change a person's name; raises Nobody, BadName and what keeping raises."""
        return self._change(lambda roll: roll.renamed(id, name)).trainee(id)

    def remove(self, id: str) -> None:
        """Forget a person and all that he tried; raises Nobody and what keeping raises."""
        self._change(lambda roll: roll.without(id))

    def record(self, attempt: Attempt) -> None:
        """Note an attempt; raises Nobody and what keeping raises."""
        self._change(lambda roll: roll.with_attempt(attempt))

    def write(self, name: str, text: str) -> Path:
        """Write a file of the trainer's beside the class, such as a summary; raises what keeping raises."""
        file = self.folder / name
        self._keep(lambda: replace_content(file.resolve(), text.encode(), _PRIVATE))
        return file

    def _change(self, change: Callable[[Roll], Roll]) -> Roll:
        """Change the class as it is in the file now, so that no other program's change is lost."""

        def write() -> None:
            new, text = _fitting(change(_read(self.file)))
            replace_content(self.file.resolve(), text.encode(), _PRIVATE)
            self.roll = new

        self._keep(write)
        return self.roll

    def _keep(self, write: Callable[[], None]) -> None:
        """Write with the folder's lock held; raises CannotKeepClass, or Busy where another is writing."""
        try:
            self.folder.mkdir(parents=True, exist_ok=True, mode=_PRIVATE_FOLDER)
            with locked(self.folder / _LOCK):
                sweep(self.file)
                write()
        except OSError as error:
            raise CannotKeepClass(self.folder, error) from None


def _fitting(roll: Roll) -> tuple[Roll, str]:
    """Return a class with its text, the oldest attempts dropped where it would grow beyond what is read."""
    text = roll_text(roll)
    while len(text.encode()) > MOST_BYTES:
        roll = Roll(roll.trainees, roll.attempts[len(roll.attempts) // 10 + 1 :])
        text = roll_text(roll)
    return roll, text


def _read(file: Path) -> Roll:
    """Return the class that a file holds; an empty one where there is no file yet."""
    try:
        document = read_toml(file)
    except FileProblem as problem:
        if problem.code == "absent":
            return Roll()
        where = f"line {problem.line}" if problem.line else ""
        raise Unreadable(file, where, problem.message) from None
    return read_roll(file, document.data)
