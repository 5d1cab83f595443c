"""What people type, and what it is taken for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import pytest

from interview.conversation import means_unknown, typed
from interview.wording.words import words
from rules.facts.answers import AnswerProblem, read_answer

if TYPE_CHECKING:
    from rules.engine.language import Fact

    Facts = Mapping[str, Fact]


def taken(facts: Facts, question: str, text: str) -> object:
    asked = words().asked(facts[question], "customer")
    return read_answer(facts[question], typed(facts[question], asked, text)).value


@pytest.mark.parametrize(
    "text",
    ["dk", "idk", "DK.", "I don't know", "i don’t know!", "dont know", "Not sure", "no idea", "Unsure"],
)
def test_ways_of_not_knowing(text: str) -> None:
    assert means_unknown(text)


@pytest.mark.parametrize("text", ["", "none", "no", "never_tried", "I know", "?", "-", "18"])
def test_answers_are_not_taken_for_not_knowing(text: str) -> None:
    assert not means_unknown(text)


@pytest.mark.parametrize(
    ("question", "text", "value"),
    [
        ("hand", "2", "left"),
        ("hand", "Left-handed", "left"),
        ("hand", "l", "left"),
        ("pain", "No, I feel fine", "no"),
        ("pain", "yes, my back", "yes"),
        ("pain", "nope", "no"),
        ("turf_mark", "takes grass and soil", "divot"),
        ("turf_mark", "bruise", "bruise"),
        ("turf_mark", "nothing", "none"),
        ("hits_five_wood", "never", "never_tried"),
        ("type_preference", "hybrid", "hybrid"),
        ("contact", "1 3", frozenset(("centred", "fat"))),
        ("contact", "thin and 5", frozenset(("thin", "heel"))),
        ("contact", "a bit of everything", frozenset(("scattered",))),
        ("contact", "thin near the shaft", frozenset(("thin", "heel"))),
        ("contact", "thin heel", frozenset(("thin", "heel"))),
    ],
)
def test_a_choice_is_a_number_a_word_or_enough_of_its_label(
    question: str, text: str, value: object, facts: Facts
) -> None:
    assert taken(facts, question, text) == value


@pytest.mark.parametrize(
    ("text", "shares"),
    [
        ("1, 6", {"tight_fairway": 0.5, "tee": 0.5}),
        ("1 6", {"tight_fairway": 0.5, "tee": 0.5}),
        ("short grass 50, rough 30, tee 20", {"tight_fairway": 0.5, "rough": 0.3, "tee": 0.2}),
        ("50 % short grass, 50 a tee", {"tight_fairway": 0.5, "tee": 0.5}),
        ("1=75; 6=25", {"tight_fairway": 0.75, "tee": 0.25}),
        ("tee 1 and sand 1", {"sand": 0.5, "tee": 0.5}),
        ("short grass 50 rough 30 tee 20", {"tight_fairway": 0.5, "rough": 0.3, "tee": 0.2}),
        ("50 short grass 30 rough 20 tee", {"tight_fairway": 0.5, "rough": 0.3, "tee": 0.2}),
        ("sand tee", {"sand": 0.5, "tee": 0.5}),
        ("30 50 20", {"tight_fairway": 0.3, "fairway": 0.5, "rough": 0.2}),
        ("30% 50% 0 0 0 20%", {"tight_fairway": 0.3, "fairway": 0.5, "tee": 0.2}),
    ],
)
def test_shares_are_given_in_any_order(text: str, shares: Mapping[str, float], facts: Facts) -> None:
    assert taken(facts, "lies", text) == pytest.approx(shares)


@pytest.mark.parametrize(
    ("question", "text"),
    [
        ("lies", "tee 50, rough"),
        ("lies", "moon 50"),
        ("lies", "7"),
        ("hand", "3"),
        ("hand", "0"),
        ("hand", "handed"),
        ("contact", "1 9"),
        ("contact", "thin, , wonky"),
        ("handicap", "eighteen"),
        ("driver_speed", "85 yards"),
        ("hand", "²"),
        ("lies", "50"),
        ("lies", "10 10 10 10 10 10 40"),
        ("lies", "sand moon"),
        ("contact", "thin wonky"),
    ],
)
def test_what_means_nothing_is_refused_with_the_fact_named(question: str, text: str, facts: Facts) -> None:
    with pytest.raises(AnswerProblem) as caught:
        taken(facts, question, text)
    assert str(caught.value).startswith(facts[question].title)


@pytest.mark.parametrize(
    ("text", "how"),
    [
        ("85", "said"),
        ("85 mph, measured", "measured"),
        ("85 mph (measured)", "measured"),
        ("about 85", "estimated"),
        ("~85 mph", "estimated"),
        ("85 or so", "estimated"),
        ("85 a guess", "estimated"),
        ("85 meas", "measured"),
        ("85 est.", "estimated"),
    ],
)
def test_a_number_may_say_how_it_is_known(text: str, how: str, facts: Facts) -> None:
    fact = facts["driver_speed"]
    answer = read_answer(fact, typed(fact, words().asked(fact, "fitter"), text))
    assert answer.how == how
    assert answer.value == pytest.approx(85 * 0.44704)
