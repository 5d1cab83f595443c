"""What a newer answer has overtaken is worked out for nobody, in the bay and at the kiosk."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from types import SimpleNamespace
from typing import Any, cast

import pytest

from interview.conversation import Answered, Conversation, State
from interview.screens.bay import override, road, whatif
from interview.screens.bay.desk import sit_down
from interview.screens.bay.screen import BayScreen
from interview.screens.kiosk import app as kiosk
from interview.session import begin
from interview.store import Store
from rules.fitting import House
from tests.screens.kiosk_kit import Make, keys


@pytest.fixture
def state(conversation: Conversation) -> State:
    return conversation.start(begin("demo"))


def _price(conversation: Conversation, state: State, _: Store) -> tuple[Any, Callable[[], object]]:
    screen = override.OverrideScreen(conversation, state, "longer.length")
    return screen, lambda: screen._price("42 in")


def _copy(conversation: Conversation, state: State, _: Store) -> tuple[Any, Callable[[], object]]:
    screen = whatif.WhatIfScreen(conversation, state)
    return screen, lambda: screen._work((Answered("handicap", "12"),))


def _road(conversation: Conversation, _: State, store: Store) -> tuple[Any, Callable[[], object]]:
    screen = BayScreen(sit_down(conversation, store.begin(begin(f"demo-{len(store.ids())}"))))
    turn = screen.desk.state.turn

    def work() -> None:
        job = screen.desk.hear(Answered("hand", "right", turn))
        screen._work(job)  # type: ignore[arg-type]

    return screen, work


@pytest.mark.parametrize(
    ("module", "started", "news"),
    [(override, _price, "Priced"), (whatif, _copy, "Tried"), (road, _road, "WorkedOut")],
)
def test_what_was_overtaken_is_not_told(
    module: Any, started: Any, news: str, conversation: Conversation, state: State, store: Store,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    for overtaken in (True, False):
        screen, work = started(conversation, state, store)
        told: list[object] = []
        monkeypatch.setattr(screen, "post_message", told.append)
        monkeypatch.setattr(module, "get_current_worker", partial(SimpleNamespace, is_cancelled=overtaken))
        work()
        assert (news in [type(one).__name__ for one in told]) != overtaken


async def test_what_is_found_of_an_older_answer_is_not_shown(open_bay: Any, house: House) -> None:
    """How firm a pick was, or what a question could have changed, is nothing about what is on the screen."""
    async with open_bay(120, 40) as bay:
        older = bay.desk.state
        await bay.say("right")
        shown = bay.screen_text()
        screen = bay.app.screen
        screen._studied(road.Studied(older, road.Firm(sure=0.5, steady=False)))  # type: ignore[attr-defined]
        screen._looked_ahead(road.LookedAhead(cast(Any, SimpleNamespace(question="hand"))))
        screen._worked_out(road.WorkedOut(cast(Any, SimpleNamespace(number=0)), older))
        await bay.settle()
        assert bay.screen_text() == shown
        assert bay.desk.state.session.subject.answers.keys() == {"hand"}


@pytest.mark.parametrize("overtaken", [True, False])
async def test_that_a_question_is_the_last_is_told_only_while_it_is_up(
    make: Make, monkeypatch: pytest.MonkeyPatch, overtaken: bool
) -> None:
    monkeypatch.setattr("interview.kiosk.enough.enough", lambda state, stale: not stale())
    app = make(foresee=False)
    async with app.run_test(size=(80, 24)) as pilot:
        await keys(pilot, "1")
        app._foresees = True
        monkeypatch.setattr(kiosk, "get_current_worker", lambda: SimpleNamespace(is_cancelled=overtaken))
        app._foresee()
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert app.visit.enough != overtaken
