"""Texts of record: what a person has read and found good, kept beside the tests and held to.

`TURFPAIR_GOLDEN=write pytest -n 0` runs only the tests that hold one, and writes each anew; with the name of
a file, those of that file. Then read the difference, and commit it with what caused it.
"""

from __future__ import annotations

import os
from difflib import unified_diff
from pathlib import Path

import pytest

WRITE = os.environ.get("TURFPAIR_GOLDEN") == "write"
"""True while texts of record are written anew."""
ROOT = Path(__file__).parents[1]
_SHOWN = 60
"""Lines of a difference that a failure shows."""


def again() -> str:
    """Return the command that writes anew what the running test holds."""
    file = os.environ.get("PYTEST_CURRENT_TEST", "tests").partition("::")[0]
    return f"TURFPAIR_GOLDEN=write .venv/bin/pytest -n 0 {file}"


def held(file: Path, text: str) -> None:
    """Hold a text to the one of record, or record it anew; a failure shows what differs and what to do."""
    __tracebackhide__ = True
    if WRITE:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
    was = file.read_text(encoding="utf-8") if file.exists() else ""
    if text != was:
        name = file.relative_to(ROOT) if file.is_relative_to(ROOT) else file
        lines = unified_diff(was.splitlines(), text.splitlines(), "as read", "as it is now", lineterm="", n=1)
        shown = "\n".join([*lines][:_SHOWN])
        pytest.fail(f"{name} differs; when that is meant, write it anew: {again()}\n{shown}", pytrace=False)
