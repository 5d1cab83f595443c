"""What would have made a rule speak, in words: every comparison and its opposite."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

from interview.views.inquiry.nearness import near_sentence
from interview.views.inquiry.words import Words
from rules.engine import assumed, known
from rules.engine.language import Assumed, Atom
from rules.engine.trace import Traced
from rules.engine.truth import FALSE, TRUE
from rules.fitting import Outcome
from rules.inquiry.ledgers import Near

DEGREE = math.pi / 180
UP_AND_NOT = {
    "below": (Atom("loft", "below", 15 * DEGREE), "below 15 deg", "at least 15 deg"),
    "at_most": (Atom("loft", "at_most", 15 * DEGREE), "at most 15 deg", "above 15 deg"),
    "between": (
        Atom("loft", "between", (15 * DEGREE, 18 * DEGREE)),
        "between 15 deg and 18 deg",
        "below 15 deg or above 18 deg",
    ),
}


@pytest.fixture
def said(fitted: Callable[..., Outcome]) -> Words:
    return Words(fitted({"driver_speed": "92 mph"}), "imperial")


def near(said: Words, fact: str, atom: Any, value: Any, truth: int = FALSE) -> str:
    """What is said of a rule that this comparison kept silent."""
    view = known(value) if value is not None else assumed("fade", open=False)
    blocker = Traced(atom, truth, fact, view)
    rule = next(iter(said.base.rules.values()))
    return near_sentence(Near(rule, blocker, fact, view, None, 0.5), said)


@pytest.mark.parametrize("op", UP_AND_NOT)
def test_a_number_is_told_to_which_side(said: Words, op: str) -> None:
    atom, wanted, opposite = UP_AND_NOT[op]
    fact = next(id for id, one in said.base.facts.items() if one.kind == "number" and one.unit == "deg")
    atom = Atom(fact, atom.op, atom.value)
    title = said.title(fact)
    assert near(said, fact, atom, 20 * DEGREE) == f"the {title} would have to be {wanted}; it is 20 deg"
    assert f"would have to be {opposite};" in near(said, fact, atom, 16 * DEGREE, TRUE)


def test_a_threshold_of_the_rule_base_is_told_by_its_value(said: Words) -> None:
    assumption = next(one for one in said.base.assumptions.values() if one.unit == "in" and one.range)
    fact = next(id for id, one in said.base.facts.items() if one.kind == "number" and one.unit == "in")
    told = near(said, fact, Atom(fact, "above", Assumed(assumption.id)), 0.5)
    assert f"above {said.value(fact, assumption.value)};" in told


def test_words_are_told_as_a_choice(said: Words) -> None:
    some = Atom("miss", "one_of", frozenset(("left", "right")))
    assert "would have to be left or right; it is straight" in near(said, "miss", some, "straight")
    assert "anything but left or right;" in near(said, "miss", some, "left", TRUE)
    other = Atom("miss", "is_not", "left")
    assert "anything but left;" in near(said, "miss", other, "left")


def test_what_nobody_knows_would_have_to_be_known(said: Words) -> None:
    atom = Atom("curve", "known", True)
    title = said.title("curve")
    assert near(said, "curve", atom, None) == f"the {title} would have to be known; it is fade"
    assert "would have to be unknown;" in near(said, "curve", atom, "fade", TRUE)
    assert near(said, "curve", None, "fade") == f"the {title} is not known"
