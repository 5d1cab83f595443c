"""Files that are replaced whole or not at all, and one writer at a time."""

from __future__ import annotations

import contextlib
import hashlib
import os
import stat
import tempfile
from collections.abc import Iterator
from pathlib import Path

from interview.store.faults import Busy, CannotKeep

_PATIENCE = 5.0
"""Seconds to wait for another writer; a save takes milliseconds."""
_PRIVATE_FILE, _PRIVATE_FOLDER = 0o600, 0o700


def digest(file: Path) -> str | None:
    """Return a digest of what a file holds now, or None when there is no such file."""
    try:
        return hashlib.sha256(file.read_bytes()).hexdigest()
    except FileNotFoundError:
        return None


def text_digest(text: str) -> str:
    """Return the digest of a file that holds this text."""
    return hashlib.sha256(text.encode()).hexdigest()


def private_folder(folder: Path) -> None:
    """Make a folder that only its owner reads; CannotKeep when that is not allowed."""
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=_PRIVATE_FOLDER)
    except OSError as error:
        raise CannotKeep(folder, error) from None


def replace_file(file: Path, text: str) -> None:
    """Replace a file's content in one step: a kill at any moment leaves the old text or the new one.

    A temporary file beside it is written and brought to the disk, takes the old file's mode, and is
    renamed over it; then the folder is brought to the disk. A symbolic link keeps pointing where it
    did. Raises CannotKeep, with the old file untouched.
    """
    target = file.resolve()
    try:
        _replace(target, text.encode())
    except OSError as error:
        raise CannotKeep(file, error) from None


def _replace(target: Path, content: bytes) -> None:
    mode = stat.S_IMODE(target.stat().st_mode) if target.exists() else _PRIVATE_FILE
    handle, temporary = tempfile.mkstemp(prefix=_prefix(target), suffix=".tmp", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        os.chmod(temporary, mode)
        os.replace(temporary, target)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(temporary)
        raise
    _sync_folder(target.parent)


def _prefix(target: Path) -> str:
    return f".{target.name}."


def _sync_folder(folder: Path) -> None:
    """Bring a renaming to the disk, on systems that let a folder be opened."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def sweep(file: Path) -> None:
    """Take away what killed writers left beside a file; call it with the lock held."""
    for left in file.parent.glob(f"{_prefix(file)}*.tmp"):
        with contextlib.suppress(OSError):
            left.unlink()


@contextlib.contextmanager
def locked(lock_file: Path) -> Iterator[None]:
    """Hold a lock that every Turfpair respects and that a killed one lets go; Busy after five seconds."""
    from filelock import FileLock, Timeout

    private_folder(lock_file.parent)
    lock = FileLock(lock_file, timeout=_PATIENCE)
    try:
        lock.acquire()
    except Timeout:
        raise Busy(lock_file.parent) from None
    except OSError as error:
        raise CannotKeep(lock_file, error) from None
    try:
        yield
    finally:
        lock.release()
