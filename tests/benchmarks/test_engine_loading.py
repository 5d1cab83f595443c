"""Loading a rule base against reading its TOML alone: strictness must not cost more than the reading."""

from __future__ import annotations

import time
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

from rules.engine import load

MOST = 4.0
"""Times the bare TOML reading that a whole load, plans included, may take."""


def quickest(job: Callable[[], object]) -> float:
    """Best CPU time of several."""
    best = float("inf")
    for _ in range(5):
        began = time.process_time()
        job()
        best = min(best, time.process_time() - began)
    return best


def test_loading_costs_little_beside_reading(
    pytestconfig: pytest.Config, capsys: pytest.CaptureFixture[str]
) -> None:
    folder: Path = pytestconfig.rootpath / "rules" / "knowledge"
    texts = [file.read_text(encoding="utf-8") for file in sorted(folder.glob("*.toml"))]

    def whole() -> None:
        base = load(folder)
        for decision in base.decisions:
            base.plan(decision)

    toml, loaded = quickest(lambda: [tomllib.loads(text) for text in texts]), quickest(whole)
    with capsys.disabled():
        print(
            f"\nTOML alone {toml * 1e3:.0f} ms, loaded, checked and laid out {loaded * 1e3:.0f} ms:"
            f" {loaded / toml:.1f}x ({sum(map(len, texts)):,} characters)"
        )
    assert loaded <= MOST * toml
