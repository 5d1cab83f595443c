"""A session never changes; the next one holds exactly what was said."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interview.session import (
    ValueFault,
    begin,
    closed,
    session_of,
    session_text,
    skipped,
    with_answer,
    with_club,
    with_details,
    with_override,
    with_record,
    with_shots,
    without_answer,
    without_club,
    without_override,
    without_shot,
)
from rules.facts.answers import UNKNOWN, Answer, AnswerProblem
from rules.facts.reading import SubjectProblem

if TYPE_CHECKING:
    from rules.engine.language import Fact

    Facts = Mapping[str, Fact]

DEMO = {"name": "demo", "kind": "fairway", "loft": "18 deg"}


def test_an_answer_is_kept_with_its_unit_and_the_old_session_is_as_it_was(facts: Facts) -> None:
    before = begin("x")
    after = with_answer(before, facts, "driver_speed", "85")
    assert before.written == {}
    assert after.written == {"answers": {"driver_speed": "85 mph"}}
    assert after.subject.answers["driver_speed"].value == pytest.approx(85 * 0.44704)


@pytest.mark.parametrize(
    ("question", "said", "kept"),
    [
        ("height", "5'11\"", "5'11\""),
        ("height", "71", "71 in"),
        ("height", "70 1/2", "70.5 in"),
        (
            "driver_speed",
            {"value": "137 km/h", "how": "estimated"},
            {"value": "137 km/h", "how": "estimated"},
        ),
        ("driver_speed", {"value": "85", "how": "measured"}, {"value": "85 mph", "how": "measured"}),
        ("handicap", "+2", -2),
        ("lies", {"tight_fairway": 50, "tee": 20}, {"tight_fairway": 50, "tee": 20}),
        ("contact", "heel, thin", ["thin", "heel"]),
    ],
)
def test_what_was_said_with_its_unit_is_kept_as_said(
    question: str, said: object, kept: object, facts: Facts
) -> None:
    assert with_answer(begin("x"), facts, question, said).written["answers"] == {question: kept}


def test_closing_revising_and_withdrawing_touch_one_answer_only(facts: Facts) -> None:
    session = with_answer(with_answer(begin("x"), facts, "hand", "left"), facts, "handicap", 12)
    unknown = closed(session, facts, "handicap")
    assert unknown.subject.answers == {"hand": Answer("left"), "handicap": UNKNOWN}
    assert unknown.answered == ("hand", "handicap")
    assert with_answer(unknown, facts, "handicap", "+1").subject.answers["handicap"].value == -1
    assert without_answer(unknown, "handicap").subject.answers == {"hand": Answer("left")}
    assert without_answer(unknown, "handicap") == without_answer(session, "handicap")


def test_a_skipped_question_is_remembered_until_it_is_answered(facts: Facts) -> None:
    session = skipped(skipped(skipped(begin("x"), "hand"), "pain"), "hand")
    assert session.record.skipped == ("pain", "hand")
    assert closed(session, facts, "pain").record.skipped == ("hand",)


def test_what_cannot_be_read_never_gets_in(facts: Facts) -> None:
    session = begin("x")
    with pytest.raises(AnswerProblem, match="outside what is possible"):
        with_answer(session, facts, "handicap", 70)
    with pytest.raises(ValueFault, match="did you mean 'handicap'"):
        with_answer(session, facts, "handikap", 7)
    with pytest.raises(ValueFault, match="is not a question"):
        closed(session, facts, "driver_head_speed")
    with pytest.raises(SubjectProblem, match="no owned or trial club"):
        with_shots(session, facts, [{"club": "ghost"}])


def test_typed_text_is_cleaned_before_it_is_kept(facts: Facts) -> None:
    session = with_answer(begin("x"), facts, "hand", "\x1b[31m left\x00")
    assert session.written["answers"]["hand"] == "left"
    club = {"name": "his\x1b[2J \u202e3-wood", "kind": "fairway"}
    assert with_club(session, facts, "owned", club).subject.owned[0].name == "his 3-wood"


def test_clubs_shots_readings_and_overrides_come_and_go(facts: Facts) -> None:
    session = with_club(begin("x"), facts, "trial_clubs", DEMO)
    session = with_club(session, facts, "trial_clubs", {**DEMO, "length": "42 in"})
    assert len(session.subject.trial_clubs) == 1
    shot = {"club": "demo", "toe_mm": -6, "outcome": "up"}
    session = with_shots(session, facts, [shot, {**shot, "outcome": "thin"}])
    assert [s.outcome for s in session.subject.shots] == ["up", "thin"]
    assert [s.outcome for s in without_shot(session, facts).subject.shots] == ["up"]
    assert [s.outcome for s in without_shot(session, facts, 0).subject.shots] == ["thin"]
    session = with_override(session, facts, "longer.length", "42.25 in", "he liked the demo")
    assert session.subject.overrides["longer.length"].value == "42.25 in"
    assert without_override(session, facts, "longer.length").subject.overrides == {}
    bare = without_club(session, facts, "trial_clubs", "demo")
    assert (bare.subject.trial_clubs, bare.subject.shots) == ((), ())


def test_taking_back_a_shot_of_none_is_no_fault(facts: Facts) -> None:
    assert without_shot(begin("x"), facts).subject.shots == ()


def test_without_consent_no_ticket_outlives_the_session() -> None:
    agreed = with_record(begin("x"), consent=True, expires=date(2026, 6, 3))
    assert agreed.record.expires == date(2026, 6, 3)
    assert with_record(agreed, skipped=("handicap",)).record.expires == date(2026, 6, 3)
    assert with_record(agreed, consent=False).record.expires is None


def test_details_are_changed_one_by_one() -> None:
    session = with_details(begin("x"), voice="customer", note="a\x00\nb")
    assert (session.voice, session.units, session.note) == ("customer", "imperial", "a\nb")
    assert with_details(session, units="metric").note == "a\nb"


STEPS = st.lists(
    st.tuples(
        st.sampled_from(["hand", "handicap", "lies", "contact", "driver_speed", "pain"]),
        st.sampled_from(["answer", "close", "skip", "withdraw"]),
    ),
    max_size=12,
)
SAID = {
    "hand": "left", "handicap": "+3", "lies": "tight 50, tee 20", "contact": "thin and heel",
    "driver_speed": {"value": "137 km/h", "how": "estimated"}, "pain": "no",
}  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(STEPS)
def test_whatever_is_done_the_file_says_the_same(facts: Facts, steps: list[tuple[str, str]]) -> None:
    session = begin("x")
    for question, what in steps:
        if what == "answer":
            session = with_answer(session, facts, question, SAID[question])
        elif what == "close":
            session = closed(session, facts, question)
        elif what == "skip":
            session = skipped(session, question)
        else:
            session = without_answer(session, question)
    import tomllib

    again = session_of(tomllib.loads(session_text(session)), facts)
    assert again.subject == session.subject
    assert again.record == session.record
