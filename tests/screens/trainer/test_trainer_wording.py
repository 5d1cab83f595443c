"""Every sentence that the trainer's screens say is worded, and every one that is worded is said."""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import interview
from interview.wording.words import words

HOME = Path(interview.__file__).parent
FILES = (*(HOME / "views" / "trainer").glob("*.py"), *(HOME / "screens" / "trainer").glob("*.py"))


def _keys(table: Mapping[str, Any], prefix: str = "") -> Iterator[str]:
    for key, value in table.items():
        if isinstance(value, Mapping):
            yield from _keys(value, f"{prefix}{key}.")
        else:
            yield f"{prefix}{key}"


def _said() -> Iterator[tuple[str, bool]]:
    """Each key in a call of `said`, and whether it is only the beginning of one."""
    for file in FILES:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "said":
                for part in ast.walk(node.args[0]):
                    if isinstance(part, ast.JoinedStr) and isinstance(part.values[0], ast.Constant):
                        yield str(part.values[0].value), True
                        break
                    if isinstance(part, ast.Constant) and isinstance(part.value, str) and "." in part.value:
                        yield part.value, False


def _texts() -> set[str]:
    """Every text of the program: a key may stand in a constant."""
    nodes = (node for file in FILES for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))))
    return {node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)}


def test_every_sentence_is_worded_and_said() -> None:
    known = set(_keys(words().phrases["trainer_screen"]))
    said = list(_said())
    assert {key for key, begun in said if not begun} - known == set()
    starts = tuple({key for key, begun in said if begun})
    assert all(any(key.startswith(start) for key in known) for start in starts)
    assert {key for key in known - _texts() if not key.startswith(starts)} == set()
