"""Balance by hand: every build is worked out in the comment beside it."""

from __future__ import annotations

import math

import pytest

from rules.bench import balance as b
from rules.bench.problems import HeadTooNearFulcrum, NoParts, OutOfRange, TargetOutOfReach
from rules.units import UNITS

INCH = UNITS["in"].factor
GRAM = UNITS["g"].factor
G_IN = INCH * GRAM


def part(grams: float, inches: float, length: float = 0.0) -> b.Part:
    return b.Part(grams * GRAM, inches * INCH, length * INCH)


def test_a_three_part_club_by_hand() -> None:
    # 215 * 28.4 = 6106.0; 65 * 7 = 455.0; 50 * -10 = -500.0; sum 6061.0 g*in
    # 6061.0 / 28.349523 = 213.795 oz*in; (213.795 - 213.5) / 1.75 = 0.169 points from D0
    read = b.balance([part(215, 42.4), part(65, 21), part(50, 4)])
    assert read.moment / G_IN == pytest.approx(6061.0)
    assert read.points == pytest.approx(0.169, abs=0.001)
    assert read.total / GRAM == pytest.approx(330.0)
    # 14 + 6061 / 330 = 32.367 in
    assert read.balance_point / INCH == pytest.approx(32.3667, abs=0.0001)


def test_inertia_about_the_butt_by_hand() -> None:
    # 212 g at 42.4 in: 0.212 * 1.07696^2 = 0.245886; 65 g at 21 in: 0.065 * 0.5334^2 = 0.018494
    # the shaft's own, 41 in long: 0.065 * 1.0414^2 / 12 = 0.005874; 50 g at 4 in: 0.05 * 0.1016^2 = 0.000516
    read = b.balance([part(212, 42.4), part(65, 21, 41), part(50, 4)])
    assert read.inertia == pytest.approx(0.245886 + 0.018494 + 0.005874 + 0.000516, abs=2e-6)


def test_points_and_moments_are_each_others_inverse() -> None:
    for points in (-30.0, -0.1, 0.0, 2.5, 20.0):
        assert b.points(b.moment(points)) == pytest.approx(points, abs=1e-9)


def test_the_head_that_is_asked_for_gives_the_reading_that_was_asked_for() -> None:
    others = [part(65, 21), part(50, 4)]
    mass = b.head_mass_for(1.5, others, 42.4 * INCH)
    assert b.balance([*others, b.Part(mass, 42.4 * INCH)]).points == pytest.approx(1.5, abs=1e-9)


def test_the_head_that_is_asked_for_gives_the_inertia_that_was_asked_for() -> None:
    others = [part(65, 21, 41), part(50, 4)]
    mass = b.head_mass_for_inertia(0.28, others, 42.4 * INCH)
    assert b.balance([*others, b.Part(mass, 42.4 * INCH)]).inertia == pytest.approx(0.28)


def test_a_finished_club_has_no_inertia_until_its_parts_are_known() -> None:
    assert b.finished(390 * GRAM, 29.5 * INCH).inertia is None


def test_mass_in_the_butt_lowers_the_reading_and_leaves_inertia_alone() -> None:
    before = b.balance([part(212, 42.4), part(65, 21)])
    after = b.balance([part(212, 42.4), part(65, 21), part(20, 0)])
    # 20 g * -14 in = -280 g*in; / 49.61 = -5.64 points
    assert after.points - before.points == pytest.approx(-5.64, abs=0.01)
    assert after.inertia == before.inertia


@pytest.mark.parametrize("grams", [-1.0, math.nan, math.inf, 3000.0])
def test_a_mass_that_no_part_has_is_refused(grams: float) -> None:
    with pytest.raises(OutOfRange, match="mass of the head"):
        b.Part(grams * GRAM, 42 * INCH, name="head")


def test_a_place_off_the_club_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"place of the part is 100 in; it must lie between"):
        part(10, 100)


def test_targets_no_mass_can_reach_are_refused() -> None:
    with pytest.raises(TargetOutOfReach, match="no head mass gives"):
        b.head_mass_for(-150, [part(200, 30)], 42 * INCH)
    with pytest.raises(HeadTooNearFulcrum, match="beyond 14 in"):
        b.head_mass_for(0, [], 14 * INCH)
    with pytest.raises(HeadTooNearFulcrum):
        b.mass_per_point(14 * INCH)
    with pytest.raises(OutOfRange):
        b.head_mass_for(math.nan, [], 42 * INCH)


def test_nothing_does_not_balance() -> None:
    with pytest.raises(NoParts):
        b.balance([])
    with pytest.raises(OutOfRange, match="mass of the club"):
        b.finished(0, 29.5 * INCH)
