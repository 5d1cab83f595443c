"""The kiosk on its screen: a visit by keys, arrows and touch, sizes, idleness, and each page as painted."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from textual import events

from interview.kiosk.visit import Visit
from interview.views.kiosk import painted
from interview.views.pictures import FULL, PLAIN, Glyphs
from tests import golden
from tests.screens.kiosk_kit import Make, board, board_page, keys, there, touch

GOLDEN = Path(__file__).with_name("golden_kiosk")
SIZES = ((1, 24), (4, 3), (29, 12), (80, 1), (1, 1), (300, 90))


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
