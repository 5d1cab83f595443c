"""Every fault a rule base can have: refused, placed, and told in one sentence. The cases are data."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from rules.engine import RuleBaseFaults, load
from rules.engine.faults import WORDING

HERE = Path(__file__).parent
CASES: list[dict[str, Any]] = [
    case
    for file in sorted((HERE / "faults").glob("*.toml"))
    for case in tomllib.loads(file.read_text())["case"]
]
ELSEWHERE = {
    "no-folder", "not-folder", "closed-folder", "no-files", "too-many-files", "too-much", "no-base",
    "overlay-conflict", "off-unknown",
}  # fmt: skip
"""Faults of folders and overlays, tested with these."""


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
    assert "\n" not in str(fault)


def test_every_sort_of_fault_has_a_case() -> None:
    tried = {case["code"] for case in CASES}
    assert set(WORDING) - tried - ELSEWHERE == set()
