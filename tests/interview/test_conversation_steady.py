"""Steady: the interview stops asking what no plausible answer could change, and a new answer reopens it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

import pytest

from interview.conversation import Answered, Conversation, FoundOpen, FoundSteady, State, WentOn, WentTo
from interview.session import begin, new_id
from rules.fitting import House


@pytest.fixture
def asking(house: House) -> Callable[[], tuple[Conversation, State]]:
    def make() -> tuple[Conversation, State]:
        conversation = Conversation.of(house)
        now = datetime(2026, 5, 4, tzinfo=UTC)
        state = conversation.start(begin(new_id(now), voice="customer", units="imperial", created=now))
        for question, said in (("hand", "right"), ("handicap", "18"), ("driver_speed", "88 mph")):
            state = conversation.step(state, Answered(question, said))
        return conversation, state

    return make


def test_steady_leaves_only_safety(asking: Callable[[], tuple[Conversation, State]]) -> None:
    conversation, state = asking()
    assert len(state.open) > 5
    still = conversation.step(state, FoundSteady())
    assert still.open == ("pain",)
    assert set(state.open) - {"pain"} <= set(still.needless)
    done = conversation.step(still, Answered("pain", "no"))
    assert done.asking is not None, "a new answer is new evidence: the finding has to be made again"


def test_steady_with_nothing_of_safety_left_is_enough(
    asking: Callable[[], tuple[Conversation, State]],
) -> None:
    conversation, state = asking()
    state = conversation.step(state, Answered("pain", "no"))
    still = conversation.step(state, FoundSteady())
    assert still.asking is None
    assert still.stage == "enough"
    assert conversation.step(still, WentOn()).asking in state.open


def test_a_finding_of_an_earlier_turn_changes_nothing(
    asking: Callable[[], tuple[Conversation, State]],
) -> None:
    conversation, state = asking()
    assert conversation.step(state, FoundSteady(turn=state.turn - 1)) == state


def test_a_question_gone_to_can_still_be_answered(asking: Callable[[], tuple[Conversation, State]]) -> None:
    conversation, state = asking()
    state = conversation.step(conversation.step(state, Answered("pain", "no")), FoundSteady())
    state = conversation.step(state, WentTo("tempo"))
    assert state.asking == "tempo"
    assert (
        conversation.step(state, Answered("tempo", "smooth")).session.subject.answers["tempo"].value
        == "smooth"
    )


def test_what_was_found_steady_can_be_found_open_again(
    asking: Callable[[], tuple[Conversation, State]],
) -> None:
    conversation, state = asking()
    state = conversation.step(state, Answered("pain", "no"))
    still = conversation.step(state, FoundSteady())
    again = conversation.step(still, FoundOpen())
    assert again.asking == state.asking
    assert again.open == state.open


def test_a_question_gone_to_stays_when_the_pick_is_found_steady(
    asking: Callable[[], tuple[Conversation, State]],
) -> None:
    conversation, state = asking()
    state = conversation.step(conversation.step(state, Answered("pain", "no")), WentTo("tempo"))
    assert conversation.step(state, FoundSteady()).asking == "tempo"


def test_how_sure_a_pick_is_can_be_asked(asking: Callable[[], tuple[Conversation, State]]) -> None:
    conversation, state = asking()
    share = conversation.how_sure(state.outcome)
    assert share is not None
    assert 0 < share <= 1
