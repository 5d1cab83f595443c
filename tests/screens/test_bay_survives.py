"""What the bay survives: pasted steering, nasty files, any size, seven bits, no colour."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from textual import events

from interview.screens.bay.screen import BayScreen
from interview.views.bay.firm import Firm, firmness
from interview.views.pictures import PLAIN

SAMPLE = str(Path(__file__).parents[2] / "sample_sessions" / "marks-overrule-handicap.toml")


NASTY = ("[/", "[/b]", "[a='", "\x1b[2J\x1b]0;x\x07\x00\x9b31m", "\u202eevil\u2066 a\tb\nc %s {x}")


@pytest.mark.parametrize("text", NASTY)
async def test_nasty_text_is_text(open_bay: Any, text: str) -> None:
    """Pasted into every line there is, it neither becomes markup nor reaches the terminal raw."""
    async with open_bay(session=SAMPLE) as bay:
        await _pasted(bay, text)
        for open_it in (
            "action_note", "action_club", "action_orders", "action_sessions", "action_balls",
            "action_what_if",
        ):  # fmt: skip
            getattr(bay.app.screen, open_it)()
            await bay.pilot.pause()
            await _pasted(bay, text)
            if not isinstance(bay.app.screen, BayScreen):
                await bay.press("escape")
        await bay.press("f5", "f5", "down", "f6")
        await _pasted(bay, text)
        await bay.press("down")
        await _pasted(bay, text)
        await bay.press("escape")


async def _pasted(bay: Any, text: str) -> None:
    bay.app.screen.focused.post_message(events.Paste(text))
    await bay.settle()
    _no_steering(bay)
    await bay.press("enter")
    _no_steering(bay)


def _no_steering(bay: Any) -> None:
    shown_text = bay.screen_text()
    assert not any(ord(letter) < 32 and letter != "\n" for letter in shown_text)
    assert not any(0x7F <= ord(letter) < 0xA0 or letter in "\u202e\u2066" for letter in shown_text)


async def test_nasty_notes_names_and_reasons_of_a_file_are_text(open_bay: Any, store: Any) -> None:
    store.folder.mkdir(parents=True)
    store.file("nasty").write_text(
        'schema = 1\nid = "nasty"\nnote = "[/b] [a=\' \\u001b[31m"\n[answers]\nhand = "right"\n'
        '[[owned]]\nname = "[/] 3-wood"\nkind = "fairway"\nloft = "15 deg"\n'
        '[overrides."longer.length"]\nvalue = "42 in"\nreason = "[bold]why[/"\n',
        encoding="utf-8",
    )
    async with open_bay(session="nasty") as bay:
        assert "[/b] [a='" in bay.screen_text()
        for keys in (
            ("f5",),
            ("f5",),
            ("f8",),
            ("escape",),
            ("f9",),
            ("escape",),
            ("f7",),
            ("f4",),
            ("escape",),
        ):
            await bay.press(*keys)
            _no_steering(bay)


@pytest.mark.parametrize(
    "keys",
    [
        (), ("f5",), ("f5", "f5"), ("f7",), ("f8", "2"), ("f6",), ("f4",), ("f1",), ("f9",), ("f10",),
        ("f11",), ("f12",), ("f12", "enter", "4"), ("ctrl+t",),
    ],
)  # fmt: skip
async def test_every_screen_lives_at_any_size(open_bay: Any, keys: tuple[str, ...]) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press(*keys)
        odd = ((1, 1), (10, 2), (30, 3), (40, 12), (63, 9), (200, 60), (80, 24))
        for width, height in (*((w, 12) for w in range(1, 11)), *odd):
            await bay.pilot.resize_terminal(width, height)
        await bay.pilot.pause()
        assert bay.app.is_running


async def test_seven_bits_are_enough_for_everything_that_is_written(open_bay: Any) -> None:
    async with open_bay(120, 40, session=SAMPLE, glyphs=PLAIN) as bay:
        for keys in ((), ("f7",), ("f8",), ("2",), ("escape",), ("f1",), ("escape",), ("f6",)):
            await bay.press(*keys)
            bare = [line for line in bay.screen_text().splitlines() if not line.isascii()]
            filtered = bay.app.get_line_filters()
            assert not bare or any(type(one).__name__ == "SevenBits" for one in filtered), bare


async def test_focus_has_a_shape(open_bay: Any) -> None:
    """Without any colour it can be told where one is: the sign stands before the row, and nowhere else."""
    async with open_bay(session=SAMPLE) as bay:
        assert bay.screen_text().count("▸") == 2, "before the topic, and before the line"
        await bay.press("f5")
        lines = bay.screen_text().splitlines()
        assert any("▸ ◆" in line for line in lines)
        await bay.press("down")
        assert not any("▸ ◆" in line for line in bay.screen_text().splitlines())


def test_firmness_is_found_out_and_given_up(fitted: Any) -> None:
    outcome = fitted({"hand": "right", "handicap": 18, "driver_speed": "92 mph"})
    growing = firmness(outcome, lambda: False)
    first, second = next(growing), next(growing)
    assert first.sure is not None
    assert second == Firm(first.sure, steady=second.steady)
    assert second.steady in (True, False)
    assert list(firmness(outcome, lambda: True)) == []
