"""The trainer's screens over a few sample cases, driven as a trainee drives them."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from interview.screens.kit.pane import Pane
from interview.screens.trainer.app import TrainerApp
from interview.screens.trainer.desk import TeachingDesk
from interview.session import load
from interview.views.pictures import FULL, Glyphs, plain
from rules.fitting import House
from rules.lessons.case import Case, open_case

SAMPLES = Path(__file__).parents[3] / "sample_sessions"
NAMES = ("digger-scattered", "sweeper", "thin-off-tight-turf")
NOW = datetime(2026, 3, 20, 9, 0, tzinfo=UTC)


@dataclass
class Lesson:
    """A lesson under test."""

    app: TrainerApp
    pilot: Pilot[int]

    @property
    def desk(self) -> TeachingDesk:
        return self.app.desk

    @property
    def on(self) -> str:
        """Name of the screen that is up."""
        return type(self.app.screen).__name__

    def text(self) -> str:
        """The screen as plain text, from the compositor."""
        strips = self.app.screen._compositor.render_strips()
        return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)

    def pane(self, name: str) -> str:
        """What a pane shows, on one line."""
        return " ".join(plain(self.app.screen.query_one(f"#{name}", Pane)._rows).split())

    async def settle(self) -> None:
        """Wait until nothing is being worked out."""
        for _ in range(200):
            await self.pilot.pause()
            if not self.app.workers._workers:
                return
            await self.app.workers.wait_for_complete()
        raise AssertionError("the lesson never came to rest")

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.settle()

    async def type(self, text: str) -> None:
        """Put text into the line that is focused, as a paste would, and wait for what follows."""
        line = self.app.focused
        assert isinstance(line, Input), line
        line.insert_text_at_cursor(text)
        await self.settle()

    async def choose(self, target: str) -> None:
        """Put the cursor of the list on something."""
        pane = self.app.screen.query_one("#list", Pane)
        pane.chosen = target
        await self.settle()
        assert pane.chosen == target


@pytest.fixture(scope="session")
def cases(house: House) -> tuple[Case, ...]:
    """A digger, a sweeper, and the commonest case."""
    found = []
    for name in NAMES:
        session = load(SAMPLES / f"{name}.toml", house.base.facts)
        found.append(open_case(house, session.id, session.subject, session.note))
    return tuple(found)


@pytest.fixture
def open_lesson(house: House, cases: tuple[Case, ...]):  # type: ignore[no-untyped-def]
    """Open a lesson of a size; with a class where a folder is named."""

    @asynccontextmanager
    async def opened(
        width: int = 80, height: int = 24, folder: Path | None = None, glyphs: Glyphs = FULL
    ) -> AsyncIterator[Lesson]:
        desk = TeachingDesk.of(cases, house, folder)
        desk.now, desk.seed = (lambda: NOW), 1
        app = TrainerApp(desk, glyphs=glyphs, blink=False)
        async with app.run_test(size=(width, height), notifications=True, tooltips=True) as pilot:
            lesson = Lesson(app, pilot)
            await lesson.settle()
            yield lesson

    return opened
