"""Files that are replaced whole or not at all, and one writer at a time."""

from __future__ import annotations

import contextlib
import hashlib
import signal
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

from interview.store.faults import Busy, CannotKeep
from rules.paths import insist_on_file
from rules.whole_file import replace_content, sweep, sweep_folder

__all__ = [
    "digest", "locked", "private_folder", "replace_file", "sweep", "sweep_folder", "text_digest", "unbroken",
]  # fmt: skip

_PATIENCE = 5.0
"""Seconds to wait for another writer; a save takes milliseconds."""
_BREAKERS = ("SIGINT", "SIGTERM", "SIGHUP")
"""Signals whose handlers may raise in the middle of what is being done."""
_PRIVATE_FILE, _PRIVATE_FOLDER = 0o600, 0o700


def digest(file: Path) -> str | None:
    """Return a digest of what a file holds now, or None when there is no such file; CannotKeep if barred."""
    try:
        insist_on_file(file)
        with file.open("rb") as content:
            return hashlib.file_digest(content, "sha256").hexdigest()
    except FileNotFoundError:
        return None
    except OSError as error:
        raise CannotKeep(file, error) from None


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

    Its mode is kept, a new one is its owner's alone, and a symbolic link keeps pointing where it did.
    Raises CannotKeep, with the old file untouched.
    """
    try:
        replace_content(file.resolve(), text.encode(), _PRIVATE_FILE)
    except OSError as error:
        raise CannotKeep(file, error) from None


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
    except (OSError, NotImplementedError) as error:  # the second where a disk knows no locks
        refused = error if isinstance(error, OSError) else OSError(0, "no lock can be held there")
        raise CannotKeep(lock_file, refused) from None
    try:
        yield
    finally:
        lock.release()


@contextlib.contextmanager
def unbroken() -> Iterator[None]:
    """Hold back interruptions until a save is whole and noted; they come right after it.

    Their handlers are what is held back, not the signals: a process of several threads hears a signal in
    any of them, and runs its handler in the first. An event loop hears them between its turns, so nothing
    is held back there.
    """
    if threading.current_thread() is not threading.main_thread() or _in_a_loop():
        yield
        return
    came: list[int] = []
    before: dict[int, object] = {}
    for number in (getattr(signal, name) for name in _BREAKERS if hasattr(signal, name)):
        if signal.getsignal(number) not in (signal.SIG_IGN, None):
            before[number] = signal.signal(number, lambda heard, _: came.append(heard))
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)  # type: ignore[arg-type]
        for number in came:
            signal.raise_signal(number)


def _in_a_loop() -> bool:
    """Say whether an event loop runs in this thread; what never loaded one has none."""
    loops = sys.modules.get("asyncio.events")
    return loops is not None and loops._get_running_loop() is not None
