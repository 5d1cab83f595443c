"""What the gallery shows: real screens of the product, come to the same way by a camera and by a test."""

from __future__ import annotations

import tempfile
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import AbstractAsyncContextManager, asynccontextmanager, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any

from textual.app import App

from interview.commands.papers import Reader, papers
from interview.conversation import Conversation
from interview.kiosk.clock import Clock
from interview.kiosk.gate import Gate
from interview.kiosk.interview import kiosk_interview
from interview.kiosk.pin import PinFile
from interview.kiosk.reception import Reception
from interview.kiosk.visit import Visit
from interview.screens.bay.app import BayApp
from interview.screens.bay.desk import sit_down
from interview.screens.kiosk.app import KioskApp
from interview.screens.trainer.app import TrainerApp
from interview.screens.trainer.chart import ChartScreen
from interview.screens.trainer.desk import TeachingDesk
from interview.screens.trainer.reveal import RevealScreen
from interview.session import load
from interview.store import Store
from interview.views.kiosk import page_of
from interview.views.pictures import FULL
from rules.fitting import fit, load_house
from rules.lessons.case import Case, open_case
from rules.lessons.marks import mark
from rules.lessons.predict import predicted

ROOT = Path(__file__).parents[2]
SAMPLES = ROOT / "sample_sessions"
BAY = "thin-off-tight-turf"
CASES = ("digger-scattered", "sweeper", BAY)
FOUND = ("answer:right", "answer:no", "answer:thin", "answer:fairway")
"""What the visitor in the pictures answers where it is asked; to all else he says that he doesn't know."""
GUESSES = (
    ("pairing", "fairway-19+hybrid-22.5", ("turf_mark", "hits_five_wood", "handicap")),
    ("longer.length", "41 in", ("handicap",)),
    ("longer.balance", "D1", ("tempo",)),
    ("longer.ports", "toe", ("miss",)),
    ("shorter.length", "39.5 in", ()),
)
"""What the trainee in the picture predicted, and why."""


@dataclass(frozen=True)
class Scene:
    """One picture of the gallery."""

    name: str
    width: int
    height: int
    come_to: Callable[[Scene], AbstractAsyncContextManager[App[Any]]]

    def shown(self, app: App[Any]) -> str:
        """The screen as plain text, from the compositor."""
        strips = app.screen._compositor.render_strips()
        return "".join("".join(part.text for part in strip).rstrip() + "\n" for strip in strips)


async def _rest(app: App[Any], pilot: Any) -> None:
    """Wait until nothing is being worked out."""
    for _ in range(400):
        await pilot.pause()
        if not app.workers._workers and not getattr(getattr(app, "desk", None), "busy", False):
            return
        await app.workers.wait_for_complete()
    raise AssertionError("the screen never came to rest")


@asynccontextmanager
async def _bay(scene: Scene) -> AsyncIterator[App[Any]]:
    """A fitting in the bay, as far as it goes."""
    with tempfile.TemporaryDirectory() as folder:
        house, store = load_house(), Store(Path(folder))
        desk = sit_down(Conversation.of(house), store.open(str(SAMPLES / f"{BAY}.toml"), house.base.facts))
        app = BayApp(desk, store, glyphs=FULL, blink=False)
        async with app.run_test(size=(scene.width, scene.height)) as pilot:
            await _rest(app, pilot)
            yield app


Stop = Callable[[set[str]], bool]
"""Says of the tiles on a page whether it is the one to show."""


def _question(tiles: set[str]) -> bool:
    return "answer:thin" in tiles


def _clubs(_: set[str]) -> bool:
    return False


@contextmanager
def _reception() -> Iterator[tuple[Reception, Clock]]:
    """A kiosk nobody has been at, at a moment that stays."""
    with tempfile.TemporaryDirectory() as folder:
        clock = Clock(lambda: 1000.0, lambda: datetime(2026, 5, 4, 9, 30, tzinfo=UTC))
        pin = PinFile(Path(folder) / "kiosk")
        pin.set("918273")
        interview = kiosk_interview(load_house())
        yield Reception(interview, Store(Path(folder)), Gate(pin, clock), clock), clock


def _visited(reception: Reception, stop: Stop) -> tuple[Visit, list[str]]:
    """Come to a page by the tiles that are there, or to the clubs; return also what was pressed."""
    pressed = ["start"]
    visit = reception.press(Visit(), "start")
    while visit.place == "asking":
        tiles = {tile.press for tile in page_of(reception.conversation, visit).tiles}
        if stop(tiles):
            break
        pressed.append(next((one for one in FOUND if one in tiles), "unknown"))
        visit = reception.press(visit, pressed[-1])
        if visit.marked:
            pressed.append("enter")
            visit = reception.press(visit, "enter")
    return visit, pressed


def _kiosk(stop: Stop) -> Callable[[Scene], AbstractAsyncContextManager[App[Any]]]:
    """A visit at the kiosk, up to a page on which there are these tiles, or to its clubs."""

    @asynccontextmanager
    async def come_to(scene: Scene) -> AsyncIterator[App[Any]]:
        with _reception() as (reception, clock):
            app = KioskApp(reception, clock, glyphs=FULL, quiet=0.0, tick=3600.0, foresee=False)
            async with app.run_test(size=(scene.width, scene.height)) as pilot:
                app._come_to(_visited(reception, stop)[0])
                await _rest(app, pilot)
                yield app

    return come_to


@dataclass(frozen=True)
class Browsed:
    """One picture of the kiosk in a browser."""

    name: str
    width: int
    height: int
    touch: bool
    stop: Stop

    def shown(self) -> tuple[str, list[str]]:
        """All that the browser is given to show, and the tiles pressed on the way there."""
        with _reception() as (reception, _):
            visit, pressed = _visited(reception, self.stop)
            given = repr(page_of(reception.conversation, visit))
        page = sorted((ROOT / "interview" / "web" / "page").glob("page.*"))
        return given + "".join(file.read_text(encoding="utf-8") for file in page), pressed


BROWSED = (
    Browsed("kiosk-browser-desktop", 1280, 800, False, _clubs),
    Browsed("kiosk-browser-phone", 390, 844, True, _question),
)
"""Every picture of a browser that the gallery holds."""


@asynccontextmanager
async def _lesson(scene: Scene) -> AsyncIterator[tuple[TrainerApp, Any]]:
    """A lesson over a few cases."""
    house = load_house()
    sessions = [load(SAMPLES / f"{name}.toml", house.base.facts) for name in CASES]
    cases = tuple(open_case(house, one.id, one.subject, one.note) for one in sessions)
    app = TrainerApp(TeachingDesk.of(cases, house, None), glyphs=FULL, blink=False)
    async with app.run_test(size=(scene.width, scene.height)) as pilot:
        yield app, pilot


@asynccontextmanager
async def _map(scene: Scene) -> AsyncIterator[App[Any]]:
    """Where an answer goes in the rule base, and how much it moves."""
    async with _lesson(scene) as (app, pilot):
        await app.push_screen(ChartScreen(app.desk))
        await pilot.press(*"turf", "space", "m", "down", "f2")
        await _rest(app, pilot)
        yield app


@asynccontextmanager
async def _marked(scene: Scene) -> AsyncIterator[App[Any]]:
    """Predictions of one case, marked."""
    async with _lesson(scene) as (app, pilot):
        case: Case = app.desk.cases[0]
        marks = [mark(case, predicted(case, *guess)) for guess in GUESSES]
        await app.push_screen(RevealScreen(app.desk, case, marks))
        await _rest(app, pilot)
        yield app


SCENES = (
    Scene("bay-80x24", 80, 24, _bay),
    Scene("bay-120x40", 120, 40, _bay),
    Scene("kiosk-question-80x24", 80, 24, _kiosk(_question)),
    Scene("kiosk-outcome-80x24", 80, 24, _kiosk(_clubs)),
    Scene("trainer-map", 100, 28, _map),
    Scene("trainer-marked", 100, 28, _marked),
)
"""Every picture of a screen that the gallery holds."""


def _sheet(reader: Reader) -> str:
    """One sheet of the fitting in the bay as a page, of a day and a digest that stay."""
    house = load_house()
    session = load(SAMPLES / f"{BAY}.toml", house.base.facts)
    made = papers(fit(house, session.subject), session)
    return made._replace(stamp=made.stamp._replace(printed="2026-03-20", rules="0123456789")).page(reader)


SHEETS: dict[str, Callable[[], str]] = {
    "sheet-golfer": partial(_sheet, "golfer"),
    "sheet-workshop": partial(_sheet, "workshop"),
}
"""Every picture of a sheet that the gallery holds, and what makes the page."""
