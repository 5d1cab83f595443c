"""What was taken by hand, in words: its price, and what is said when it can no longer be followed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from interview.views.bay.price import price_of, price_words
from interview.views.outcome import outcome_view
from interview.views.outcome_text import text_of
from rules.fitting import Outcome
from rules.overrides import Overridden

YARD = 0.9144
TAKEN = Overridden("longer.length", "42 in", "43 in", "he liked the demo", -0.42, 3 * YARD, 6.1, False)


@pytest.fixture
def outcome(fitted: Callable[..., Outcome]) -> Outcome:
    return fitted({"driver_speed": "92 mph", "handicap": 15})


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({}, "gives up 0.42 points, 3 yd more of expected carry, reads 6.1 points heavier"),
        ({"points": 0.5, "carry": -2 * YARD}, "gains 0.50 points, 2 yd less of expected carry, reads 6.1"),
        ({"points": 0.001, "carry": 0.1, "balance": 0.0}, "no points either way"),
        ({"balance": -1.25, "carry": 0.0}, "gives up 0.42 points, reads 1.2 points lighter"),
    ],
)
def test_a_price_names_only_what_it_costs(changed: dict[str, float], words: str) -> None:
    assert price_words(replace(TAKEN, **changed), "imperial").startswith(words)  # type: ignore[arg-type]


def test_an_override_is_priced_only_where_it_does_something(outcome: Outcome) -> None:
    def said(*overridden: Overridden) -> tuple[str, bool]:
        return price_of(replace(outcome, overridden=overridden), "longer.length", "imperial")

    assert said(TAKEN)[0].startswith("Its price: gives up 0.42 points")
    assert said(replace(TAKEN, stale=True)) == ("The rules decide the same by themselves.", True)
    cannot = "That cannot be followed with the answers as they are."
    assert said(replace(TAKEN, followed=False)) == (cannot, False)
    assert said() == ("There is no pair, so there is nothing to decide.", False)


def test_the_outcome_tells_what_was_taken_by_hand_and_whether_it_still_matters(outcome: Outcome) -> None:
    def told(taken: Overridden) -> str:
        view = outcome_view(replace(outcome, overridden=(taken,)))
        return " ".join(text_of(view).split())

    assert "TAKEN BY HAND" in told(TAKEN)
    assert "instead of" in told(TAKEN)
    assert "(he liked the demo). Price: -0.42 points, +3 yd of carry, +6.1 points of balance." in told(TAKEN)
    assert "The rules now decide the same by themselves." in told(replace(TAKEN, stale=True))
    assert "cannot be followed with the answers as they are now." in told(replace(TAKEN, followed=False))
    assert "TAKEN BY HAND" not in " ".join(text_of(outcome_view(outcome)).split())
