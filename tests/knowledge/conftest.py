"""The sample golfers, fitted once, and families of golfers whose bags are scaled to their speed."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from rules.facts.reading import read_subject
from rules.facts.subject import Subject
from rules.fitting import House, Outcome, fit

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
_PARTS = ("answers", "owned", "trial_clubs", "shots", "readings", "overrides")
_IRON = ((60, 37), (65, 35), (75, 31), (88, 27), (100, 24), (112, 21), (118, 20))
"""Driver head speed, mph, and loft of the longest iron that is really hit at it, degrees (invented)."""
_DRIVER = ((60, 15), (70, 14), (80, 13), (90, 11.5), (100, 10.5), (112, 9), (118, 8.5))
"""Driver head speed, mph, and a driver loft that suits it, degrees (common practice: 13 to 15 at 80)."""


def _between(x: float, table: tuple[tuple[float, float], ...]) -> float:
    for (low, at_low), (high, at_high) in pairwise(table):
        if low <= x <= high:
            return at_low + (at_high - at_low) * (x - low) / (high - low)
    raise ValueError(x)


@pytest.fixture(scope="session")
def sample_subjects(house: House) -> dict[str, Subject]:
    """Return every sample golfer by the id of his session."""
    found = {}
    for path in sorted(SAMPLES.glob("*.toml")):
        data = tomllib.loads(path.read_text(encoding="utf-8"))
        found[data["id"]] = read_subject(house.base.facts, {k: v for k, v in data.items() if k in _PARTS})
    return found


@pytest.fixture(scope="session")
def sample_outcomes(house: House, sample_subjects: Mapping[str, Subject]) -> dict[str, Outcome]:
    """Return what the road finds for every sample golfer."""
    return {id: fit(house, subject) for id, subject in sample_subjects.items()}


@pytest.fixture(scope="session")
def family(house: House) -> Callable[..., Outcome]:
    """Fit a golfer of a speed and handicap, his bag scaled to the speed; other answers by keyword."""

    def run(mph: float, handicap: float, **answers: Any) -> Outcome:
        given: dict[str, Any] = {
            "hand": "right", "pain": "no", "age_band": "adult", "handicap": handicap,
            "driver_speed": {"value": f"{mph} mph", "how": "measured"},
            "driver_loft": f"{_between(mph, _DRIVER):.3f} deg",
            "longest_iron_loft": f"{_between(mph, _IRON):.3f} deg",
            "lies": {"tight_fairway": 20, "fairway": 50, "rough": 20, "tee": 10},
            "turf": "average", "wind": "breezy", "contact": ["centred"], "miss": "straight",
            "curve": "straight", "confidence_fairway": 3, "confidence_hybrid": 3, "turf_mark": "brush",
            "flight": "medium", "tempo": "medium", "hits_five_wood": "never_tried",
            "purpose": {"par5_second": 3, "long_approach": 3, "tee": 2, "recovery": 1},
        }  # fmt: skip
        told = {id: value for id, value in {**given, **answers}.items() if value is not None}
        return fit(house, read_subject(house.base.facts, {"answers": told}))

    return run
