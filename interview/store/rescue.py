"""The last place for a session: where it goes when its own folder takes nothing and the program ends."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from interview.folders import state_folder
from interview.store.faults import StoreProblem

if TYPE_CHECKING:
    from interview.session.record import Session
    from interview.store.draft import Draft


def another_place() -> Path:
    """Return the folder that is offered where a session's own cannot be written: one in the user's home."""
    return Path("~/turfpair-sessions")


def rescue(draft: Draft, session: Session) -> Path | None:
    """Keep a session wherever it can be, its own place first; return its file, or None if none takes it."""
    try:
        draft.save(session)
        return draft.file
    except StoreProblem:
        pass
    for folder in _places():
        try:
            draft.elsewhere(folder, session)
            return draft.file
        except StoreProblem:
            continue
    return None


def _places() -> Iterator[Path]:
    """Yield the folders to try; in a folder that all share, one that is nobody else's."""
    yield state_folder() / "rescued"
    yield another_place()
    try:
        yield Path(tempfile.mkdtemp(prefix="turfpair-"))
    except OSError:  # there is no such folder, or it takes nothing either
        return
