"""A kiosk that nobody is at, or that is touched where nothing is, stays what it was."""

from __future__ import annotations

import os
import signal
from dataclasses import replace
from typing import Any

import pytest
from textual.pilot import Pilot

from interview.kiosk.visit import Visit
from interview.screens.kiosk.app import KioskApp
from interview.screens.kiosk.board import Board
from interview.views.kiosk.page import Page
from tests.screens.kiosk_kit import Make, board, keys, there


async def test_an_interrupt_is_what_a_chord_might_send_and_leaves_nothing(
    make: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "_exit", lambda status: None)
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await keys(pilot, "1")
        before = app.visit
        app.leave_for(signal.SIGINT)
        await pilot.pause()
        assert app.is_running
        assert app.visit is before
        app.leave_for(signal.SIGTERM)
    assert app.return_value == 128 + signal.SIGTERM


async def test_a_welcome_that_nobody_reads_asks_nobody(make: Make, hands: Any) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        for _ in range(3):
            hands.steady += 60
            app.look_at_clock()
            await pilot.pause()
            assert app.visit == Visit()


async def test_a_press_beside_the_tiles_presses_nothing(make: Make) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await keys(pilot, "1")
        before, drawn = app.visit, board(app)._painted
        free = next((x, y) for y in range(24) for x in range(80) if drawn.at(x, y) is None)
        await pilot.click(Board, offset=free)
        await pilot.pause()
        assert app.visit is before


async def test_tab_goes_round_and_round_among_what_can_be_pressed(make: Make) -> None:
    app = make()
    async with app.run_test(size=(80, 24)) as pilot:
        await round_and_round(pilot, app)
        bare = Page("Nothing", ("Nothing can be pressed here.",), ())
        board(app).show(bare, same=False)
        board(app).follow(1)
        assert board(app).cursor == ""


async def round_and_round(pilot: Pilot[Any], app: KioskApp) -> None:
    """Go once round by tab, and once back."""
    tiles = [tile.press for tile in board(app).page.pressable]
    for key in ("tab", "shift+tab"):
        seen = []
        for _ in tiles:
            await keys(pilot, key)
            seen.append(board(app).cursor)
        assert sorted(seen) == sorted(tiles)


async def test_a_question_that_lies_over_a_page_hears_only_its_own_answers(make: Make) -> None:
    app = make()
    for cover in ("why", "over", "still"):
        covered = replace(there(app, "asking"), cover=cover)
        for pressed in ("answer:right", "unknown", "enter", "next", "yes", ""):
            assert app.reception.press(covered, pressed) == covered
        assert app.reception.press(covered, "here").cover == ""
        assert app.reception.press(covered, "afresh") == Visit()


async def test_the_last_pages_hear_nothing_that_they_do_not_offer(make: Make) -> None:
    reception = make().reception
    clubs = there(make(), "clubs")
    for pressed in ("answer:right", "yes", "guardian", "digit:1", ""):
        assert reception.press(clubs, pressed) == clubs
    ticket = replace(clubs, place="ticket")
    assert reception.press(ticket, "next") == ticket
    assert reception.press(replace(clubs, place="consent"), "back").place == "mind"
    assert reception.press(replace(clubs, place="nothing"), "next").place == "consent"
    back = reception.press(clubs, "back")
    assert back.place == "asking"
    fresh = replace(clubs, place="clubs", state=None)
    assert reception.press(fresh, "back") == fresh, "there is no question to go back to"
