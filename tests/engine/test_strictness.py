"""One thing wrong at a time, in entries that were right: what the strict loader says, as it was read.

The entries and their changes are data, in `strictness.toml`; the answers stand in
`pages/strictness`, a file an entry (`tests/golden.py` tells how they are written anew).
"""

from __future__ import annotations

import shutil
import tomllib
from pathlib import Path
from typing import Any

import pytest
import tomli_w

from rules.engine import RuleBaseFaults, load
from tests import golden

HERE = Path(__file__).parent
DATA = tomllib.loads((HERE / "strictness.toml").read_text(encoding="utf-8"))
Row = dict[str, Any]
SOUND: dict[str, Row] = DATA["sound"]
KINDS = {
    "number": "fact", "choice": "fact", "set": "fact", "shares": "fact", "quantity": "assumption",
    "word": "assumption", "words": "assumption", "pick": "decision", "amount": "decision", "points": "rule",
    "ramp": "rule", "adjust": "rule", "caution": "rule",
}  # fmt: skip


def changed(entry: Row, row: Row) -> Row:
    """Return an entry with some keys changed, and those that are gone left out."""
    gone = row.get("gone", ())
    return {key: value for key, value in {**entry, **row}.items() if key not in gone and key != "gone"}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("strict") / "garden"
    shutil.copytree(HERE / "garden", place)
    return place


def told(folder: Path, name: str, row: Row) -> str:
    """What loading says when one entry among sound ones is changed."""
    entries: dict[str, list[Row]] = {"assumption": [], "fact": [], "decision": [], "rule": []}
    for other, kind in KINDS.items():
        entries[kind].append(changed(SOUND[other], row if other == name else {}))
    base = changed(SOUND["base"], row if name == "base" else {})
    (folder / "base.toml").write_text(tomli_w.dumps(base), encoding="utf-8")
    (folder / "extra.toml").write_text(tomli_w.dumps(entries), encoding="utf-8")
    try:
        load(folder)
    except RuleBaseFaults as problem:
        return "".join(f"    {fault}\n" for fault in problem.faults).replace(f"{folder}/", "")
    return "    loads\n"


@pytest.mark.parametrize("part", DATA["changes"], ids=lambda part: part["entry"])
def test_every_change_is_told_as_it_was_read(folder: Path, part: Row) -> None:
    name = part["entry"]
    page = "".join(f"{name} {str(row)[:200]}\n{told(folder, name, row)}" for row in part["rows"])
    golden.held(HERE / "pages" / "strictness" / f"{name}.txt", page)
