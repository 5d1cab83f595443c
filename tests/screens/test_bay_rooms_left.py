"""The bay's rooms: what is left, refused or looked at in passing changes nothing there."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from textual import events

from interview.screens.bay import papers
from interview.screens.bay.papers import PapersScreen
from interview.screens.bay.screen import BayScreen
from interview.screens.bay.whatif import WhatIfScreen
from interview.screens.bay.why import Found, WhyScreen
from interview.screens.kit.pane import Pane
from interview.views.pictures.ink import row
from rules.inquiry.study import Study

SAMPLE = str(Path(__file__).parents[2] / "sample_sessions" / "marks-overrule-handicap.toml")


async def test_a_copy_says_why_a_change_was_not_made_and_goes_back_line_by_line(open_bay: Any) -> None:
    async with open_bay() as bay:
        bay.app.screen.open_what_if("gibberish of nobody")
        await bay.settle()
        screen = bay.app.screen
        assert isinstance(screen, WhatIfScreen)
        line = screen.query_one("#line")
        assert line.value == "gibberish of nobody", "what is no change waits in the line"  # type: ignore[attr-defined]
        line.value = ""  # type: ignore[attr-defined]
        await bay.say("handicap 99")
        assert screen.changes == ()
        assert "54" in bay.pane_text("#reads")
        screen._named(None)
        assert line.value == "", "no name was chosen"  # type: ignore[attr-defined]
        screen.query_one("#beside").focus()
        await bay.press("escape")
        assert bay.app.focused is line
        await bay.press("escape")
        assert isinstance(bay.app.screen, BayScreen)
        assert not bay.desk.state.session.subject.answers


async def test_a_study_that_comes_while_another_page_is_read_is_kept_for_later(
    open_bay: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f8")
        screen = bay.app.screen
        assert isinstance(screen, WhyScreen)
        shown = bay.pane_text("#lines")
        screen._found(Found(Study("a", None, complete=True)))
        assert bay.pane_text("#lines") == shown
        monkeypatch.setattr(screen, "_study", lambda: pytest.fail("it was studied already"))
        await bay.press("4")
        assert bay.pane_text("#lines") != shown


async def test_an_amount_has_no_rivals_to_look_through(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        bay.app.screen.open_why("longer.length")
        await bay.settle()
        screen = bay.app.screen
        assert isinstance(screen, WhyScreen)
        screen.action_rival(1)
        assert (screen.view, screen.rival) == (0, 0)
        await bay.press("2")
        assert "There is no rival" in bay.pane_text("#lines")


async def test_sheets_are_set_anew_for_another_width_and_a_folder_that_is_left_stays(
    open_bay: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    widths: list[int] = []

    def text(reader: str, width: int) -> str:
        widths.append(width)
        return f"{reader}'s page"

    sheets: Any = SimpleNamespace(text=text)
    screen = PapersScreen(lambda: sheets, tmp_path)
    screen.action_write()
    assert not list(tmp_path.iterdir()), "there is nothing to write yet"
    async with open_bay(100, 30) as bay:
        bay.app.push_screen(screen)
        await bay.settle()
        assert widths == [98, 98]
        assert "golfer's page" in bay.pane_text("#sheet")
        await bay.pilot.resize_terminal(90, 30)
        await bay.settle()
        assert widths == [98, 98, 88, 88]
        for named in (None, "  "):
            screen._named(named)
        assert screen._folder == tmp_path
        told: list[object] = []
        with monkeypatch.context() as overtaken:
            overtaken.setattr(screen, "post_message", told.append)
            overtaken.setattr(papers, "get_current_worker", partial(SimpleNamespace, is_cancelled=True))
            screen._work()
        assert told == [], "a newer width has overtaken it"


async def test_a_click_beside_every_row_chooses_nothing(
    open_bay: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with open_bay() as bay:
        pane = Pane(lambda width, glyphs: (row("one", target="a"), row("two", target="b")))
        await bay.app.screen.mount(pane)
        await bay.settle()
        chosen: list[str] = []
        with monkeypatch.context() as heard:
            heard.setattr(pane, "post_message", lambda message: chosen.append(type(message).__name__))
            for y in (9, -1):
                pane.on_click(_click(pane, y))
            assert "Chosen" not in chosen
            pane.on_click(_click(pane, 1))
            assert "Chosen" in chosen
        bare = Pane(lambda width, glyphs: (row("one"), row("two")))
        await bay.app.screen.mount(bare)
        await bay.settle()
        bare.action_move(1)
        bare.action_choose()
        assert bare.chosen == ""


def _click(pane: Pane, y: int) -> events.Click:
    return events.Click(pane, 3, y, 0, 0, 1, False, False, False)
