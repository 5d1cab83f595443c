"""The bay as a person meets it: keys, panes, reasons, overrides, sessions, and what it survives."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from textual import events

from interview.screens.bay import why
from interview.screens.bay.orders import BALLS, BAY, PAPERS, SESSIONS, WHAT_IF, WHY
from interview.screens.bay.override import OverrideScreen
from interview.screens.bay.screen import BayScreen
from interview.screens.bay.why import WhyScreen
from interview.screens.kit.lists import FindScreen, ListScreen
from interview.screens.kit.orders import SHOWN, bindings, found, shown
from interview.screens.kit.pane import Pane
from interview.screens.kit.prompt import PromptScreen
from interview.session import load
from interview.views.bay.firm import Firm, firmness
from interview.views.pictures import PLAIN
from rules.inquiry.study import Study
from rules.inquiry.sure import Sure

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


# Reasons and overrides


async def test_why_why_not_and_nearly(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f8")
        assert isinstance(bay.app.screen, WhyScreen)
        assert "Stands on:" in bay.screen_text()
        assert "Source:" in bay.screen_text()
        await bay.press("2")
        first = bay.screen_text()
        assert "cancel" in first or "◇" in first
        await bay.press("right")
        assert bay.screen_text() != first
        await bay.press("3")
        assert "Needs " in bay.screen_text()
        await bay.press("escape")
        assert isinstance(bay.app.screen, BayScreen)


async def test_what_would_change_it_is_studied_once(open_bay: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """The study itself has its own tests; here it is told little by little, and asked for once."""
    told: list[str] = []

    def studied(outcome: Any, tell: Any, stale: Any) -> None:
        told.append(outcome.picked.id)
        found = Study(outcome.picked.id, None, Sure(outcome.picked.id, 0.5, 0.1, 0.9, 40, ()))
        tell(found)
        tell(replace(found, flips=(), leans=(), complete=True))

    monkeypatch.setattr(why, "study", studied)
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f8", "4")
        text = bay.pane_text("#lines")
        assert "WHAT WOULD CHANGE IT Nothing within its range" in text
        assert "HOW SURE The pair stays in 50 % of 40 draws" in text
        assert "WHAT IT LEANS ON" in text
        await bay.press("escape", "f5", "f5", "down", "enter", "4")
        assert "WHAT WOULD CHANGE IT" in bay.pane_text("#lines")
        assert len(told) == 1


async def test_every_decision_opens_its_reason(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f5", "f5", "right")
        for _ in range(8):
            await bay.press("enter")
            assert isinstance(bay.app.screen, WhyScreen)
            assert bay.app.screen.decision.startswith("shorter.")
            await bay.press("escape", "down")


async def test_an_amount_is_overruled_with_reason_and_price(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f5", "f5", "down", "f6")
        assert isinstance(bay.app.screen, OverrideScreen)
        await bay.type("41 in")
        await bay.settle()
        assert "Its price:" in bay.screen_text()
        await bay.press("enter")
        await bay.say("he grips down anyway")
        assert isinstance(bay.app.screen, BayScreen)
        one = bay.desk.state.outcome.overridden[0]
        assert (one.decision, one.fitter, one.reason) == ("longer.length", "41 in", "he grips down anyway")
        assert "✎" in bay.screen_text()
        await bay.press("f6", "f6")
        assert not bay.desk.state.outcome.overridden


async def test_an_impossible_value_is_not_taken(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f5", "f5", "down", "f6")
        await bay.say("60 in")
        assert isinstance(bay.app.screen, OverrideScreen)
        assert "outside the decision's limits" in bay.pane_text("#price")
        await bay.press("escape")
        assert not bay.desk.state.session.subject.overrides


async def test_another_pair_is_taken_from_the_standing(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        rival = bay.desk.state.outcome.pairing.standings[2].candidate.id
        await bay.press("f5", "down", "down", "f6")
        await bay.settle()
        assert bay.app.screen.query_one("#options", Pane).chosen == rival
        await bay.press("enter")
        await bay.press("enter")
        assert bay.desk.state.outcome.picked.id == rival
        await bay.press("escape")
        assert "taken by you" in bay.screen_text()


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
        assert "broken.toml" in bay.pane_text("#notice")
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


# What it survives

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
