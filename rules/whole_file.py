"""Replacing a file whole or not at all: a kill at any moment leaves the old content or the new."""

from __future__ import annotations

import contextlib
import os
import re
import stat
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

_LEFT = re.compile(r"\.(?P<name>.+)\.[a-z0-9_]{8}\.tmp")
"""How `tempfile.mkstemp` names what a killed writer leaves: hidden, after its target, with eight letters."""
_ABANDONED = 60.0
"""Seconds after which a temporary file belongs to no writer any more; one is written in milliseconds."""


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
    _sweep(file.parent, lambda name: name == file.name, 0.0)


def sweep_abandoned(file: Path) -> None:
    """Take away what writers that were killed a while ago left beside a file that has no lock."""
    _sweep(file.parent, lambda name: name == file.name, _ABANDONED)


def sweep_folder(folder: Path, ending: str) -> None:
    """Take away what killed writers left of files with this ending; call it with the folder's lock held."""
    _sweep(folder, lambda name: name.endswith(ending), 0.0)


def _sweep(folder: Path, theirs: Callable[[str], bool], age: float) -> None:
    """Take away what is left of some files; a folder that may not be listed keeps it."""
    with contextlib.suppress(OSError):
        for name in os.listdir(folder):
            left = _LEFT.fullmatch(name) if name.endswith(".tmp") else None
            if left is not None and theirs(left["name"]):
                _take_away(folder / name, age)


def _take_away(left: Path, age: float) -> None:
    """Take a file away unless it is younger than `age` (s) or somebody else was faster."""
    with contextlib.suppress(OSError):
        if not age or time.time() - left.stat().st_mtime > age:
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
