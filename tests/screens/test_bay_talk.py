"""The talk in the bay: ask, answer, revise, do not know, skip; and when it stops."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from interview.screens.bay.faces import entries
from interview.store import Entry
from interview.views.pictures import FULL, plain


async def test_first_question_is_up_and_an_answer_brings_the_next(open_bay: Any) -> None:
    async with open_bay() as bay:
        assert bay.desk.state.asking == "hand"
        await bay.say("right")
        assert bay.desk.state.asking == "pain"
        assert bay.desk.state.session.subject.answers["hand"].value == "right"
        assert "Hand" in bay.screen_text()
        assert bay.desk.draft.file.exists()


async def test_other_questions_are_answered_by_name_and_unit(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("tempo smooth", "handicap = 18", "92 mph measured")
        answers = bay.desk.state.session.subject.answers
        assert answers["tempo"].value == "smooth"
        assert answers["handicap"].value == 18
        assert bay.desk.state.asking == "hand"
        await bay.say("driver speed 92 mph measured")
        assert round(bay.desk.state.session.subject.answers["driver_speed"].value / 0.44704, 6) == 92


async def test_do_not_know_and_skip_take_one_key(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.press("f2")
        assert bay.desk.state.session.subject.answers["hand"].unknown
        asked = bay.desk.state.asking
        await bay.press("f3")
        assert bay.desk.state.session.record.skipped == (asked,)
        assert bay.desk.state.asking != asked


async def test_going_up_the_talk_revises_an_answer(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("right", "no", "18")
        await bay.press("up", "up", "up", "enter")
        assert bay.desk.state.asking == "hand"
        await bay.say("left")
        assert bay.desk.state.session.subject.answers["hand"].value == "left"
        assert bay.desk.state.session.subject.answers["handicap"].value == 18


async def test_what_cannot_be_read_is_refused_in_a_sentence_and_nothing_is_lost(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("sideways")
        assert bay.desk.state.asking == "hand"
        assert "is neither right nor left" in bay.screen_text()
        await bay.say("right")
        assert bay.desk.state.asking == "pain"


async def test_an_answer_that_names_its_question_is_refused_for_that_question(open_bay: Any) -> None:
    async with open_bay() as bay:
        assert bay.desk.state.asking == "hand"
        await bay.say("handicap 99")
        assert "Handicap: 99 is outside what is possible here" in bay.pane_text("#notice")
        assert bay.desk.state.asking == "hand"
        assert bay.desk.state.session.subject.answers == {}


async def test_a_choice_is_clicked_and_two_quick_clicks_are_one(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("contact")
        lines = bay.screen_text().splitlines()
        row, at = next((y, line.index("5 heel")) for y, line in enumerate(lines) if "5 heel" in line)
        await bay.pilot.click(offset=(at + 3, row), times=2)
        await bay.settle()
        answers = bay.desk.state.session.subject.answers
        assert list(answers) == ["contact"]
        assert answers["contact"].value == frozenset(("heel",))


async def test_any_question_is_reached_in_two_keys(open_bay: Any, conversation: Any) -> None:
    """None is left out: F4, then the key that stands before it on the map."""
    asked = [id for id, fact in conversation.base.facts.items() if fact.ask is not None]
    async with open_bay() as bay:
        await bay.press("f4")
        keys = dict(bay.app.screen._keys)
        await bay.press("escape")
        assert sorted(keys.values()) == sorted(asked)
        assert all(len(key) == 1 for key in keys)
        for key, question in list(keys.items())[::10]:  # each takes the same way from here
            bay.app.screen.action_map()
            await bay.pilot.pause()
            bay.send(key)
            await bay.pilot.pause()
            assert bay.desk.state.asking == question


def test_a_session_is_known_by_its_name_in_a_narrow_list_too() -> None:
    changed = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
    one = Entry("2026-05-04-0930-abc", Path("a.toml"), changed, note="Ruth with the blue cap", answers=20)
    narrow, wide = (plain(entries((one,), "")(width, FULL)) for width in (38, 78))
    assert "Ruth with the blue cap" in narrow
    assert "20 said  Ruth with the blue cap" in wide
