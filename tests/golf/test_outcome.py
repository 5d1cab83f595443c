"""What comes of swings: shares, counts, expected carry and use."""

from __future__ import annotations

import math

import pytest

from rules.golf.flight import Flight, Launch
from rules.golf.impact import Clubhead, strike
from rules.golf.outcome import Outcomes, Worth, over_lies, play, speed_kept, usefulness
from rules.golf.quadrature import Strike
from rules.problems import Problem

WORTH = Worth(topped=0.1, thin=0.6, fat=0.5, useless_apex=8.0, useful_apex=16.0)
HEAD = Clubhead(0.215, 0.82, 0.2, 0.02, 1500e-7, 2300e-7)
CENTRE = [Strike(0.0, 0.0, 1.0)]


def high_flier(launch: Launch) -> Flight:
    return Flight(180.0, 12.0, 0.7, 5.0, False)


def test_expected_carry_is_a_sum_over_outcomes() -> None:
    found = play(38.0, (0.2, -0.05), HEAD, CENTRE, Outcomes(0.05, 0.10, 0.05), WORTH, high_flier)
    assert found.clean == pytest.approx(180.0)
    # 0.80 clean + 0.05 x 0.1 + 0.10 x 0.6 + 0.05 x 0.5
    assert found.expected == pytest.approx(180.0 * (0.80 + 0.005 + 0.06 + 0.025))
    # half useful at 12 m, and only when clean
    assert found.usable_share == pytest.approx(0.80 * 0.5)
    assert found.centred == high_flier(strike(38.0, 0.2, -0.05, HEAD))


@pytest.mark.parametrize(("apex", "expected"), [(0, 0), (8, 0), (10, 0.25), (16, 1), (30, 1)])
def test_use_rises_in_a_ramp(apex: float, expected: float) -> None:
    assert usefulness(apex, WORTH) == pytest.approx(expected)
    step = Worth(0.1, 0.6, 0.5, 12.0, 12.0)
    assert usefulness(apex, step) == (1.0 if apex >= 12 else 0.0)


def test_outcomes_over_lies_are_weighed() -> None:
    tee, rough = Outcomes(0.0, 0.02, 0.0), Outcomes(0.1, 0.1, 0.2)
    both = over_lies([(1, tee), (3, rough)])
    assert (both.topped, both.thin, both.fat) == pytest.approx((0.075, 0.08, 0.15))
    assert both.clean == pytest.approx(0.695)
    with pytest.raises(Problem, match="lie"):
        over_lies([(0, tee)])


@pytest.mark.parametrize("shares", [(-0.1, 0, 0), (0.5, 0.4, 0.2), (math.nan, 0, 0)])
def test_shares_that_are_none_are_refused(shares: tuple[float, float, float]) -> None:
    with pytest.raises(Problem, match="shares"):
        Outcomes(*shares)


def test_ball_speed_kept_does_not_depend_on_head_speed() -> None:
    strikes = [Strike(0.0, 0.0, 0.5), Strike(0.01, -0.004, 0.5)]
    fast, fast_off = (strike(45.0, 0.2, -0.05, HEAD, one.toe, one.high).speed for one in strikes)
    assert speed_kept((0.2, -0.05), HEAD, strikes) == pytest.approx((fast + fast_off) / 2 / fast)
    assert speed_kept((0.2, -0.05), HEAD, CENTRE) == pytest.approx(1.0)
