"""Where Turfpair keeps what it must remember: sessions, locks and the logs of its own faults."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from pathlib import Path

from rules.paths import typed_path

SESSIONS_VARIABLE = "TURFPAIR_SESSIONS"
"""Environment variable that names another folder of sessions."""


def state_folder(environment: Mapping[str, str] | None = None, platform: str = sys.platform) -> Path:
    """Return this user's folder for Turfpair's state; it may not exist yet.

    `$XDG_STATE_HOME/turfpair`, else `~/.local/state/turfpair` (XDG Base Directory Specification, 0.8);
    `%LOCALAPPDATA%\\turfpair` or `~/Library/Application Support/turfpair` on the systems that have those.
    """
    here = os.environ if environment is None else environment
    named = here.get("XDG_STATE_HOME", "")
    if Path(named).is_absolute():  # the specification says that a relative one is to be ignored
        return Path(named) / "turfpair"
    home = Path(here["HOME"]) if here.get("HOME") else Path.home()
    if platform == "win32":
        return Path(here.get("LOCALAPPDATA") or home / "AppData" / "Local") / "turfpair"
    if platform == "darwin":
        return home / "Library" / "Application Support" / "turfpair"
    return home / ".local" / "state" / "turfpair"


def sessions_folder(named: str | None = None, environment: Mapping[str, str] | None = None) -> Path:
    """Return the folder of sessions: as named on the command line, in the environment, or the usual one."""
    here = os.environ if environment is None else environment
    chosen = named or here.get(SESSIONS_VARIABLE)
    return typed_path(chosen) if chosen else state_folder(here) / "sessions"
