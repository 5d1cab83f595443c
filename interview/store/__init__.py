"""Where sessions are kept: found by id or ticket, replaced whole, never over somebody else's."""

from __future__ import annotations

from interview.folders import sessions_folder, state_folder
from interview.store.draft import Draft
from interview.store.faults import (
    AlreadyThere,
    Busy,
    CannotKeep,
    CannotLook,
    Lapsed,
    NoSuchSession,
    StoreProblem,
)
from interview.store.listing import Entry, local_day
from interview.store.rescue import another_place, rescue
from interview.store.store import Store

__all__ = [
    "AlreadyThere",
    "Busy",
    "CannotKeep",
    "CannotLook",
    "Draft",
    "Entry",
    "Lapsed",
    "NoSuchSession",
    "Store",
    "StoreProblem",
    "another_place",
    "local_day",
    "rescue",
    "sessions_folder",
    "state_folder",
]
