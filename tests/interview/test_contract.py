"""Every sample's JSON keeps its promise, key by key, and its ledgers add up in the printed numbers."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from pydantic import ValidationError

from interview.views.contract import Recommendation

SAMPLES = sorted((Path(__file__).parents[2] / "sample_sessions").glob("*.toml"))
RUN = "import sys; from interview.commands.main import main; sys.exit(main(sys.argv[1:]))"


@pytest.fixture(scope="module")
def printed() -> list[dict[str, object]]:
    command = [sys.executable, "-c", RUN, "recommend", *map(str, SAMPLES), "--json"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    found: list[dict[str, object]] = json.loads(done.stdout)
    return found


def test_every_sample_keeps_the_contract(printed: list[dict[str, object]]) -> None:
    assert len(printed) == len(SAMPLES) >= 16
    decisions = {"pairing"} | {
        f"{role}.{part}"
        for role in ("longer", "shorter")
        for part in ("head", "length", "balance", "shaft", "tip", "grip", "lie", "ports")
    }
    for one in printed:
        read = Recommendation.model_validate_json(json.dumps(one))
        assert {decision.decision for decision in read.decisions} == decisions
        for decision in read.decisions:
            assert decision.because, decision.decision
            if decision.start is not None:
                total = decision.start + sum(line.adjust or 0.0 for line in decision.because)
                assert total == pytest.approx(decision.pick, abs=1e-9)
            elif decision.score is not None:
                total = sum(line.points or 0.0 for line in decision.because)
                assert total == pytest.approx(decision.score, abs=1e-9)


def test_a_broken_promise_is_noticed(printed: list[dict[str, object]]) -> None:
    with pytest.raises(ValidationError):
        Recommendation.model_validate({**printed[0], "colour": "red"})
    with pytest.raises(ValidationError):
        Recommendation.model_validate({**printed[0], "settled": "yes"})
