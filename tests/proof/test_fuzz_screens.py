"""Keys, pastes, sizes and closed lines in any order on the three screens: none ends them, nothing steers."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

from textual import events
from textual.pilot import Pilot

from interview.conversation import Conversation
from interview.kiosk.clock import Clock
from interview.kiosk.gate import Gate
from interview.kiosk.interview import kiosk_interview
from interview.kiosk.pin import PinFile
from interview.kiosk.reception import Reception
from interview.screens.bay.app import BayApp
from interview.screens.bay.desk import sit_down
from interview.screens.kiosk.app import KioskApp
from interview.screens.trainer.app import TrainerApp
from interview.screens.trainer.cases import CasesScreen
from interview.screens.trainer.desk import TeachingDesk
from interview.session import load
from interview.store import Store
from rules.fitting import House
from rules.lessons.case import open_case
from tests.proof.fuzz_kit import NASTY, SAMPLES, STEERS

SWEEPER = next(file for file in SAMPLES if file.stem == "sweeper")
KEYS = (
    "enter", "escape", "tab", "shift+tab", "up", "down", "left", "right", "home", "end", "pageup", "pagedown",
    "backspace", "delete", "space", "insert", "f1", "f2", "f3", "f4", "f5", "f6", "f7", "f8", "f9", "f10",
    "ctrl+a", "ctrl+e", "ctrl+k", "ctrl+u", "ctrl+p", "ctrl+n", "ctrl+o", "ctrl+r", "ctrl+l", *"0159dnqyx?/-",
)  # fmt: skip
LINES = ("85 mph", "handicap 14", "miss right", "thin heel", "why", "no idea", "42 in", "longer.length", "²")
SIZES = ((80, 24), (40, 12), (120, 40), (7, 3), (1, 1), (200, 60))
Rounds = Callable[[int, int], int]


async def shaken(app: Any, chance: random.Random, steps: int) -> None:
    """Do anything to a screen, so many times; it lives, and shows nothing that steers."""
    async with app.run_test(size=(80, 24), notifications=True, tooltips=True) as pilot:
        done: list[str] = []
        for _ in range(steps):
            done.append(await anything(app, pilot, chance))
            if not app.is_running or app.return_value is not None:
                break  # it was left, as one may
            strips = app.screen._compositor.render_strips()
            shown = "\n".join("".join(segment.text for segment in strip) for strip in strips)
            found = STEERS.search(shown)
            assert found is None, (found, done)
    assert app.fault is None, (app.fault, done)


async def anything(app: Any, pilot: Pilot[Any], chance: random.Random) -> str:
    """Press a key, paste a text, type a line and enter it, or take another size; say which."""
    what = chance.choice(("key", "key", "key", "paste", "line", "size"))
    if what == "size":
        width, height = chance.choice(SIZES)
        await pilot.resize_terminal(width, height)
        return f"{width}x{height}"
    if what == "key":
        key: str = chance.choice(KEYS)
        await pilot.press(key)
        return key
    text = chance.choice(NASTY if what == "paste" else LINES)
    (app.screen.focused or app.screen).post_message(events.Paste(text))
    await pilot.pause()
    if what == "line":
        await pilot.press("enter")
    return repr(text)


async def test_the_bay(rounds: Rounds, chance: random.Random, house: House, tmp_path: Path) -> None:
    for n in range(rounds(2, 40)):
        store = Store(tmp_path / str(n))
        store.folder.mkdir()
        store.file("sweeper").write_bytes(SWEEPER.read_bytes())
        draft = store.open("sweeper", house.base.facts)
        app = BayApp(sit_down(Conversation.of(house), draft), store, blink=False)
        app.looks_ahead = False
        await shaken(app, chance, 25)


async def test_the_kiosk(rounds: Rounds, chance: random.Random, house: House, tmp_path: Path) -> None:
    file, clock = PinFile(tmp_path / "kiosk"), Clock()
    file.set("918273")
    for _ in range(rounds(2, 60)):
        reception = Reception(kiosk_interview(house), Store(tmp_path / "sessions"), Gate(file, clock), clock)
        await shaken(KioskApp(reception, clock, quiet=0.0, tick=3600.0, foresee=False), chance, 30)


async def test_the_trainer(rounds: Rounds, chance: random.Random, house: House, tmp_path: Path) -> None:
    session = load(SWEEPER, house.base.facts)
    case = open_case(house, session.id, session.subject, session.note)
    for n in range(rounds(2, 40)):
        app = TrainerApp(TeachingDesk.of((case,), house, tmp_path / str(n), "imperial", None))
        await shaken(app, chance, 25)


async def test_a_screen_left_before_it_stands_ends_nothing(house: House, tmp_path: Path) -> None:
    """Two keys typed ahead: one opens a screen and the next leaves it, faster than it can be set up."""
    session = load(SWEEPER, house.base.facts)
    case = open_case(house, session.id, session.subject, session.note)
    app = TrainerApp(TeachingDesk.of((case,), house, tmp_path, "imperial", None))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        first = app.screen
        app.push_screen(CasesScreen(app.desk))
        app.pop_screen()
        await pilot.pause()
        assert app.screen is first
    assert app.fault is None
