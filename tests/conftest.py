"""What many tests need: the house, loaded once, and golfers made of a few answers."""

from __future__ import annotations

import fcntl
import os
import sys
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

from rules.facts.reading import read_subject
from rules.facts.subject import Subject
from rules.fitting import House, Outcome, fit, load_house

sys.path.insert(0, str(Path(__file__).parents[1]))  # what tests share are modules beside them

from tests import golden

settings.register_profile("gate", derandomize=True)
settings.register_profile("hunt", derandomize=False, print_blob=True)
settings.load_profile(os.environ.get("TURFPAIR_HYPOTHESIS", "gate"))
# The gate tries the same examples each time, so that a red one means a change; a hunt tries others.


@contextmanager
def _held(name: str, how: int) -> Iterator[None]:
    """Hold a lock that the workers of one run share."""
    run = os.environ.get("PYTEST_XDIST_TESTRUNUID", str(os.getpid()))
    with (Path(tempfile.gettempdir()) / f"turfpair-tests-{run}-{name}").open("w") as file:
        fcntl.flock(file, how)
        yield


def pytest_configure(config: pytest.Config) -> None:
    """Refuse to write texts of record side by side: several tests write one file."""
    if golden.WRITE and config.getoption("numprocesses", None):
        raise pytest.UsageError("TURFPAIR_GOLDEN=write wants -n 0")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Keep only the tests that hold a text of record, where such texts are written anew."""
    if not golden.WRITE:
        return
    holding = [item for item in items if getattr(getattr(item, "module", None), "golden", None) is golden]
    config.hook.pytest_deselected(items=[item for item in items if item not in holding])
    items[:] = holding


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
    """Run a benchmark alone, other tests side by side: its ratios would measure the neighbour.

    Everybody passes one door, so that a benchmark waiting for an empty house is not overtaken.
    """
    alone = "benchmarks" in item.path.parts
    with _held("door", fcntl.LOCK_EX):
        house = _held("house", fcntl.LOCK_EX if alone else fcntl.LOCK_SH)
        house.__enter__()
    try:
        return (yield)
    finally:
        house.__exit__(None, None, None)


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
