"""The kiosk over the hours and in a narrow terminal: tickets lapse, no word is cut, no mouse is needed."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from interview.kiosk.clock import Clock
from interview.kiosk.gate import Gate
from interview.kiosk.interview import kiosk_interview
from interview.kiosk.pin import PinFile
from interview.kiosk.reception import Reception
from interview.screens.kiosk.app import KioskApp
from interview.screens.kiosk.board import Board
from interview.session import begin, with_record
from interview.store import Store, local_day
from rules.fitting import House

Make = Callable[..., KioskApp]


@pytest.fixture
def hands() -> Any:
    return SimpleNamespace(steady=1000.0, wall=datetime(2026, 5, 4, 9, 30, tzinfo=UTC))


@pytest.fixture
def make(house: House, tmp_path: Path, hands: Any) -> Make:
    """Make a kiosk whose clocks a test holds."""
    file = PinFile(tmp_path / "kiosk")
    file.set("918273")
    clock = Clock(lambda: hands.steady, lambda: hands.wall)
    store = Store(tmp_path / "sessions", lambda: local_day(hands.wall))

    def one() -> KioskApp:
        reception = Reception(kiosk_interview(house), store, Gate(file, clock), clock)
        return KioskApp(reception, clock, quiet=0.0, tick=3600.0, foresee=False)

    return one


def tickets(folder: Path) -> list[str]:
    return sorted(file.stem for file in folder.glob("*.toml"))


def keep_ticket(folder: Path, id: str, until: date) -> None:
    draft = Store(folder, lambda: until).begin(begin(id, voice="customer"))
    draft.save(with_record(draft.session, consent=True, expires=until))


async def test_a_lapsed_ticket_lives_no_hour_longer(make: Make, hands: Any, tmp_path: Path) -> None:
    """Looked for at the start and every hour after it, not under the fingers of each visitor."""
    folder = tmp_path / "sessions"
    keep_ticket(folder, "before", date(2026, 5, 3))
    keep_ticket(folder, "today", date(2026, 5, 4))
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert tickets(folder) == ["today"]
        hands.wall += timedelta(days=1)
        for key in ("1", "s", "2"):
            await pilot.press(key)
        assert app.visit.place == "welcome"
        assert tickets(folder) == ["today"], "a visitor does not wait for it"
        hands.steady += 3599.0
        app.look_at_clock()
        assert tickets(folder) == ["today"]
        hands.steady += 1.0
        app.look_at_clock()
        assert tickets(folder) == []


async def test_no_word_is_cut_where_the_page_scrolls(make: Make) -> None:
    app = make()
    async with app.run_test(size=(40, 12)) as pilot:
        await pilot.pause()
        board = app.query_one(Board)
        assert board.show_vertical_scrollbar
        shown = board.scrollable_content_region.width
        assert all(len(line) <= shown for line in board.text().split("\n"))
        assert "Nothing is kept unless" in " ".join(board.text().split())
        await pilot.resize_terminal(80, 40)
        await pilot.pause()
        assert not board.show_vertical_scrollbar


@pytest.mark.parametrize("size", [(80, 24), (40, 12), (12, 9)])
async def test_every_tile_is_reached_and_pressed_without_a_mouse(size: tuple[int, int], make: Make) -> None:
    app = make()
    async with app.run_test(size=size) as pilot:
        for keys in ((), ("1",), ("1", "2"), ("1", "2", "2"), ("1", "w"), ("1", "s")):
            app.visit = app.reception.press(app.visit, "afresh")
            app._come_to(type(app.visit)())
            for key in keys:
                await pilot.press(key)
            board = app.query_one(Board)
            reached = set()
            for _ in board.page.pressable:
                await pilot.press("tab")
                reached.add(board.cursor)
                spot = board._painted.spot(board.cursor)
                assert spot is not None
                assert spot.y < board.scroll_offset.y + board.size.height, "it is scrolled to"
                assert spot.y + spot.height > board.scroll_offset.y
            assert reached == {tile.press for tile in board.page.pressable}
        await pilot.press("enter")
        assert app.is_running
