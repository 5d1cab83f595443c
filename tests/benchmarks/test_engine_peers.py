"""The rule engine against engines from the package index: the same rules, the same scores, one run."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.benchmarks.engine_race import (
    CLIPS,
    DURABLE,
    FAST,
    IN_USE,
    MORE,
    PARTLY,
    PLENTY,
    TRACED,
    ZEN,
    our_base,
    our_runners,
    peers,
    rates,
    table,
)


def test_engine_against_its_peers(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    mine, others = our_runners(our_base(tmp_path)), peers()
    found = rates({**mine, **{name: runner for name, runner in others.items() if runner}})
    traced = found[TRACED]
    with capsys.disabled():
        print("\n" + table(found, [*mine, *others], traced))
    assert found[FAST] > traced
    if not any(others.values()):
        pytest.skip("no peer is installed: pip install turfpair[bench]")
    assert min(traced, found[IN_USE]) >= PLENTY * max(found.get(ZEN, 0), found.get(CLIPS, 0))
    assert traced >= MORE * found.get(DURABLE, 0)
    assert found[PARTLY] >= MORE * max(found.get(name, 0) for name in others)
