"""Ways through the bay that are walked less often: taking back, going on, asking why, other ground."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from textual.widgets import Input

from interview.screens.bay.balls import BallsScreen
from interview.screens.bay.override import OverrideScreen
from interview.screens.bay.screen import BayScreen
from interview.screens.bay.whatif import WhatIfScreen
from interview.screens.bay.why import WhyScreen
from interview.screens.kit.lists import FindScreen
from interview.screens.kit.pane import Pane


async def test_an_answer_that_the_cursor_is_on_is_taken_back(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("handicap 18", "tempo smooth")
        said = bay.app.screen.query_one("#said", Pane)
        said.focus()
        said.chosen = "handicap"
        await bay.press("delete")
        answers = bay.desk.state.session.subject.answers
        assert set(answers) == {"tempo"}


async def test_when_the_rest_is_not_known_one_may_still_go_on(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("handicap 18")
        bay.app.screen.action_rest()
        await bay.settle()
        open_still = bay.desk.state.open
        assert all(bay.desk.conversation.base.facts[id].ask.always for id in open_still)
        bay.app.screen.action_go_on()
        await bay.settle()
        assert bay.desk.state.session.subject.answers["handicap"].value == 18


async def test_why_it_asks_is_told_where_it_asks(open_bay: Any) -> None:
    async with open_bay() as bay:
        assert bay.desk.state.asking == "hand"
        bay.app.screen.action_ask_why()
        await bay.settle()
        assert "every left and right after it is turned into shape for the hand" in bay.pane_text("#notice")


async def test_the_ground_and_the_next_club_of_a_trial_are_changed_by_a_key(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("handicap 18")
        await bay.press("f12")
        screen: Any = bay.app.screen
        screen.query_one("#line").value = "demo 5-wood 18 deg; demo 7-wood 21 deg"
        await bay.press("enter")
        screen = bay.app.screen
        assert isinstance(screen, BallsScreen)
        await bay.press("f3")
        assert bay.desk.state.session.subject.shots == ()
        await bay.press("f5")
        await bay.press("4")
        assert [shot.club for shot in bay.desk.state.session.subject.shots] == ["demo 7-wood"]
        grounds = set()
        for _ in range(6):
            screen.action_ground()
            await bay.settle()
            grounds.add((screen.protocol.surface, screen.protocol.indoors))
        assert {surface for surface, _ in grounds} == {"turf", "mat", "tee"}
        assert {indoors for _, indoors in grounds} == {True, False}


async def test_a_list_is_walked_into_and_out_of_by_arrows(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.press("f10")
        screen: Any = bay.app.screen
        assert isinstance(screen, FindScreen)
        await bay.press("down")
        assert bay.app.focused is screen.query_one("#list")
        await bay.press("up")
        assert bay.app.focused is screen.query_one("#find")
        await bay.press("down", "enter")
        assert isinstance(bay.app.screen, BayScreen) or bay.app.screen is not screen


async def test_what_cannot_be_tried_is_refused_on_the_copy(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("handicap 18")
        await bay.press("ctrl+t")
        assert isinstance(bay.app.screen, WhatIfScreen)
        await bay.say("handicap 99")
        assert "handicap: 99 is outside what is possible here, +8 to 54." in bay.pane_text("#reads")
        await bay.say("nothing that is asked")
        assert "A question's name and its answer are wanted" in bay.pane_text("#reads")
        bay.app.screen.query_one("#line", Input).clear()
        await bay.say("handicap 3")
        await bay.press("f2")
        assert isinstance(bay.app.screen, BayScreen)
        assert bay.desk.state.session.subject.answers["handicap"].value == 3


async def test_a_place_that_cannot_be_written_is_told(open_bay: Any, tmp_path: Path) -> None:
    async with open_bay() as bay:
        await bay.say("handicap 18")
        before = bay.desk.draft.file
        (tmp_path / "a-file").write_text("here", encoding="utf-8")
        bay.app.screen.action_elsewhere()
        await bay.pilot.pause()
        line: Any = bay.app.screen.query_one("#line")
        line.value = str(tmp_path / "a-file" / "inside")
        await bay.press("enter")
        assert bay.desk.draft.file == before
        assert isinstance(bay.app.screen, BayScreen)
        assert "a-file" in bay.pane_text("#notice")


async def test_from_the_reasons_a_decision_is_taken_into_ones_own_hands(open_bay: Any) -> None:
    async with open_bay(120, 40) as bay:
        await bay.say("handicap 18", "driver speed 92 mph")
        await bay.press("f8")
        assert isinstance(bay.app.screen, WhyScreen)
        await bay.press("2", "right", "f6")
        assert isinstance(bay.app.screen, OverrideScreen)
        await bay.press("escape")
        assert isinstance(bay.app.screen, BayScreen)


async def test_who_tries_to_leave_by_ctrl_c_is_told_how_in_our_words(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.press("ctrl+c")
        (told,) = bay.app._notifications
        assert told.message == "Ctrl+q leaves; everything is kept."
        assert isinstance(bay.app.screen, BayScreen)
