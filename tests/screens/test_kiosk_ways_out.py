"""The kiosk's ways out that are none: keys, chords, pastes, faults and presses sent ahead; and the PIN's."""

from __future__ import annotations

from typing import Any

import pytest
from textual import events

from interview.kiosk.visit import Visit
from interview.screens.kiosk.board import Board
from tests.screens.kiosk_kit import PIN, Make, board, keys, shown, there, touch

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
