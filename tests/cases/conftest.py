"""Golfers of the trade's cases: a few answers, the rest as an interview would leave it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rules.facts.reading import read_subject
from rules.fitting import House, Outcome, fit


@pytest.fixture(scope="session")
def case(house: House) -> Callable[..., Outcome]:
    """Fit the golfer of a case; `owned` clubs apart from the answers."""

    def run(mph: float, owned: list[dict[str, Any]] | None = None, **answers: Any) -> Outcome:
        given: dict[str, Any] = {
            "hand": "right", "pain": "no", "driver_speed": {"value": f"{mph} mph", "how": "measured"},
            "handicap": 18, "driver_loft": "11 deg", "longest_iron_loft": "27 deg",
            "lies": {"tight_fairway": 20, "fairway": 50, "rough": 20, "tee": 10}, "turf_mark": "brush",
            "miss": "straight", "confidence_fairway": 3, "confidence_hybrid": 3,
        }  # fmt: skip
        told = {id: value for id, value in {**given, **answers}.items() if value is not None}
        return fit(house, read_subject(house.base.facts, {"answers": told, "owned": owned or []}))

    return run


@pytest.fixture(scope="session")
def cautions() -> Callable[[Outcome], dict[str, str]]:
    """Return the cautions of an outcome, by rule: what each says."""
    return lambda outcome: {n.rule.id: n.text() for n in outcome.notices if n.kind == "caution"}
