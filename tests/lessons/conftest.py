"""Cases to learn from: some of the sample sessions, opened once."""

from __future__ import annotations

from pathlib import Path

import pytest

from interview.session import load
from rules.house import House
from rules.lessons.case import Case, open_case

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
CHOSEN = (
    "thin-off-tight-turf",
    "fast-and-centred",
    "his-wood-to-shorten",
    "knows-almost-nothing",
    "windy-links",
)


def sample(house: House, name: str) -> Case:
    session = load(SAMPLES / f"{name}.toml", house.base.facts)
    return open_case(house, session.id, session.subject, session.note)


@pytest.fixture(scope="session")
def cases(house: House) -> tuple[Case, ...]:
    """A few cases that differ."""
    return tuple(sample(house, name) for name in CHOSEN)


@pytest.fixture(scope="session")
def thin(cases: tuple[Case, ...]) -> Case:
    """A golfer who catches the ball thin off tight turf."""
    return cases[0]
