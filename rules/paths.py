"""Paths as people type them, and what stands there."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path


def typed_path(text: str | Path) -> Path:
    """Return a path with `~` put in; the home of a user who is not known stays as it was typed.

    Quotes around it are left out: people put them there, as a shell wants them around blanks.
    """
    typed = str(text)
    quoted = len(typed) > 2 and typed[0] == typed[-1] and typed[0] in "'\""
    return Path(os.path.expanduser(typed[1:-1] if quoted else typed))


def insist_on_file(path: Path) -> None:
    """Insist on an ordinary file before it is read; OSError for a pipe or a device, which may have no end."""
    if not stat.S_ISREG(path.stat().st_mode) and not path.is_dir():
        raise OSError(errno.EINVAL, "this is not an ordinary file", str(path))


def read_bounded(path: Path, most: int) -> bytes:
    """Return what an ordinary file holds; OSError when that is more than so many bytes, read no further."""
    insist_on_file(path)
    with path.open("rb") as file:
        raw = file.read(most + 1)
    if len(raw) > most:
        why = f"this file holds more than {most} bytes, far more than it needs"
        raise OSError(errno.EFBIG, why, str(path))
    return raw
