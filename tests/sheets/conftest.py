"""Sessions made into sheets: their views, their text and their pages."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from interview.session import load
from interview.sheets.golfer import GolferSheet, golfer_sheet
from interview.sheets.paper import stamp
from interview.sheets.workshop import WorkshopSheet, workshop_sheet
from interview.views.build import BuildView, build_view
from interview.views.outcome import OutcomeView, outcome_view
from rules.facts.reading import read_subject
from rules.fitting import House, Outcome, fit
from rules.units import System

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
ANSWERS = {
    "handicap": 18, "driver_speed": {"value": "88 mph", "how": "measured"}, "airborne_of_six": 4,
    "hits_five_wood": "well", "confidence_fairway": 4, "confidence_hybrid": 2, "curve": "slice",
    "lies": {"tight_fairway": 50, "fairway": 50},
}  # fmt: skip
"""A golfer for whom both clubs are built new and the ports of both take mass."""


@dataclass(frozen=True)
class Made:
    """One session, as both sheets."""

    outcome: Outcome
    view: OutcomeView
    build: BuildView
    golfer: GolferSheet
    workshop: WorkshopSheet


@pytest.fixture(scope="session")
def made(house: House) -> Callable[..., Made]:
    """Make both sheets of a sample, or of the parts of a session."""

    def make(sample: str = "", units: System = "imperial", **parts: Any) -> Made:
        if sample:
            subject = load(SAMPLES / f"{sample}.toml", house.base.facts).subject
        else:
            subject = read_subject(house.base.facts, parts)
        outcome = fit(house, subject)
        view, build = outcome_view(outcome, units), build_view(outcome)
        mark = stamp(
            sample or "session-x", build.shop.name, view.hand, outcome.house.digest, date(2026, 5, 4)
        )
        return Made(
            outcome, view, build, golfer_sheet(outcome, view, build, mark), workshop_sheet(build, view, mark)
        )

    return make


@pytest.fixture(scope="session")
def thin(made: Callable[..., Made]) -> Made:
    """The commonest case: two new woods."""
    return made("thin-off-tight-turf")
