"""What many tests need: the house, loaded once, and golfers made of a few answers."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from typing import Any

import pytest
from hypothesis import settings

from rules.facts.reading import read_subject
from rules.facts.subject import Subject
from rules.fitting import House, Outcome, fit, load_house

settings.register_profile("gate", derandomize=True)
settings.register_profile("hunt", derandomize=False, print_blob=True)
settings.load_profile(os.environ.get("TURFPAIR_HYPOTHESIS", "gate"))
# The gate tries the same examples each time, so that a red one means a change; a hunt tries others.


@pytest.fixture(scope="session")
def house() -> House:
    """The house's own rules and the demo shop."""
    return load_house()


@pytest.fixture
def subject(house: House) -> Callable[..., Subject]:
    """Make a subject from answers as they are typed; other parts of a session by keyword."""

    def make(answers: Mapping[str, Any] | None = None, **parts: Any) -> Subject:
        return read_subject(house.base.facts, {"answers": dict(answers or {}), **parts})

    return make


@pytest.fixture
def fitted(house: House, subject: Callable[..., Subject]) -> Callable[..., Outcome]:
    """Run the road for a golfer made of a few answers."""

    def run(answers: Mapping[str, Any] | None = None, **parts: Any) -> Outcome:
        return fit(house, subject(answers, **parts))

    return run
