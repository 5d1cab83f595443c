"""Every fault a rule base can have: refused, placed, and told in one sentence. The cases are data.

The whole sentences stand in `faults_told.txt`, which a person has read (`tests/golden.py` tells how it is
written anew).
"""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from rules.engine import RuleBaseFaults, load
from rules.engine.faults import WORDING
from tests import golden

HERE = Path(__file__).parent
CASES: list[dict[str, Any]] = [
    case
    for file in sorted((HERE / "faults").glob("*.toml"))
    for case in tomllib.loads(file.read_text())["case"]
]
TOLD = HERE / "faults_told.txt"
ELSEWHERE = {
    "no-folder", "not-folder", "closed-folder", "no-files", "too-many-files", "too-much", "no-base",
    "overlay-conflict", "off-unknown",
}  # fmt: skip
"""Faults of folders and overlays, tested with these."""


SEEN: dict[str, str] = {}
"""What this run was told, for the list."""


@cache
def _told() -> dict[str, str]:
    """The whole sentence of every case: file, line, column, owner, key, what is wrong and what is wanted."""
    lines = TOLD.read_text(encoding="utf-8").splitlines()
    return dict(zip(lines[::2], (line.strip() for line in lines[1::2]), strict=True))


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_a_fault_is_found_placed_and_told(garden_folder: Path, case: dict[str, Any]) -> None:
    file = garden_folder / case.get("file", "spoilt.toml")
    file.write_text(case["text"], encoding="utf-8")
    with pytest.raises(RuleBaseFaults) as caught:
        load(garden_folder)
    (fault,) = caught.value.faults
    assert (fault.code, fault.file) == (case["code"], file)
    assert [fault.line, fault.column] == case["at"]
    assert case["says"] in str(fault)
    said = str(fault).replace(f"{garden_folder}/", "")
    assert "\n" not in said
    SEEN[case["name"]] = said
    if not golden.WRITE and said != _told().get(case["name"]):
        pytest.fail(f"now said: {said}\nwhen that is meant: {golden.again()}", pytrace=False)


def test_the_list_of_sentences_has_every_case_once() -> None:
    if golden.WRITE:
        golden.held(TOLD, "".join(f"{name}\n    {said}\n" for name, said in SEEN.items()))
    assert list(_told()) == [case["name"] for case in CASES]


def test_every_sort_of_fault_has_a_case() -> None:
    tried = {case["code"] for case in CASES}
    assert set(WORDING) - tried - ELSEWHERE == set()
