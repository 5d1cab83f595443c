"""From answers to facts: routes to a speed, shapes for the hand, lies, strikes, and what still waits."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rules.facts.golfer import Golfer, golfer
from rules.facts.subject import Subject
from rules.fitting import House
from rules.units import parse

MPH = parse("1 mph", "m/s")
DEG = parse("1 deg", "rad")


@pytest.fixture
def player(house: House, subject: Callable[..., Subject]) -> Callable[..., Golfer]:
    def make(answers: dict[str, Any] | None = None, **parts: Any) -> Golfer:
        return golfer(house.base, subject(answers, **parts))

    return make


def test_the_narrowest_speed_route_wins(player: Callable[..., Golfer]) -> None:
    both = player({"driver_speed": "95 mph", "fairway_speed": {"value": "86 mph", "how": "measured"}})
    assert both.word("speed_route") == "fairway_speed"
    assert both.number("driver_head_speed") / MPH == pytest.approx(86 / 0.955)
    assert player({"driver_speed": "95 mph"}).number("driver_head_speed") / MPH == pytest.approx(95)


def test_nobody_said_a_speed_and_the_house_value_stands(player: Callable[..., Golfer]) -> None:
    nobody = player()
    assert nobody.word("speed_route") == "assumed"
    assert nobody.known["driver_head_speed"].waits >= {"driver_speed", "driver_carry"}


def test_any_direct_speed_is_enough(player: Callable[..., Golfer]) -> None:
    assert player({"driver_speed": "95 mph"}).known["driver_head_speed"].waits == frozenset()


@pytest.mark.parametrize(("carry", "mph"), [("215 yd", 90), ("179 yd", 75)])
def test_driver_carry_leads_back_to_a_speed(player: Callable[..., Golfer], carry: str, mph: float) -> None:
    # Ceilings of carry for a centred strike, common practice: 215 yd at 90 mph, 179 yd at 75 mph.
    # 12 degrees off a level blow is not the best delivery, so the way back lands above the ceiling's speed.
    found = player({"driver_carry": carry, "driver_loft": "12 deg"}).number("driver_head_speed") / MPH
    assert mph <= found <= mph + 11


def test_a_claim_beyond_physics_is_measured_and_not_used(player: Callable[..., Golfer]) -> None:
    # Case of the trade A40: 90 mph cannot carry 250 yd; a perfect strike carries about 215 (common practice).
    bold = player({"driver_speed": {"value": "90 mph", "how": "measured"}, "driver_carry": "250 yd"})
    assert bold.number("claimed_excess") / 0.9144 == pytest.approx(250 - 215, abs=6)
    assert bold.number("driver_head_speed") / MPH == pytest.approx(90)
    assert bold.number("speed_disagreement") > 1


@pytest.mark.parametrize(
    ("answers", "shape"),
    [
        ({"hand": "right", "miss": "right"}, "slice_side"),
        ({"hand": "right", "miss": "left"}, "hook_side"),
        ({"hand": "left", "miss": "left"}, "slice_side"),
        ({"hand": "left", "miss": "right"}, "hook_side"),
        ({"hand": "left", "curve": "slice"}, "slice_side"),
        ({"hand": "right", "curve": "hook", "miss": "right"}, "hook_side"),
        ({"miss": "both"}, "both"),
        ({"miss": "straight"}, "straight"),
    ],
)
def test_sides_become_shapes(player: Callable[..., Golfer], answers: dict[str, str], shape: str) -> None:
    assert player(answers).word("shape") == shape


def test_the_tightest_lie_that_matters_rules(player: Callable[..., Golfer]) -> None:
    assert player({"lies": {"tight_fairway": 20, "rough": 80}}).lies.tightest.name == "tight_fairway"
    assert player({"lies": {"tight_fairway": 10, "rough": 90}}).lies.tightest.name == "rough"


def test_delivered_loft_follows_skill_speed_and_evidence(player: Callable[..., Golfer]) -> None:
    fast = player({"handicap": 2, "driver_speed": "112 mph", "flight": "medium", "airborne_of_six": 6})
    novice = player({"handicap": 32, "driver_speed": "80 mph", "flight": "medium", "airborne_of_six": 6})
    low = player({"handicap": 18, "driver_speed": "88 mph", "flight": "low", "airborne_of_six": 2})
    assert fast.number("delivered_loft_change") / DEG == pytest.approx(-1.5)
    assert novice.number("delivered_loft_change") / DEG == pytest.approx(1.5)
    assert low.number("delivered_loft_change") < 0


def test_unknown_handicap_takes_the_usual_score(player: Callable[..., Golfer]) -> None:
    scored = player({"handicap": {"unknown": True}, "typical_score": 95})
    assert scored.number("skill") == pytest.approx(23)
    # The score stops acting once the handicap is known, and comes back when it is withdrawn.
    both = player({"handicap": 10, "typical_score": 95})
    assert both.number("skill") == 10


def test_own_marks_replace_the_answers(player: Callable[..., Golfer]) -> None:
    club = {"name": "demo", "kind": "fairway"}
    tight = [
        {"club": "demo", "toe_mm": t, "high_mm": h}
        for t, h in [(1, 0), (-2, 1), (2, -1), (0, 1), (-1, 0), (1, 1)]
    ]
    seen = player({"handicap": 30, "contact": "scattered"}, trial_clubs=[club], shots=tight)
    blind = player({"handicap": 30, "contact": "scattered"})
    assert seen.word("strike_from") == "marks"
    assert seen.pattern.sd_toe < 0.75 * blind.pattern.sd_toe
    assert blind.word("strike_from") == "answers"


def test_counted_balls_correct_the_mishits(player: Callable[..., Golfer]) -> None:
    club = {"name": "demo", "kind": "fairway"}
    bad = [{"club": "demo", "outcome": "topped"}] * 5 + [{"club": "demo", "outcome": "up"}]
    hit, blind = player({"handicap": 15}, trial_clubs=[club], shots=bad), player({"handicap": 15})
    assert hit.mishits["fairway"].topped > blind.mishits["fairway"].topped + 0.2
    assert hit.mishits["hybrid"] == blind.mishits["hybrid"]


def test_published_mishit_rates_come_out(player: Callable[..., Golfer]) -> None:
    # On-course sensor data reported in a golf magazine: 15-handicap fairway wood 19 % from the fairway.
    fifteen = player({"handicap": 15, "contact": "centred", "lies": {"fairway": 100}})
    scratch = player({"handicap": 0, "contact": "centred", "lies": {"fairway": 100}})
    assert 1 - fifteen.mishits["fairway"].clean == pytest.approx(0.19)
    assert 1 - scratch.mishits["fairway"].clean == pytest.approx(0.09)


def test_a_fact_that_waits_is_open_and_an_answer_closes_it(player: Callable[..., Golfer]) -> None:
    assert player().views["tempo"].status == "open"
    assert player({"tempo": "smooth"}).views["tempo"].status == "known"
    assert player({"tempo": {"unknown": True}}).views["tempo"].status == "unknown"
    assert player({"tempo": {"unknown": True}}).views["tempo"].best == "medium"
