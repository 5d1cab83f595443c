"""The kiosk on its screen: keys, mouse, sizes, idleness, type-ahead, and every way out that is none."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from textual import events
from textual.pilot import Pilot

from interview.kiosk.clock import Clock
from interview.kiosk.gate import Gate
from interview.kiosk.interview import kiosk_interview
from interview.kiosk.pin import PinFile
from interview.kiosk.reception import Reception
from interview.kiosk.visit import Visit
from interview.screens.kiosk.app import KioskApp
from interview.screens.kiosk.board import Board
from interview.store import Store
from interview.views.kiosk import painted
from interview.views.pictures import FULL, PLAIN, Glyphs
from rules.fitting import House
from tests import golden

PIN = "918273"
GOLDEN = Path(__file__).with_name("golden_kiosk")
SIZES = ((1, 24), (4, 3), (29, 12), (80, 1), (1, 1), (300, 90))
Make = Callable[..., KioskApp]
ATTACKS = (
    "ctrl+q", "ctrl+c", "ctrl+p", "ctrl+z", "ctrl+d", "ctrl+backslash", "ctrl+s", "ctrl+o", "ctrl+g",
    "ctrl+r", "ctrl+w", "ctrl+x", "ctrl+l", "ctrl+v", "ctrl+at", "super+c", "f1", "f2", "f3", "f4", "f5",
    "f10", "f11", "f12", "escape", "tab", "shift+tab", "home", "end", "pageup", "pagedown", "insert",
    "delete", "backspace", "question_mark", "colon", "exclamation_mark", "slash", "q", "Q", "x",
    "ctrl+escape",
    "shift+escape", "alt+f4", "ctrl+alt+delete", "ctrl+shift+q", "ctrl+f4", "ctrl+c,ctrl+c,ctrl+c",
    "escape,escape,escape", "ctrl+q,ctrl+q", "colon,q,enter", "ctrl+x,ctrl+c", "ctrl+b,d", "ctrl+a,d",
)  # fmt: skip
"""Keys and chords that leave one program or another."""
PASTES = (
    "\x03", "\x11", "q\nexit\n", "[/b]", "[@click=app.quit]x[/]", PIN, "\x1b[200~", "x" * 100_000, "\x00\x9b",
)  # fmt: skip


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


async def keys(pilot: Pilot[Any], *pressed: str) -> None:
    for one in pressed:
        await pilot.press(one)
    await pilot.pause()


def board(app: KioskApp) -> Board:
    return app.query_one(Board)


async def test_a_whole_visit_by_keys_ends_with_a_ticket(make: Make, tmp_path: Path) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await keys(pilot, "1", "1", "2")
        while app.visit.place == "asking":
            await keys(pilot, "d")
        assert app.visit.place == "clubs"
        assert "starting point that a fitter confirms" in board(app).text()
        assert not list(tmp_path.rglob("*.toml"))
        await keys(pilot, "1", "1", "1", "1")
        assert app.visit.ticket is not None
        assert " ".join(app.visit.ticket.code) in board(app).text()
        assert len(list(tmp_path.rglob("*.toml"))) == 1
        await keys(pilot, "enter")
        assert app.visit == Visit()
        assert "Which two long clubs" in board(app).text()


async def test_a_whole_visit_by_arrows_and_enter(make: Make) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await keys(pilot, "enter", "down", "down", "enter", "down", "down", "enter")
        assert app.visit.state is not None
        answers = app.visit.state.session.subject.answers
        assert (answers["hand"].value, answers["pain"].value) == ("left", "no")
        await keys(pilot, *["down"] * 6, "right", "enter")
        assert app.visit.state.session.subject.answers["handicap"].unknown


async def test_a_whole_visit_by_touch_on_a_small_and_on_a_large_screen(make: Make) -> None:
    for size in ((40, 30), (140, 44)):
        app = make()
        async with app.run_test(size=size) as pilot:
            await touch(pilot, app, "start")
            while app.visit.place == "asking":
                page = board(app).page
                drawn = [tile.press for tile in page.tiles if tile.press.startswith("answer:")]
                await touch(pilot, app, drawn[1] if drawn else "unknown")
                if app.visit.marked:
                    await touch(pilot, app, "enter")
            assert app.visit.place == "clubs", size


async def touch(pilot: Pilot[Any], app: KioskApp, press: str) -> None:
    """Touch the middle of a tile, scrolled to first where it is out of sight, as a finger would."""
    on = board(app)
    spot = on._painted.spot(press)
    assert spot is not None, (press, app.visit.place)
    if spot.y + spot.height > on.scroll_offset.y + on.size.height:
        on.scroll_to(0, spot.y, animate=False, force=True)
        await pilot.pause()
    at = (spot.x + spot.width // 2, spot.y + spot.height // 2 - on.scroll_offset.y)
    assert await pilot.click(Board, offset=at)
    await pilot.pause()


@pytest.mark.parametrize("place", ["welcome", "asking", "keypad", "clubs", "consent", "staff"])
async def test_no_key_chord_or_paste_leaves_it(make: Make, place: str) -> None:
    app = make()
    async with app.run_test(size=(80, 24), notifications=True, tooltips=True) as pilot:
        for start in range(0, len(ATTACKS), 12):
            app._come_to(there(app, place))
            for key in (key for attack in ATTACKS[start : start + 12] for key in attack.split(",")):
                app.post_message(events.Key(key, key if len(key) == 1 else None))
            await pilot.pause()
            assert app.is_running, start
            assert len(app.screen_stack) == 1, start
            assert app.visit.place != "left", start
        app._come_to(there(app, place))
        for text in PASTES:
            app.post_message(events.Paste(text))
        await pilot.pause()
        assert app.is_running
        assert board(app).text() == shown(app)
        assert not app.visit.typed, "a paste types nothing"
        for action in ("quit", "suspend_process", "command_palette", "help_quit"):
            await app.run_action(action)
            assert app.is_running
            assert len(app.screen_stack) == 1


def shown(app: KioskApp) -> str:
    """What the app should show of its visit at this size, painted afresh."""
    rows = painted(app._page(), board(app).cursor, 80, 24, FULL).rows
    return "\n".join("".join(ink.text for ink in row.inks).rstrip() for row in rows)


def there(app: KioskApp, place: str) -> Visit:
    """Come to a place the way a visitor does."""
    steps = {
        "welcome": [],
        "staff": ["staff"],
        "asking": ["start"],
        "keypad": ["start", "answer:right", "answer:no"],
    }
    at = Visit()
    for press in steps.get(place, ["start", "answer:right", "answer:no"]):
        at = app.reception.press(at, press)
    while place in ("clubs", "consent") and at.place == "asking":
        at = app.reception.press(at, "unknown")
    while place == "consent" and at.place != "consent":
        at = app.reception.press(at, "next")
    return at


async def test_the_pin_leaves_it(make: Make) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await touch(pilot, app, "staff")
        await keys(pilot, *"111222", "enter")
        assert app.is_running
        assert "not the PIN" in board(app).text()
        await keys(pilot, *PIN, "enter")
        assert PIN not in board(app).text()
    assert app.return_value == 0


async def test_sizes_down_to_one_cell_can_be_come_to_and_pressed(make: Make) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        app._come_to(there(app, "keypad"))
        for size in SIZES:
            await pilot.resize_terminal(*size)
            for key in ("down", "up", "right", "left", "pagedown", "tab"):
                app.post_message(events.Key(key, None))
            await pilot.pause()
            assert app.is_running, size


@pytest.mark.parametrize("place", ["welcome", "asking", "keypad", "clubs", "consent", "staff"])
def test_every_page_can_be_painted_for_every_small_size(make: Make, place: str) -> None:
    page = board_page(make(), place)
    for width in (*range(1, 60), 200):
        for height in (1, 3, 10, 24):
            made = painted(page, page.first, width, height, FULL)
            assert {spot.press for spot in made.spots} == {tile.press for tile in page.pressable}
            assert max(sum(len(ink.text) for ink in row.inks) for row in made.rows) <= width, (width, height)


async def test_resizing_keeps_what_was_typed_and_where_the_cursor_was(make: Make) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        app._come_to(there(app, "keypad"))
        await keys(pilot, "1", "7", "down")
        cursor = board(app).cursor
        await pilot.resize_terminal(30, 12)
        await pilot.resize_terminal(120, 40)
        assert (app.visit.typed, board(app).cursor) == ("17", cursor)


async def test_a_minute_alone_asks_and_a_quarter_later_forgets(make: Make, hands: Any) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await keys(pilot, "1", "1", "2")
        hands.steady += 59
        app.look_at_clock()
        assert "still there" not in board(app).text()
        hands.steady += 1
        app.look_at_clock()
        assert app.visit.cover == "still"
        hands.steady += 5
        app.look_at_clock()
        assert "In 10 seconds" in board(app).text()
        await keys(pilot, "down")
        hands.steady += 10
        app.look_at_clock()
        assert app.visit == Visit()
        assert "Right-handed" not in board(app).text()


async def test_somebody_who_is_there_carries_on_where_he_was(make: Make, hands: Any) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await keys(pilot, "1", "1", "2")
        before = app.visit.state
        hands.steady += 60
        app.look_at_clock()
        await keys(pilot, "1")
        assert (app.visit.cover, app.visit.state) == ("", before)
        hands.steady += 59
        app.look_at_clock()
        assert app.visit.cover == ""


async def test_typing_and_touching_count_as_being_there(make: Make, hands: Any) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        app._come_to(there(app, "keypad"))
        for press in range(5):
            hands.steady += 40
            await keys(pilot, str(press)) if press % 2 else await touch(pilot, app, "digit:1")
            app.look_at_clock()
            assert app.visit.cover == ""


async def test_a_ticket_and_a_pin_half_typed_are_forgotten_too(make: Make, hands: Any) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        app._come_to(there(app, "staff"))
        await keys(pilot, "9", "1")
        hands.steady += 60
        app.look_at_clock()
        assert app.visit == Visit()
        app._come_to(there(app, "consent"))
        await keys(pilot, "1")
        assert app.visit.place == "ticket"
        code = app.visit.ticket and app.visit.ticket.code
        for seconds in (60, 15):
            hands.steady += seconds
            app.look_at_clock()
        assert app.visit == Visit()
        assert " ".join(code or "") not in board(app).text()


async def test_a_fault_of_ours_ends_the_screen_without_a_word(
    make: Make, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(visit: Visit, pressed: str) -> Visit:
        raise ZeroDivisionError("handicap 17")

    app = make()
    monkeypatch.setattr(app.reception, "press", broken)
    with pytest.raises(ZeroDivisionError):
        async with app.run_test(size=(80, 24)) as pilot:
            await keys(pilot, "1")
    assert isinstance(app.fault, ZeroDivisionError), "the command opens a fresh screen"
    app.fault = None
    assert "17" not in "".join(capsys.readouterr())


async def test_keys_typed_ahead_answer_nothing(make: Make) -> None:
    app = make(quiet=30.0)
    async with app.run_test(size=(80, 24)) as pilot:
        await keys(pilot, "1", "1", "1", "1", "enter", "enter")
        assert app.visit.state is not None
        assert app.visit.state.session.subject.answers == {}


async def test_rapid_touches_answer_one_question(make: Make) -> None:
    app = make(quiet=30.0)
    async with app.run_test(size=(80, 24)) as pilot:
        await touch(pilot, app, "start")
        await pilot.click(Board, offset=(10, 6))
        await pilot.pause()
        assert app.visit.state is not None
        assert app.visit.state.session.subject.answers == {}


async def test_seven_bits_are_enough(make: Make) -> None:
    app = make(PLAIN)
    async with app.run_test(size=(80, 24)) as pilot:
        for place in ("welcome", "asking", "keypad", "clubs", "consent", "staff"):
            app._come_to(there(app, place))
            await pilot.pause()
            assert board(app).text().isascii(), place


def test_the_cursor_has_a_shape_of_its_own(make: Make) -> None:
    page = board_page(make(), "asking")
    shown = [
        painted(page, cursor, 80, 24, glyphs).rows
        for glyphs in (FULL, PLAIN)
        for cursor in ("", "answer:left")
    ]
    texts = ["\n".join("".join(ink.text for ink in row.inks) for row in rows) for rows in shown]
    assert len(set(texts)) == 4, "told apart without any colour"


@pytest.mark.parametrize(("width", "glyphs"), [(80, FULL), (80, PLAIN), (120, FULL)])
@pytest.mark.parametrize("place", ["welcome", "asking", "keypad", "staff"])
def test_golden_screens(make: Make, place: str, width: int, glyphs: Glyphs) -> None:
    page = board_page(make(), place)
    rows = painted(page, page.first, width, 24, glyphs).rows
    text = "\n".join("".join(ink.text for ink in row.inks).rstrip() for row in rows) + "\n"
    golden.held(GOLDEN / f"{place}_{width}_{'full' if glyphs.fine else 'plain'}.txt", text)


def board_page(app: KioskApp, place: str) -> Any:
    from interview.views.kiosk import page_of

    return page_of(app.reception.conversation, there(app, place))
