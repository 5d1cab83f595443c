"""The interview as a state machine: any answer at any time, and nothing is ever lost."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interview.conversation import (
    Answered,
    Conversation,
    Event,
    NotKnown,
    PassedOver,
    State,
    WentBack,
    WentOn,
    WentTo,
    Withdrew,
    progress,
)
from interview.session import ValueFault, begin, with_answer, with_details
from interview.wording.words import words

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import Subject
    from rules.fitting import Outcome

    Road = Callable[[Subject], Outcome]


@pytest.fixture(scope="module")
def talk(base: RuleBase, plain_road: Road) -> Conversation:
    return Conversation(base, plain_road, words())


def after(talk: Conversation, *events: Event) -> State:
    state = talk.start(begin("x"))
    for event in events:
        state = talk.step(state, event)
    return state


def here(talk: Conversation, state: State, what: type[NotKnown] | type[PassedOver]) -> State:
    assert state.asking is not None
    return talk.step(state, what(state.asking, state.turn))


def test_it_begins_with_what_matters_first(talk: Conversation) -> None:
    state = after(talk)
    assert (state.asking, state.stage, state.exchanges) == ("hand", "asking", ())


def test_an_answer_brings_the_next_question(talk: Conversation) -> None:
    state = after(talk, Answered("hand", "2"))
    assert state.asking == "handicap"
    assert state.hand == "left"
    assert [(e.question, e.did, e.said) for e in state.exchanges] == [("hand", "answered", "left")]


def test_one_key_press_answers_one_question(talk: Conversation) -> None:
    state = after(talk)
    typed_ahead = [Answered("hand", "1", state.turn)] * 3
    for event in typed_ahead:
        state = talk.step(state, event)
    assert state.session.answered == ("hand",)
    assert (state.asking, state.turn) == ("handicap", 2)
    assert here(talk, state, NotKnown).asking == "typical_score"


def test_a_wrong_answer_changes_nothing_and_says_why(talk: Conversation) -> None:
    before = after(talk, Answered("hand", "left"))
    state = talk.step(before, Answered("handicap", "99"))
    assert state.refusal is not None
    assert state.refusal.question == "handicap"
    assert "outside what is possible" in state.refusal.sentence
    assert (state.session, state.asking, state.turn) == (before.session, "handicap", before.turn)
    assert talk.step(state, Answered("handicap", "12")).refusal is None


def test_a_question_nobody_has_is_refused(talk: Conversation) -> None:
    for event in (
        Answered("shoe_size", 9),
        WentTo("shoe_size"),
        PassedOver("shoe_size"),
        Withdrew("shoe_size"),
    ):
        with pytest.raises(ValueFault, match="is not a question"):
            after(talk, event)


def test_an_answer_out_of_order_leaves_the_question_on_the_screen(talk: Conversation) -> None:
    state = after(talk, Answered("turf", "firm"), Answered("wind", "windy"))
    assert state.asking == "hand"
    assert state.turn == 1
    assert state.session.answered == ("turf", "wind")


def test_i_dont_know_closes_a_question_in_words_too(talk: Conversation) -> None:
    spoken, pressed = after(talk, Answered("hand", "I don't know")), after(talk, NotKnown("hand"))
    assert spoken == pressed
    assert spoken.session.subject.answers["hand"].unknown


def test_a_question_passed_over_comes_back_at_the_end(talk: Conversation) -> None:
    state = after(talk, PassedOver("hand"), PassedOver("pain"))
    while state.stage == "asking":
        state = here(talk, state, NotKnown)
    assert (state.stage, state.open) == ("passed_over", ("hand", "pain"))
    state = talk.step(state, WentOn())
    assert state.asking == "hand"
    state = here(talk, state, PassedOver)
    assert state.asking == "pain"
    state = here(talk, state, NotKnown)
    assert state.stage == "passed_over"
    state = here(talk, talk.step(state, WentOn()), NotKnown)
    assert state.stage == "enough"


def test_when_nothing_open_matters_it_stops_and_one_may_go_on(talk: Conversation) -> None:
    state = after(talk)
    while state.stage == "asking":
        state = here(talk, state, NotKnown)
    assert (state.stage, state.needless) == ("enough", ("wind", "temperature", "altitude"))
    state = talk.step(state, WentOn())
    for _ in range(3):
        state = here(talk, state, NotKnown)
    assert state.stage == "done"
    assert talk.step(state, WentOn()).stage == "done"


def test_going_back_loses_nothing_and_does_not_drag_one_back_in(talk: Conversation) -> None:
    state = after(talk, Answered("hand", "left"), Answered("handicap", "9"))
    back = talk.step(talk.step(state, WentBack()), WentBack())
    assert back.asking == "hand"
    assert back.session == state.session
    again = talk.step(back, Answered("hand", "right"))
    assert again.asking == state.asking == "pain"
    assert again.exchanges[-1].did == "revised"
    assert talk.step(after(talk), WentBack()).asking == "hand"


def test_looking_at_an_answer_and_leaving_it_keeps_it(talk: Conversation) -> None:
    state = after(talk, Answered("hand", "left"), Answered("handicap", "9"), WentTo("hand"))
    left = talk.step(state, PassedOver("hand"))
    assert (left.asking, left.session) == ("pain", state.session)
    assert len(left.exchanges) == 2


def test_a_withdrawn_answer_is_asked_again(talk: Conversation) -> None:
    state = after(talk, Answered("hand", "left"), Answered("handicap", "9"), Withdrew("hand"))
    assert (state.asking, state.hand) == ("pain", "right")
    assert "hand" in state.open
    assert here(talk, state, NotKnown).asking == "hand"


def test_an_answer_whose_question_no_longer_applies_comes_back(talk: Conversation) -> None:
    state = after(talk, NotKnown("handicap"), Answered("typical_score", "95"))
    assert talk.dormant(state) == frozenset()
    known = talk.step(state, Answered("handicap", "12"))
    assert talk.dormant(known) == {"typical_score"}
    assert known.session.subject.answers["typical_score"].value == 95
    assert talk.dormant(talk.step(known, NotKnown("handicap"))) == frozenset()


def test_a_matter_of_safety_stops_the_fitting_until_the_person_goes_on(talk: Conversation) -> None:
    state = after(talk, Answered("pain", "yes"))
    assert (state.stage, state.asking) == ("halted", None)
    state = talk.step(state, Answered("hand", "1"))
    assert (state.stage, state.asking) == ("halted", None)
    on = talk.step(state, WentOn())
    assert on.asking == "handicap"
    assert talk.step(on, NotKnown("handicap")).stage == "asking"
    assert talk.step(state, Answered("pain", "no")).stage == "asking"
    changed_mind = talk.step(talk.step(on, Answered("pain", "no")), Answered("pain", "yes"))
    assert talk.step(changed_mind, NotKnown("handicap")).stage == "halted"


def test_a_session_is_taken_up_where_it_was_left(talk: Conversation) -> None:
    state = after(talk, Answered("hand", "left"), PassedOver("handicap"))
    again = talk.start(state.session)
    assert again.asking == state.asking == "typical_score"
    stopped = talk.step(state, Answered("pain", "yes"))
    assert talk.start(stopped.session).stage == "halted"


def test_a_session_changed_elsewhere_is_taken_up(talk: Conversation) -> None:
    state = after(talk, Answered("hand", "left"))
    renamed = talk.with_session(state, with_details(state.session, note="x"))
    assert renamed.outcome is state.outcome
    told = talk.with_session(state, with_answer(state.session, talk.base.facts, "handicap", 3))
    assert "handicap" not in told.open


def test_progress_adds_up_and_tells_the_truth(talk: Conversation, base: RuleBase) -> None:
    state = after(
        talk, Answered("hand", "1"), NotKnown("handicap"), Answered("typical_score", 90), PassedOver("pain")
    )
    seen = progress(base, state)
    asked = [id for id, fact in base.facts.items() if fact.ask is not None]
    assert sorted(q for topic in seen.topics for q in topic.questions) == sorted(asked)
    assert [topic.topic for topic in seen.topics] == list(base.topics)
    assert (seen.answered, seen.needless) == (3, 3)
    assert seen.open == len(state.open) == len(asked) - 6
    game = seen.topics[0].questions
    assert [game[q] for q in ("hand", "handicap", "typical_score", "pain")] == [
        "known", "unknown", "known", "skipped",
    ]  # fmt: skip
    known = talk.step(state, Answered("handicap", 3))
    assert progress(base, known).topics[0].questions["typical_score"] == "dormant"
    assert progress(base, known).answered == 2


QUESTIONS = st.sampled_from(["hand", "handicap", "typical_score", "turf", "pain", "wind", "lies", "age_band"])
EVENTS = st.one_of(
    st.builds(
        Answered, QUESTIONS, st.sampled_from(["1", "left", "12", "no", "yes", "firm", "\x1b[2J", "tee 3"])
    ),
    st.builds(NotKnown, QUESTIONS),
    st.builds(PassedOver, QUESTIONS),
    st.builds(Withdrew, QUESTIONS),
    st.builds(WentTo, QUESTIONS),
    st.builds(WentBack),
    st.builds(WentOn),
)


@settings(max_examples=60, deadline=None)
@given(events=st.lists(EVENTS, max_size=14))
def test_no_order_of_events_loses_an_answer(talk: Conversation, events: list[Event]) -> None:
    state = talk.start(begin("x"))
    for event in events:
        before, state = state, talk.step(state, event)
        touched = getattr(event, "question", None)
        for question, answer in before.session.subject.answers.items():
            if question != touched:
                assert state.session.subject.answers[question] == answer
        if isinstance(event, WentBack | WentOn | WentTo):
            assert state.session == before.session
        assert (state.asking is None) == (state.stage != "asking")
        if state.stage == "passed_over":
            assert set(state.open) <= set(state.session.record.skipped)
        if state.stage in ("enough", "done"):
            assert not state.open
    other_way = talk.start(state.session)
    assert other_way.outcome.questions == state.outcome.questions
