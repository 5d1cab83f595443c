"""Paths as people type them."""

from __future__ import annotations

import os
from pathlib import Path


def typed_path(text: str | Path) -> Path:
    """Return a path with `~` put in; the home of a user who is not known stays as it was typed."""
    return Path(os.path.expanduser(text))
