"""Trials made of a few balls."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rules.evidence.trial import Trial, trial
from rules.facts.subject import Subject
from rules.fitting import House

ANSWERS: dict[str, Any] = {
    "hand": "right", "handicap": 15, "driver_speed": {"value": "92 mph", "how": "measured"}, "pain": "no",
    "flight": "medium", "turf_mark": "brush", "airborne_of_six": 4, "contact": "thin", "miss": "right",
    "lies": {"tight_fairway": 30, "fairway": 50, "rough": 10, "tee": 10}, "longest_iron_loft": "27 deg",
}  # fmt: skip
OWN = {"name": "own", "kind": "fairway", "loft": {"value": "15 deg", "how": "stamped"}}
DEMO = {"name": "demo", "kind": "fairway", "loft": "18 deg"}
THIRD = {"name": "third", "kind": "hybrid", "loft": "21 deg"}


@pytest.fixture
def tried(house: House, subject: Callable[..., Subject]) -> Callable[..., Trial]:
    """Run a trial of balls written as in the session file, with any answers besides."""

    def run(balls: list[dict[str, Any]], against: str | None = None, **answers: Any) -> Trial:
        made = subject({**ANSWERS, **answers}, owned=[OWN], trial_clubs=[DEMO, THIRD], shots=balls)
        return trial(house, made, against)

    return run
