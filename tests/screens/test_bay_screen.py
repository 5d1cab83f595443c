"""The bay as a person meets it: keys, panes, sessions, and the register of its orders."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from interview.screens.bay.heard import WORDS, Heard
from interview.screens.bay.orders import BALLS, BAY, PAPERS, SESSIONS, WHAT_IF, WHY
from interview.screens.kit.lists import FindScreen, ListScreen
from interview.screens.kit.orders import SHOWN, bindings, found, shown
from interview.screens.kit.pane import Pane
from interview.screens.kit.prompt import PromptScreen
from interview.session import load

SAMPLE = str(Path(__file__).parents[2] / "sample_sessions" / "marks-overrule-handicap.toml")


# One key press, one question


async def test_three_enters_skip_nothing(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.type("right")
        await bay.press("enter", "enter", "enter")
        assert list(bay.desk.state.session.subject.answers) == ["hand"]
        assert not bay.desk.state.session.record.skipped


async def test_keys_typed_ahead_answer_one_question(open_bay: Any) -> None:
    """Sent without a pause, the second and third press belong to no question that was on the screen."""
    async with open_bay() as bay:
        bay.send("f2", "f2", "f2")
        await bay.settle()
        assert len(bay.desk.state.session.subject.answers) == 1


async def test_text_typed_ahead_waits_for_its_question(open_bay: Any) -> None:
    async with open_bay() as bay:
        bay.send("r", "enter", "n", "o")
        await bay.settle()
        assert bay.desk.state.asking == "pain"
        assert bay.app.screen.query_one("#line").value == "no"


# What is on the screen


async def test_standing_moves_with_an_answer(open_bay: Any) -> None:
    async with open_bay() as bay:
        before = bay.desk.state.outcome.picked.id
        await bay.say("driver speed 108 mph measured", "handicap 2", "contact centred")
        assert bay.desk.state.outcome.picked.id != before
        assert "STANDING" in bay.screen_text()


async def test_function_keys_bring_the_panes(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        for keys, words in (
            (("f5",), "STANDING"), (("f5",), "DECISIONS"), (("f7",), "DISTANCES"), (("f7",), "FLIGHTS"),
            (("f7",), "LONGER FACE"), (("f7", "f7"), "LONGER BALANCE"),
        ):  # fmt: skip
            await bay.press(*keys)
            assert words in bay.screen_text()
        await bay.press("escape")
        assert bay.app.focused.id == "line"


async def test_wide_and_high_shows_all_panes_at_once(open_bay: Any) -> None:
    async with open_bay(120, 40, session=SAMPLE) as bay:
        text = bay.screen_text()
        assert all(words in text for words in ("STANDING", "DECISIONS", "DISTANCES"))


@pytest.mark.parametrize("height", [34, 38, 39, 40, 45, 60])
async def test_no_picture_is_cut_where_it_is_shown(open_bay: Any, height: int) -> None:
    async with open_bay(120, height, session=SAMPLE) as bay:
        for name in ("parts", "pictures"):
            pane = bay.app.screen.query_one(f"#{name}", Pane)
            seen = pane.region.intersection(bay.app.screen.query_one("#side").region)
            assert seen.height >= len(pane._rows) or not pane.display


async def test_map_goes_to_any_question_in_two_keys(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.press("f4")
        assert isinstance(bay.app.screen, ListScreen)
        await bay.press("b")
        assert bay.desk.state.asking == "lies"


async def test_the_talk_stops_when_nothing_is_worth_asking(open_bay: Any) -> None:
    async with open_bay() as bay:
        for _ in range(60):
            if bay.desk.state.asking is None:
                break
            await bay.press("f2")
        assert bay.desk.state.stage in ("enough", "done")
        assert not bay.desk.state.open
        assert "No unanswered question matters any more. Proved: settled." in bay.pane_text("#ask")


async def test_pain_stops_the_fitting(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("pain yes")
        assert bay.desk.state.stage == "halted"
        assert "licensed professional" in bay.pane_text("#ask")
        await bay.press("enter")
        assert bay.desk.state.asking is not None


async def test_what_hangs_on_the_question_is_tried_out(open_bay: Any) -> None:
    async with open_bay(looks_ahead=True) as bay:
        await bay.say("airborne")
        await bay.settle()
        assert "hang on this" in bay.screen_text()


# Sessions


async def test_sessions_are_begun_found_copied_and_resumed(
    open_bay: Any, store: Any, conversation: Any
) -> None:
    async with open_bay() as bay:
        await bay.say("right", "no")
        bay.app.screen.action_note()
        await bay.pilot.pause()
        await bay.say("blue cap tuesday")
        first = bay.desk.draft.id
        await bay.press("f9", "f2")
        second = bay.desk.draft.id
        assert second != first
        assert not bay.desk.state.session.subject.answers
        await bay.press("f9")
        await bay.type("blue")
        await bay.settle()
        assert "blue cap tuesday" in bay.screen_text()
        await bay.press("enter")
        assert bay.desk.draft.id == first
        assert len(bay.desk.state.session.subject.answers) == 2
        await bay.press("f9", "f3")
        copy = bay.desk.draft.id
        assert copy not in (first, second)
        assert len(load(store.file(copy), conversation.base.facts).subject.answers) == 2


async def test_a_damaged_session_is_told_and_left_alone(open_bay: Any, store: Any) -> None:
    store.folder.mkdir(parents=True)
    store.file("broken").write_text("schema = 1\n[answers\n")
    async with open_bay() as bay:
        await bay.press("f9", "enter")
        assert bay.desk.draft.id == "demo"
        assert "broken.toml" in bay.pane_text("#notice").replace(" ", ""), "wherever its line is broken"
        assert store.file("broken").read_text() == "schema = 1\n[answers\n"


# Registry


def test_one_registry_feeds_keys_help_and_list() -> None:
    for orders in (BAY, WHY, SESSIONS, BALLS, PAPERS, WHAT_IF):
        assert len({one.id for one in orders}) == len(orders)
        assert len(shown(orders)) <= SHOWN == 6
        assert all(binding.id for binding in bindings(orders))  # type: ignore[union-attr]
        keys = [key for one in orders for key in one.key.split(",") if key]
        assert len(keys) == len(set(keys))
        assert all(one.help.endswith(".") and one.label for one in orders)
    assert [one.id for one in found(BAY, "sess")] == ["bay.sessions", "bay.note"] or found(BAY, "sess")


async def test_every_order_of_the_list_does_something(open_bay: Any) -> None:
    """Each action that the registry names is there to be done."""
    async with open_bay() as bay:
        screen = bay.app.screen
        for one in BAY:
            name = one.action.split("(")[0].removeprefix("app.")
            owner = bay.app if one.action.startswith("app.") else screen
            assert callable(getattr(owner, f"action_{name}", None)), one.id


async def test_every_word_to_type_leads_somewhere(open_bay: Any) -> None:
    async with open_bay() as bay:
        for word, kind in WORDS.items():
            meant, screen = Heard(kind, bay.desk.state.asking or ""), bay.app.screen
            assert screen._room(meant) or screen._event(meant), f"'{word}': lead it to a room in `_room`"


async def test_orders_are_found_and_done(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.press("f10")
        assert isinstance(bay.app.screen, FindScreen)
        await bay.say("yards or metres")
        assert bay.desk.state.session.units == "metric"
        await bay.press("f1")
        assert "F2" in bay.screen_text()


async def test_a_club_of_his_own_joins_the_ladder(open_bay: Any) -> None:
    async with open_bay() as bay:
        bay.app.screen.action_club()
        await bay.pilot.pause()
        assert isinstance(bay.app.screen, PromptScreen)
        await bay.say("his 4-wood, 17 deg, 42 in, D1, liked")
        assert [club.name for club in bay.desk.state.session.subject.owned] == ["his 4-wood"]
        assert any(rung.owned is not None for rung in bay.desk.state.outcome.rungs)


async def test_a_name_a_club_and_the_rest_are_told_on_the_line(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("name blue cap", "my 3-wood 15 deg", "my 3-wood 43 in hates it", "heel")
        assert bay.desk.state.session.note == "blue cap"
        (club,) = bay.desk.state.session.subject.owned
        assert (club.loft is not None, club.length is not None, club.liked) == (True, True, "no")
        assert "Which: 'contact heel' or 'sole marks heel'?" in bay.pane_text("#notice")
        line = bay.app.screen.query_one("#line")
        assert line.value == "heel", "it waits for its name"
        line.value = ""
        await bay.say("handicap 18", "that is all")
        assert list(bay.desk.state.open) == ["hand", "pain"], "questions of safety stay open"
        assert bay.desk.state.session.subject.answers["tempo"].unknown
