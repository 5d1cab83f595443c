"""What the bay does not do: nothing is opened, asked or taken where there is nothing to open, ask or take."""

from __future__ import annotations

from collections.abc import AsyncIterator
from dataclasses import replace
from pathlib import Path
from threading import Event
from typing import Any

import pytest

from interview.conversation import Conversation
from interview.screens.bay.app import BayApp
from interview.screens.bay.curtain import CurtainScreen
from interview.screens.bay.desk import Desk, sit_down
from interview.screens.bay.opening import recall, remember
from interview.screens.bay.override import OverrideScreen
from interview.screens.bay.screen import BayScreen
from interview.screens.kit.app import TurfApp
from interview.screens.kit.pane import Pane
from interview.screens.kit.prompt import PromptScreen
from interview.session import begin
from interview.store import Store
from interview.views.bay.questions import talk_view
from interview.views.bay.talk import AskView
from interview.views.pictures import FULL
from rules.fitting import House

SAMPLE = str(Path(__file__).parents[2] / "sample_sessions" / "marks-overrule-handicap.toml")


class Stage(TurfApp):
    """An app that shows one screen."""

    def __init__(self, shown: CurtainScreen) -> None:
        super().__init__(glyphs=FULL, blink=False)
        self.shown = shown

    def on_mount(self) -> None:
        self.push_screen(self.shown)


def opening(conversation: Conversation, store: Store) -> AskView:
    """Return the question that a new talk opens with."""
    ask = talk_view(conversation, sit_down(conversation, store.begin(begin("new"))).state).ask
    assert ask is not None
    return ask


async def test_an_empty_line_is_no_answer_to_the_opening_question(
    conversation: Conversation, store: Store
) -> None:
    ask = opening(conversation, store)
    begun: list[int] = []
    curtain = CurtainScreen(ask, lambda: begun.append(1))
    async with Stage(curtain).run_test(size=(80, 24)) as pilot:
        line = curtain.query_one("#line")
        await pilot.press("enter", "space", "enter")
        assert (curtain.entered, line.disabled) == (False, False)
        await pilot.press(*"right", "enter", "enter")
        assert (curtain.typed, curtain.entered, line.disabled) == (" right", True, True)
        await pilot.pause(0.1)
        assert begun == [1], "the rules are read once"
        assert curtain.query("#ask")


async def test_without_a_remembered_question_the_line_is_there_all_the_same() -> None:
    curtain = CurtainScreen(None, lambda: None)
    async with Stage(curtain).run_test(size=(80, 24)) as pilot:
        await pilot.press(*"no")
        assert not curtain.query("#ask")
        assert (curtain.typed, curtain.entered) == ("no", False)


@pytest.mark.parametrize("remembered", [True, False])
async def test_what_is_typed_before_the_rules_are_read_is_handed_on(
    conversation: Conversation, store: Store, tmp_path: Path, remembered: bool
) -> None:
    """Entered to the question that was on the screen it answers it; to none it waits in the line."""
    folder = tmp_path / "state"
    ask = opening(conversation, store)
    if remembered:
        remember(folder, ask)

    read = Event()

    def desk() -> Desk:
        read.wait(20)
        return sit_down(conversation, store.begin(begin("demo")))

    app = BayApp(desk, lambda: store, opening=folder, glyphs=FULL, blink=False)
    app.looks_ahead = False
    async with app.run_test(size=(80, 24)) as pilot:
        assert (app.trouble, app.as_text(), app.rescued()) == ("", "", None), "there is nothing to keep yet"
        app.keep_all()
        curtain = app.screen
        assert isinstance(curtain, CurtainScreen)
        assert (curtain.ask == ask) == remembered
        await pilot.press(*"right", "enter")
        read.set()
        while not isinstance(app.screen, BayScreen):
            await pilot.pause(0.02)
        await pilot.pause()
        await app.workers.wait_for_complete()
        await pilot.pause()
        answers = app.desk.state.session.subject.answers
        assert {id: one.value for id, one in answers.items()} == ({"hand": "right"} if remembered else {})
        assert app.screen.query_one("#line").value == ("" if remembered else "right")  # type: ignore[attr-defined]
    assert recall(folder) == ask


@pytest.fixture
async def bare(house: House, store: Store) -> AsyncIterator[Any]:
    """A bay over a shelf without a shaft: whatever is said, no pair is possible."""
    none = Conversation.of(house.with_shelf(replace(house.shelf, shafts=())))
    app = BayApp(sit_down(none, store.begin(begin("bare"))), store, glyphs=FULL, blink=False)
    app.looks_ahead = False
    async with app.run_test(size=(120, 40)) as pilot:
        await app.workers.wait_for_complete()
        await pilot.pause()
        yield pilot


async def test_without_a_pair_there_are_no_reasons_to_give_and_nothing_to_take(bare: Any) -> None:
    assert bare.app.desk.state.outcome.picked is None
    for keys in (("f8",), ("f6",), ("f5", "f6"), ("f5", "f8"), ("f5", "enter"), ("f7", "right", "left")):
        await bare.press(*keys)
        assert isinstance(bare.app.screen, BayScreen), keys
    assert "no pair is possible" in " ".join(
        "".join(ink.text for ink in row.inks) for row in bare.app.screen.query_one("#standing", Pane)._rows
    ).lower().replace("  ", " ")


async def test_a_value_is_taken_only_once_its_price_is_known(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f5", "f5", "down", "f6")
        value, reason = (bay.app.screen.query_one(f"#{name}") for name in ("value", "reason"))
        await bay.press("enter", "up")
        assert bay.app.focused is value, "there is no value yet, and nothing above its line"
        await bay.press("down")
        assert bay.app.focused is reason
        await bay.say("because")
        assert isinstance(bay.app.screen, OverrideScreen)
        assert reason.value == "because"
        await bay.press("up")
        assert bay.app.focused is value
        await bay.press("escape")
        assert not bay.desk.state.session.subject.overrides


async def test_a_box_that_is_left_changes_nothing(open_bay: Any, store: Store) -> None:
    async with open_bay() as bay:
        for order in ("note", "club", "elsewhere"):
            getattr(bay.app.screen, f"action_{order}")()
            await bay.settle()
            assert isinstance(bay.app.screen, PromptScreen)
            await bay.type("unmeant")
            await bay.press("escape")
            assert isinstance(bay.app.screen, BayScreen)
        for key in ("f4", "f9", "f10", "f8", "f6"):
            await bay.press(key, "escape")
            assert isinstance(bay.app.screen, BayScreen)
        assert not bay.desk.state.session.written
        assert not list(store.folder.glob("*.toml"))


async def test_where_no_question_is_up_there_is_none_to_close_or_take_back(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("that is all", "right", "no")
        assert bay.desk.state.asking is None
        before = bay.desk.state.session
        await bay.press("f2", "f3")
        bay.app.screen.action_withdraw()
        await bay.settle()
        assert bay.desk.state.session == before


async def test_a_line_takes_orders_for_the_question_that_is_up(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("right", "back")
        assert bay.desk.state.asking == "hand"
        await bay.say("handicap")
        assert bay.desk.state.asking == "handicap"
        await bay.say("skip")
        assert bay.desk.state.asking != "handicap"
        assert "handicap" not in bay.desk.state.session.subject.answers
