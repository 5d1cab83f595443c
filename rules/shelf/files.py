"""Files of a shop that are replaced whole or not at all, by one writer at a time."""

from __future__ import annotations

import contextlib
import os
import stat
from collections.abc import Iterator
from pathlib import Path

from rules.problems import Problem

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
    """Replace a file's text in one step: a kill at any moment leaves the old text or the new one.

    Call it with the lock held: the temporary name beside the file is fixed, so that what a killed writer
    left is written over. Mode and symbolic link are kept. Raises CannotWrite, the old file untouched.
    """
    target = file.resolve()
    temporary = target.with_name(f".{target.name}.tmp")
    try:
        mode = stat.S_IMODE(target.stat().st_mode) if target.exists() else 0o644
        _write_through(temporary, text, mode)
        os.replace(temporary, target)
        _sync_folder(target.parent)
    except OSError as error:
        with contextlib.suppress(OSError):
            temporary.unlink()
        raise CannotWrite(file, error) from None


def _write_through(file: Path, text: str, mode: int) -> None:
    """Write a file and wait until it is on the disk."""
    with file.open("w", encoding="utf-8", newline="\n") as out:
        out.write(text)
        out.flush()
        os.chmod(file, mode)
        os.fsync(out.fileno())


def _sync_folder(folder: Path) -> None:
    """Wait until a renaming is on the disk, on systems that let a folder be opened."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
