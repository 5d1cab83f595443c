"""A study in words: what would change it, how sure it is, what it leans on; for a golfer and the trade."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import pytest

from interview.session import Voice
from interview.views.inquiry.asked import explained
from interview.views.inquiry.explain_text import explain_text
from rules.fitting import Outcome
from rules.inquiry.flips import FactFlips, Flip
from rules.inquiry.leans import Lean, Swing
from rules.inquiry.overtake import Overtake
from rules.inquiry.steady import Steady
from rules.inquiry.study import Study
from rules.inquiry.sure import Sure, When, Winner
from rules.inquiry.values import Trial

GOLFER = {"driver_speed": {"value": "92 mph", "how": "measured"}, "handicap": 15, "hits_five_wood": "well"}
MPH = 0.44704
RIVAL = "fairway-18+hybrid-22"
"""A pair that another answer would give."""
NAMED = "a 5-wood of 18 degrees and a 4-hybrid of 22 degrees"


@pytest.fixture
def outcome(fitted: Callable[..., Outcome]) -> Outcome:
    return fitted(GOLFER)


def flip(fact: str, now: Any, to: Any, direction: Any = "", pick: str = RIVAL, far: float = 1.0) -> FactFlips:
    """What moving one fact alone does to the pair."""
    trial = Trial(fact, to, {}, direction)
    return FactFlips(fact, (Flip(fact, now, to, direction, "pairing", pick, far, trial),), ())


def told(outcome: Outcome, voice: Voice, **parts: Any) -> str:
    """What a study with these parts comes to, as one line."""
    assert outcome.picked is not None
    found = Study(outcome.picked.id, RIVAL, complete=True)
    of = explained(outcome, "pairing", None, replace(found, **parts), "imperial")
    text = explain_text(of, voice)
    assert max(map(len, text.splitlines())) <= 80
    return " ".join(text.split())


FLIPS = (
    flip("handicap", 15.0, 24.0, "up", far=0.5),
    flip("lies.tight_fairway", 0.2, 0.6, "up", far=0.7),
    flip("turf_mark", "brush", "divot", far=0.9),
    flip("curve", None, "slice", far=0.95),
    flip("attack_angle", math.radians(-2), math.radians(-5), "down"),
    FactFlips("wind", (), ()),
)


def test_the_trade_reads_every_change_with_what_is_and_what_it_gives(outcome: Outcome) -> None:
    said = told(outcome, "fitter", flips=FLIPS)
    assert f"It would be {NAMED} ({RIVAL}): - handicap: 24 or more (now 15)." in said
    assert said.count(NAMED) == 1
    assert "turf mark: divot (now brush)." in said
    assert "-5 deg or less (now -2 deg)." in said
    assert "Nothing within their range changes it: wind." in said
    assert said.index("handicap: 24") < said.index("turf mark: divot")


def test_a_golfer_hears_what_he_could_have_said_and_no_word_of_the_bench(outcome: Outcome) -> None:
    said = told(outcome, "customer", flips=FLIPS)
    assert f"It would be {NAMED}: - if your handicap were 24 or more." in said
    assert RIVAL not in said
    assert "attack" not in said
    assert "Nothing within their range" not in said


def test_where_nothing_changes_it_that_is_said(outcome: Outcome) -> None:
    assert "Nothing within its range, changed alone." in told(outcome, "fitter", flips=(FLIPS[-1],))
    assert "Nothing that you could well have said otherwise" in told(outcome, "customer", flips=(FLIPS[-1],))


def test_what_the_runner_up_would_take(outcome: Outcome) -> None:
    two = Overtake(RIVAL, (Trial("handicap", 24.0, {}, "up"), Trial("turf_mark", "divot", {})), True, ())
    said = told(outcome, "fitter", overtake=two)
    assert "to win it takes handicap 24 or more and turf mark divot together" in said
    assert "to win it takes" not in told(outcome, "customer", overtake=two)
    vain = Overtake(RIVAL, (), True, ("handicap", "turf_mark"))
    assert "no two or three of handicap and turf mark together, makes the runner-up win" in told(
        outcome, "fitter", overtake=vain
    )
    assert "runner-up" not in told(outcome, "customer", overtake=vain)


SURE = Sure(
    "", 0.834, 0.021, 0.93, 128,
    (
        Winner(RIVAL, 0.12, (When("handicap", 6.2, ""), When("turf_mark", 0.0, "divot"))),
        Winner("", 0.04, ()),
    ),
)  # fmt: skip


def test_how_sure_is_told_by_hundreds_with_who_wins_otherwise_and_when(outcome: Outcome) -> None:
    said = told(outcome, "fitter", sure=SURE)
    assert "stays in 83 % of 128 draws" in said
    assert "(standard error 2 %)" in said
    assert f"12 %: a 5-wood of 18 degrees and a 4-hybrid of 22 degrees ({RIVAL}), mostly with" in said
    assert "handicap (6.2 more than taken) and turf mark (divot)." in said
    assert "4 %: no pair." in said
    plain = told(outcome, "customer", sure=SURE)
    assert "these two come out 83 times in a hundred" in plain
    assert "two much like them 93 times in a hundred" in plain
    sometimes = told(outcome, "customer", sure=replace(SURE, share=0.998, near=0.002))
    assert "come out always" in sometimes
    assert "like them never" in sometimes


@pytest.mark.parametrize(
    ("fact", "by", "words"),
    [
        ("driver_speed", 4.2 * MPH, "4.2 mph more than taken"),
        ("driver_speed", -14.2 * MPH, "14 mph less than taken"),
        ("temperature", -8.0, "14 degrees Fahrenheit less than taken"),
        ("attack_angle", math.radians(1.5), "1.5 degrees more than taken"),
    ],
)
def test_how_far_off_is_told_as_a_person_would(outcome: Outcome, fact: str, by: float, words: str) -> None:
    winner = Winner(RIVAL, 0.2, (When(fact, by, ""),))
    assert words in told(outcome, "fitter", sure=replace(SURE, others=(winner,)))


def test_open_questions_that_matter_are_named(outcome: Outcome) -> None:
    needed: Mapping[str, float] = {"miss": 0.4, "lies": 0.2}
    wavering = Steady(False, 40, {RIVAL: 0.3}, needed)
    said = told(outcome, "fitter", sure=SURE, steady=wavering)
    assert "Questions still open could change the pair; most of it hangs on" in said
    firm = replace(wavering, steady=True)
    assert "the pair stays" in told(outcome, "fitter", sure=SURE, steady=firm)
    assert "it stays these two" in told(outcome, "customer", sure=SURE, steady=firm)
    most = told(outcome, "customer", sure=SURE, steady=wavering)
    assert "could still change it, most of all where your misses go and where your ball lies." in most


LEANS = (
    Lean("second-flight-law", "law", None, (Swing(None, ("pairing",), {"pairing": RIVAL}, None),)),
    Lean("prefer-the-wood", "school", None, (Swing(None, ("pairing",), {"pairing": RIVAL}, None),)),
    Lean("raise-fairway", "assumption", 0.0025, (Swing(0.004, ("pairing",), {"pairing": RIVAL}, None),)),
    Lean("ball-speed-error", "assumption", 1.0, (Swing(2.0, ("longer.length",), {}, 900),)),
    Lean("launch-error", "assumption", 1.0, (Swing(2.0, (), {}, 1200),)),
)


def test_what_it_leans_on_says_what_each_end_would_give(outcome: Outcome) -> None:
    said = told(outcome, "fitter", leans=LEANS)
    assert f"It would be {NAMED} ({RIVAL}): - by the second flight law." in said
    assert "by the other school's view of prefer-the-wood." in said
    assert "with raise-fairway at 4 mm (taken 2.5 mm)." in said
    assert (
        "2 more were swung over their range: 1 changes how a club is built and the others change nothing."
        in said
    )
    assert "Some figures we had to assume could change it" in told(outcome, "customer", leans=LEANS)
    assert "No figure that we had to assume would change it" in told(outcome, "customer", leans=LEANS[-1:])
