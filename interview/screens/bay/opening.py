"""The question that a new talk opens with, remembered, so that it is on the screen before the rules are read.

It holds only as long as no rule and no sentence has changed; whatever it says is replaced by the real
question a moment later. A memory that cannot be read or written is no memory, and nothing else.
"""

from __future__ import annotations

import contextlib
import json
import os
from dataclasses import asdict
from pathlib import Path

from interview.views.bay.talk import AskView

_ROOT = Path(__file__).parents[3]
_READ = ("rules/knowledge", "rules/catalogue", "interview/wording")
"""Folders that decide which question comes first, and how it reads."""
_NAME = "opening.json"


def key(root: Path = _ROOT) -> str:
    """Return what the opening depends on: which files there are, how large and how old."""
    seen = []
    for folder in _READ:
        with os.scandir(root / folder) as files:
            here = ((file.name, file.stat()) for file in files if file.name.endswith(".toml"))
            seen += sorted(f"{folder}/{name}:{state.st_size}:{state.st_mtime_ns}" for name, state in here)
    return ";".join(seen)


def recall(folder: Path) -> AskView | None:
    """Return the opening question remembered in a folder; None where there is none that still holds."""
    with contextlib.suppress(OSError, ValueError, TypeError, KeyError, RecursionError):
        kept = json.loads((folder / _NAME).read_text(encoding="utf-8"))
        if kept["key"] == key():
            ask = kept["ask"]
            return AskView(**{**ask, "choices": tuple(ask["choices"])})
    return None


def remember(folder: Path, ask: AskView) -> None:
    """Remember the opening question in a folder, whole or not at all."""
    with contextlib.suppress(OSError):
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        fresh = folder / f".{_NAME}.new"
        fresh.write_text(json.dumps({"key": key(), "ask": asdict(ask)}), encoding="utf-8")
        fresh.replace(folder / _NAME)
