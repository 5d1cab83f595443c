"""Answers as people type them, read against their facts and written back the same."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.facts.answers import UNKNOWN, Answer, AnswerProblem, read_answer, write_answer
from rules.fitting import House, load_house
from rules.units import parse

FACTS = load_house().base.facts


@pytest.mark.parametrize(
    ("fact", "typed", "value"),
    [
        ("driver_speed", "88 mph", parse("88 mph", "m/s")),
        ("driver_speed", "88", parse("88 mph", "m/s")),
        ("driver_speed", 88, parse("88 mph", "m/s")),
        ("driver_speed", "142 km/h", parse("142 km/h", "m/s")),
        ("handicap", "+2", -2.0),
        ("handicap", 18.4, 18.4),
        ("height", "5'11\"", parse("71 in", "m")),
        ("wrist_to_floor", "34 1/2 in", parse("34.5 in", "m")),
        ("temperature", "60 degF", parse("60 degF", "K")),
        ("hand", "L", "left"),
        ("pain", True, "yes"),
        ("hits_five_wood", "never tried", "never_tried"),
        ("contact", "thin, heel", frozenset({"thin", "heel"})),
        ("contact", ["center"], frozenset({"centred"})),
        ("contact", "low face and toe", frozenset({"low_face", "toe"})),
    ],
)
def test_reads_what_people_type(fact: str, typed: object, value: Any) -> None:
    read = read_answer(FACTS[fact], typed).value
    assert read == (pytest.approx(value) if isinstance(value, float) else value)


@pytest.mark.parametrize(
    "typed",
    [
        {"tight_fairway": 50, "fairway": 20, "rough": 20, "tee": 10},
        "tight 50, fairway 20, rough 20, tee 10",
        "50 tight, 20 fairway, 20 rough, 10 tee",
        "tight 50% fairway 20% rough 20% tee 10%",
        {"tight_fairway": 5, "fairway": 2, "rough": 2, "tee": 1},
    ],
)
def test_reads_shares_in_any_order_and_scale(typed: object) -> None:
    assert read_answer(FACTS["lies"], typed).value == pytest.approx(
        {"tight_fairway": 0.5, "fairway": 0.2, "rough": 0.2, "tee": 0.1}
    )


def test_reads_how_it_is_known() -> None:
    assert read_answer(FACTS["driver_speed"], {"value": "85 mph", "how": "measured"}).how == "measured"
    assert read_answer(FACTS["temperature"], {"unknown": True}) is UNKNOWN


@pytest.mark.parametrize(
    ("fact", "typed", "says"),
    [
        ("driver_speed", "90 kg", "is a mass"),
        ("driver_speed", "900 mph", "outside"),
        ("driver_speed", "", "nothing was said"),
        ("driver_speed", "x" * 5000, "far too much"),
        ("driver_speed", True, "a number is wanted"),
        ("driver_speed", [1], "a number is wanted"),
        ("driver_speed", {"value": "85 mph", "how": "dreamt"}, "measured, said or estimated"),
        ("driver_speed", {"value": "85 mph", "colour": 1}, "'colour' is not known"),
        ("temperature", {"unknown": False}, "{ unknown = true }"),
        ("driver_carry", "1,200 yd", "thousands"),
        ("hand", "rihgt", "did you mean 'right'"),
        ("hand", 3, "one of right or left"),
        ("contact", [], "one or more"),
        ("contact", "[/b]", "is not one of centred, thin, fat, toe, heel, low face,"),
        ("pain", "[/b]", "'[/b]' is neither yes nor no"),
        ("lies", {"tee": -1}, "from 0 up"),
        ("lies", {"tee": 0}, "add up to nothing"),
        ("lies", {"tee": "nan"}, "from 0 up"),
        ("lies", {"moon": 3}, "not one of"),
        ("lies", "7 / 10 tight", "a word and a number"),
    ],
)
def test_refuses_with_one_sentence(fact: str, typed: object, says: str) -> None:
    with pytest.raises(AnswerProblem) as caught:
        read_answer(FACTS[fact], typed)
    message = str(caught.value)
    assert says in message
    assert FACTS[fact].title in message
    assert "\n" not in message


numbers = st.sampled_from(
    [fact for fact in FACTS.values() if fact.ask is not None and fact.kind == "number" and fact.unit]
)


@settings(max_examples=150, deadline=None)
@given(fact=numbers, share=st.floats(0, 1))
def test_what_is_written_reads_back_the_same(fact: Any, share: float) -> None:
    low, high = fact.range
    answer = Answer(low + share * (high - low), "measured")
    again = read_answer(fact, write_answer(fact, answer))
    assert again.how == "measured"
    assert again.value == pytest.approx(answer.value, rel=1e-10, abs=1e-12)


@settings(max_examples=200, deadline=None)
@given(text=st.text(max_size=80))
def test_any_text_is_read_or_refused(text: str) -> None:
    for id in ("driver_speed", "hand", "contact", "lies", "handicap"):
        try:
            read_answer(FACTS[id], text)
        except AnswerProblem as problem:
            told = str(problem)
        else:
            told = "read"
        assert told


def test_house_is_the_one_under_test(house: House) -> None:
    assert house.base.facts.keys() == FACTS.keys()
