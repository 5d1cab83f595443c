"""The bay and the kiosk, each with a store of its own, driven as a person drives it."""

from __future__ import annotations

import sys
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from textual import events
from textual.pilot import Pilot

from interview.conversation import Conversation
from interview.kiosk.clock import Clock
from interview.kiosk.gate import Gate
from interview.kiosk.interview import kiosk_interview
from interview.kiosk.pin import PinFile
from interview.kiosk.reception import Reception
from interview.screens.bay.app import BayApp
from interview.screens.bay.desk import Desk, sit_down
from interview.screens.kiosk.app import KioskApp
from interview.screens.kit.pane import Pane
from interview.session import begin
from interview.store import Store
from interview.views.pictures import FULL, Glyphs, plain
from rules.fitting import House
from tests.screens.kiosk_kit import PIN, Make

sys.path.insert(0, str(Path(__file__).parents[2]))  # views of record are a module beside the tests


@dataclass
class Bay:
    """A bay under test."""

    app: BayApp
    pilot: Pilot[int]

    @property
    def desk(self) -> Desk:
        return self.app.desk

    def screen_text(self) -> str:
        """The screen as plain text, from the compositor."""
        strips = self.app.screen._compositor.render_strips()
        return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)

    def pane_text(self, selector: str) -> str:
        """What a pane shows, on one line."""
        pane = self.app.screen.query_one(selector, Pane)
        return " ".join(plain(pane._rows).split())

    def send(self, *keys: str) -> None:
        """Send keys as a terminal does, without waiting for anything."""
        for key in keys:
            self.app.post_message(events.Key(key, key if len(key) == 1 else None))

    async def settle(self) -> None:
        """Wait until nothing is being worked out."""
        for _ in range(400):
            await self.pilot.pause()
            if not self.desk.busy and not self.app.workers._workers:
                return
            await self.app.workers.wait_for_complete()
        raise AssertionError("the bay never came to rest")

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.settle()

    async def type(self, text: str) -> None:
        self.send(*text)
        await self.pilot.pause()

    async def say(self, *lines: str) -> None:
        """Type lines and enter each."""
        for line in lines:
            await self.type(line)
            await self.press("enter")


Open = Callable[..., "AsyncIterator[Bay]"]


@pytest.fixture(scope="session")
def conversation(house: House) -> Conversation:
    return Conversation.of(house)


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "sessions")


@pytest.fixture
def open_bay(conversation: Conversation, store: Store):  # type: ignore[no-untyped-def]
    """Open a bay of a size, on a session of the store, on a file, or on a new session."""

    @asynccontextmanager
    async def opened(
        width: int = 80, height: int = 24, session: str = "", glyphs: Glyphs = FULL,
        looks_ahead: bool = False, **settings: Any,
    ) -> AsyncIterator[Bay]:  # fmt: skip
        facts = conversation.base.facts
        draft = store.open(session, facts) if session else store.begin(begin("demo"))
        app = BayApp(sit_down(conversation, draft), store, glyphs=glyphs, blink=False, **settings)
        app.looks_ahead = looks_ahead
        async with app.run_test(size=(width, height), notifications=True, tooltips=True) as pilot:
            bay = Bay(app, pilot)
            await bay.settle()
            yield bay

    return opened


@pytest.fixture
def hands() -> Any:
    return SimpleNamespace(steady=1000.0, wall=datetime(2026, 5, 4, 9, 30, tzinfo=UTC))


@pytest.fixture
def make(house: House, tmp_path: Path, hands: Any) -> Iterator[Make]:
    """Make a kiosk whose clocks a test holds; at the end, whatever went wrong inside one is raised."""
    made: list[KioskApp] = []
    file = PinFile(tmp_path / "kiosk")
    file.set(PIN)
    clock = Clock(lambda: hands.steady, lambda: hands.wall)
    conversation = kiosk_interview(house)

    def one(glyphs: Glyphs = FULL, quiet: float = 0.0, foresee: bool = False) -> KioskApp:
        reception = Reception(conversation, Store(tmp_path / "sessions"), Gate(file, clock), clock)
        made.append(KioskApp(reception, clock, glyphs=glyphs, quiet=quiet, tick=3600.0, foresee=foresee))
        return made[-1]

    yield one
    for app in made:
        if app.fault is not None:
            raise app.fault
