"""A kiosk without a screen, with clocks and a store that a test holds in its hand."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from interview.conversation import Conversation
from interview.kiosk.clock import Clock
from interview.kiosk.gate import Gate
from interview.kiosk.interview import kiosk_interview
from interview.kiosk.pin import PinFile
from interview.kiosk.reception import Reception
from interview.kiosk.visit import Visit
from interview.store import Store, local_day
from rules.fitting import House

PIN = "918273"


@pytest.fixture
def hands() -> Any:
    """The hands of both clocks: `.steady` in seconds, `.wall` as a moment; a test moves them."""
    return SimpleNamespace(steady=1000.0, wall=datetime(2026, 5, 4, 9, 30, tzinfo=UTC))


@pytest.fixture
def clock(hands: Any) -> Clock:
    """Both clocks."""
    return Clock(lambda: hands.steady, lambda: hands.wall)


@pytest.fixture
def pass_time(hands: Any) -> Callable[[float], None]:
    """Let seconds pass on both clocks."""

    def on(seconds: float) -> None:
        hands.steady += seconds
        hands.wall += timedelta(seconds=seconds)

    return on


@pytest.fixture
def pin_file(tmp_path: Path) -> PinFile:
    """A file with a staff PIN in it."""
    file = PinFile(tmp_path / "kiosk")
    file.set(PIN)
    return file


@pytest.fixture
def shelf(tmp_path: Path, hands: Any) -> Store:
    """An empty store, which reads the same clock."""
    return Store(tmp_path / "sessions", lambda: local_day(hands.wall))


@pytest.fixture(scope="session")
def conversation(house: House) -> Conversation:
    """The interview on the real road."""
    return kiosk_interview(house)


@pytest.fixture
def reception(conversation: Conversation, shelf: Store, pin_file: PinFile, clock: Clock) -> Reception:
    """A reception with an empty store."""
    return Reception(conversation, shelf, Gate(pin_file, clock), clock)


@pytest.fixture
def walk(reception: Reception) -> Callable[..., Visit]:
    """Press one thing after another, from the welcome or from a visit."""

    def on(*pressed: str, visit: Visit | None = None) -> Visit:
        at = visit or Visit()
        for one in pressed:
            at = reception.press(at, one)
        return at

    return on


@pytest.fixture
def to_the_end(reception: Reception, walk: Callable[..., Visit]) -> Callable[..., Visit]:
    """Answer every question, by name where told how and with I don't know elsewhere, up to the two clubs."""

    def on(visit: Visit | None = None, **answers: str) -> Visit:
        at = visit or walk("start")
        while at.place == "asking":
            assert at.state is not None
            said = answers.get(at.state.asking or "", "unknown")
            if said.replace(".", "").isdigit() and f"answer:{said}" != said and len(said) > 1:
                at = walk(*(f"digit:{digit}" for digit in said), "enter", visit=at)
            else:
                at = walk(said if said == "unknown" else f"answer:{said}", visit=at)
                if at.marked:
                    at = walk("enter", visit=at)
        return at

    return on
