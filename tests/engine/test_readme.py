"""The example in the engine's README does what it says."""

from __future__ import annotations

import re
from pathlib import Path

import rules.engine
from rules.engine import Candidate, assumed, known, load

README = Path(rules.engine.__file__).parent / "README.md"


def block(language: str) -> str:
    found = re.search(rf"```{language}\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
    assert found
    return found.group(1)


def test_the_example_runs(tmp_path: Path) -> None:
    (tmp_path / "base.toml").write_text(block("toml"))
    names = {"load": load, "known": known, "assumed": assumed, "Candidate": Candidate, "folder": tmp_path}
    exec(block("python"), names)


def test_every_room_is_named() -> None:
    text = README.read_text(encoding="utf-8").split("## The rooms")[1]
    for file in README.parent.glob("*.py"):
        assert file.stem == "__init__" or f"`{file.stem}`" in text, file.stem
