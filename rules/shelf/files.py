"""Files of a shop that are replaced whole or not at all, by one writer at a time."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from pathlib import Path

from rules.problems import Problem
from rules.whole_file import replace_content, sweep

PATIENCE = 5.0
"""How long a writer waits for another (s); a save takes milliseconds."""
LOCK_FILE = ".lock"
"""The lock of a catalogue folder; it stays, empty, and a killed program lets go of it."""


class CannotWrite(Problem):
    """A file that the operating system would not let us write; what was there is untouched."""

    def __init__(self, file: Path, error: OSError) -> None:
        self.file = file
        reason = (error.strerror or "it cannot be written").lower()
        super().__init__(f"{file}: {reason}; nothing was changed, so allow writing there and try again")


class Busy(Problem):
    """A lock that another Turfpair did not let go of in time."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        super().__init__(f"another Turfpair is writing in {folder} and has not finished; try again")


@contextlib.contextmanager
def only_writer(folder: Path) -> Iterator[None]:
    """Hold a folder's lock; Busy after `PATIENCE`, CannotWrite when no lock can be made there."""
    from filelock import FileLock, Timeout

    lock = FileLock(folder / LOCK_FILE, timeout=PATIENCE)
    try:
        lock.acquire()
    except Timeout:
        raise Busy(folder) from None
    except OSError as error:
        raise CannotWrite(folder / LOCK_FILE, error) from None
    try:
        yield
    finally:
        lock.release()


def replace_file(file: Path, text: str) -> None:
    """Replace a file's text in one step; call it with the lock held.

    Mode and symbolic link are kept, and what a killed writer left is swept. Raises CannotWrite, the
    old file untouched.
    """
    target = file.resolve()
    try:
        sweep(target)
        replace_content(target, text.encode(), 0o644)
    except OSError as error:
        raise CannotWrite(file, error) from None
