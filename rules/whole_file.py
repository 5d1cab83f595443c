"""Replacing a file whole or not at all: a kill at any moment leaves the old content or the new."""

from __future__ import annotations

import contextlib
import os
import stat
import tempfile
from pathlib import Path


def replace_content(target: Path, content: bytes, new_mode: int) -> None:
    """Replace a file's content in one step; raises OSError with the old file untouched.

    A temporary file beside it is written and brought to the disk, takes the old file's mode (`new_mode`
    where there was none) and is renamed over it; then the folder is brought to the disk. `target` is
    the file itself: resolve a symbolic link first, so that it keeps pointing where it did.
    """
    mode = stat.S_IMODE(target.stat().st_mode) if target.exists() else new_mode
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


def sweep(file: Path) -> None:
    """Take away what killed writers left beside a file; call it with the file's lock held."""
    for left in file.parent.glob(f"{_prefix(file)}*.tmp"):
        with contextlib.suppress(OSError):
            left.unlink()


def _prefix(target: Path) -> str:
    """Return how the temporary files of a target begin: hidden, and named for it."""
    return f".{target.name}."


def _sync_folder(folder: Path) -> None:
    """Bring a renaming to the disk, on systems that let a folder be opened."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
