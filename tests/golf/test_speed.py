"""Head speed against club, length and carry."""

from __future__ import annotations

import math

import pytest

from rules.golf.air import density
from rules.golf.coefficients import LAWS, Law
from rules.golf.impact import Clubhead
from rules.golf.speed import (
    Swing,
    best_loft,
    carry_ceiling,
    centred_flight,
    club_speed,
    speed_for_carry,
    with_length,
)
from rules.problems import Problem

AIR = density(293.15, 0.5, 0.0)
FIVE_WOOD = Swing(math.radians(15), math.radians(-3), Clubhead(0.222, 0.82, 0.2))
DRIVER = Clubhead(0.200, 0.83, 0.0)
MPH = 0.44704


def test_between_clubs_speed_falls_by_ratio() -> None:
    assert club_speed(90.0, 0.955) == pytest.approx(85.95)


def test_within_a_club_speed_follows_length() -> None:
    assert with_length(40.0, 0.0254, 0.006) == pytest.approx(40.24)
    assert with_length(40.0, -2 * 0.0254, 0.006) == pytest.approx(40.0 * 0.988)
    assert with_length(40.0, 0.0, 0.006) == 40.0


@pytest.mark.parametrize("ratio", [0.0, 1.5, math.nan])
def test_a_ratio_that_is_none_is_refused(ratio: float) -> None:
    with pytest.raises(Problem, match="ratio"):
        club_speed(40.0, ratio)


@pytest.mark.parametrize("rate", [0.6, -0.5, math.nan])
def test_a_rate_that_is_none_is_refused(rate: float) -> None:
    with pytest.raises(Problem, match="an inch"):
        with_length(40.0, 0.01, rate)


@pytest.mark.parametrize("law", LAWS)
@pytest.mark.parametrize("mph", [45, 62, 80, 95, 118])
def test_speed_for_carry_turns_a_carry_back(law: Law, mph: float) -> None:
    carry = centred_flight(mph * MPH, FIVE_WOOD, AIR, law).carry
    assert speed_for_carry(carry, FIVE_WOOD, AIR, law) == pytest.approx(mph * MPH, abs=1e-3)


@pytest.mark.parametrize("carry", [-10.0, 0.5, 500.0, math.nan])
def test_a_carry_that_no_speed_gives_is_refused(carry: float) -> None:
    with pytest.raises(Problem, match="no head speed"):
        speed_for_carry(carry, FIVE_WOOD, AIR)


def test_ceiling_rises_with_speed_and_thin_air() -> None:
    heights = [carry_ceiling(mph * MPH, AIR) for mph in range(50, 125, 10)]
    assert heights == sorted(heights)
    assert carry_ceiling(90 * MPH, density(293.15, 0.5, 1800.0)) > carry_ceiling(90 * MPH, AIR)


def test_no_centred_strike_passes_the_ceiling() -> None:
    for mph in (60, 90, 115):
        ceiling = carry_ceiling(mph * MPH, AIR)
        for loft in range(8, 24, 2):
            swing = Swing(math.radians(loft), math.radians(5), DRIVER)
            assert centred_flight(mph * MPH, swing, AIR).carry < ceiling


def test_ceiling_wants_a_speed() -> None:
    for speed in (0.0, 90.0, math.nan):
        with pytest.raises(Problem, match="head speed"):
            carry_ceiling(speed, AIR)


def test_best_loft_is_a_summit_and_falls_with_speed() -> None:
    lofts = [best_loft(mph * MPH, AIR, DRIVER) for mph in (65, 80, 95, 115)]
    assert lofts == sorted(lofts, reverse=True)
    best = lofts[1]
    carries = [centred_flight(80 * MPH, Swing(best + a, 0.0, DRIVER), AIR).carry for a in (-0.05, 0.0, 0.05)]
    assert carries[1] > max(carries[0], carries[2])
