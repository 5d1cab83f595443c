"""A shop's own catalogue, begun as a copy of the demo shop."""

from __future__ import annotations

import contextlib
import glob
import os
import shutil
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from rules.problems import Problem
from rules.shelf.files import CannotWrite
from rules.shelf.reader import DEMO
from rules.shelf.tables import FILES, SHOP_FILE

_ABANDONED = 60.0
"""Seconds after which a half-made folder belongs to nobody; one is made in milliseconds."""


class FolderTaken(Problem):
    """A folder that already holds something, which is never written over."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        super().__init__(
            f"{folder} already holds something, and nothing is written over; name a new or an empty folder"
        )


def start_shop(folder: Path) -> tuple[Path, ...]:
    """Copy the demo shop to a new or empty folder, all of it or nothing; the files made are returned.

    The copy is put together beside the folder and renamed into place. Raises FolderTaken, CannotWrite.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise FolderTaken(folder)
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with _beside(folder) as half_made:
            for name in (*FILES, SHOP_FILE):
                # Contents only: the demo may be installed read-only, the shop's own is to be edited.
                (half_made / name).write_bytes((DEMO / name).read_bytes())
            os.chmod(half_made, 0o755)
            if folder.exists():
                folder.rmdir()
            os.rename(half_made, folder)
    except OSError as error:
        raise CannotWrite(folder, error) from None
    return tuple(folder / name for name in (*FILES, SHOP_FILE))


@contextlib.contextmanager
def _beside(folder: Path) -> Iterator[Path]:
    """Give a folder beside another for a half-made copy; what is left of it afterwards goes.

    What a start that was killed left goes too, once it is old enough to be nobody's any more.
    """
    for left in folder.parent.glob(f".{glob.escape(folder.name)}.{'[a-z0-9_]' * 8}"):
        with contextlib.suppress(OSError):
            if left.is_dir() and time.time() - left.stat().st_mtime > _ABANDONED:
                shutil.rmtree(left, ignore_errors=True)
    half_made = Path(tempfile.mkdtemp(prefix=f".{folder.name}.", dir=folder.parent))
    try:
        yield half_made
    finally:
        shutil.rmtree(half_made, ignore_errors=True)
