"""A decision explained: by hand, against what cannot be or another amount, and for a golfer who hurts."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from interview.session import Voice
from interview.views.inquiry.asked import explained
from interview.views.inquiry.explain_json import explain_json
from interview.views.inquiry.explain_text import explain_text
from rules.engine.ledger import Choice
from rules.fitting import Outcome

GOLFER = {"driver_speed": {"value": "92 mph", "how": "measured"}, "handicap": 15, "hits_five_wood": "well"}
Fitted = Callable[..., Outcome]


def told(outcome: Outcome, decision: str, instead: str | None = None, voice: Voice = "fitter") -> str:
    """An explanation as one line; none of its lines is wider than a page."""
    text = explain_text(explained(outcome, decision, instead, None, "imperial"), voice)
    assert max(map(len, text.splitlines())) <= 80
    return " ".join(text.split())


def test_somebody_who_hurts_is_told_to_stop_before_anything_else(fitted: Fitted) -> None:
    outcome = fitted({**GOLFER, "pain": "yes"})
    for voice in ("fitter", "customer", "trainer"):
        assert told(outcome, "pairing", voice=voice).startswith("First of all: swinging hurts. Stop here")
    assert "swinging hurts" not in told(fitted(GOLFER), "pairing")


def test_what_was_taken_by_hand_is_said_to_be(fitted: Fitted) -> None:
    engine = fitted(GOLFER)
    assert engine.picked is not None
    other = next(id for id in engine.pairs if id != engine.picked.id)
    outcome = fitted(GOLFER, overrides={"pairing": {"value": other}, "longer.length": {"value": "43 in"}})
    assert "It was taken by hand." in told(outcome, "pairing")
    said = told(outcome, "longer.length")
    assert "43 in" in said
    assert "It was taken by hand." in said
    data = explain_json(explained(outcome, "longer.length", None, None, "imperial"), "x")
    assert data["pick"] == pytest.approx(43)
    assert "taken by hand" not in told(engine, "pairing")


def test_a_candidate_that_is_ruled_out_says_what_rules_it_out(fitted: Fitted) -> None:
    outcome = fitted(GOLFER)
    rung = outcome.clubs[0].rung
    decision, out = next(
        (part, one)
        for part, made in rung.decisions.items()
        if isinstance(made, Choice)
        for one in made.standings
        if one.is_ruled_out
    )
    said = told(outcome, f"longer.{decision}", out.candidate.id)
    assert "It cannot be: " in said
    of = explained(outcome, f"longer.{decision}", out.candidate.id, None, "imperial")
    why_not = explain_json(of, "x")["why_not"]
    assert why_not["instead"] == out.candidate.id
    assert why_not["ruled_out"] == [line.rule.id for line in out.ruled_out if line.rule is not None]


def test_an_amount_is_held_against_one_above_one_below_and_itself(fitted: Fitted) -> None:
    outcome = fitted(GOLFER)
    mine = explained(outcome, "longer.length", None, None, "imperial").decision
    assert isinstance(mine.pick, int)
    inches = mine.pick / 1000
    assert "It is what was decided." in told(outcome, "longer.length", f"{inches} in")
    for off in (-0.5, 0.5):
        said = told(outcome, "longer.length", f"{inches + off} in")
        assert "WHY NOT" in said
        assert "It is what was decided." not in said
        data = explain_json(explained(outcome, "longer.length", f"{inches + off} in", None, "imperial"), "x")
        lines = data["why_not"]["lines"]
        assert {one["way"] for one in lines} <= {"against", "toward"}
    assert "It is outside what is allowed here." in told(outcome, "longer.length", "55 in")


def test_the_trainer_hears_what_a_rule_that_nearly_spoke_teaches(fitted: Fitted) -> None:
    outcome = fitted(GOLFER)
    near = explained(outcome, "pairing", None, None, "imperial").near
    said = told(outcome, "pairing", voice="trainer")
    assert near
    assert any(" ".join(one.rule.teaches.split()) in said for one in near)
    assert not any(" ".join(one.rule.teaches.split()) in told(outcome, "pairing") for one in near)
