"""Bottom of bore to ground, cuts and the depth a shaft may lose to a weight."""

from __future__ import annotations

import math

import pytest

from rules.bench import cuts as c
from rules.bench.problems import InsertionTooDeep, OutOfRange, ShaftTooShort, TipTrimTooLong, WeightTooLong
from rules.units import UNITS

INCH = UNITS["in"].factor


def test_a_measured_head_and_a_dry_fit_agree() -> None:
    assert c.bottom_to_ground(2.375 * INCH, 1.125 * INCH) / INCH == pytest.approx(1.25)
    assert c.bottom_to_ground_dry(45 * INCH, 46.25 * INCH) / INCH == pytest.approx(1.25)


def test_measures_that_contradict_one_another_are_refused() -> None:
    with pytest.raises(InsertionTooDeep, match="deeper than the hosel: 2 in is more than 1 in"):
        c.bottom_to_ground(1 * INCH, 2 * INCH)
    with pytest.raises(InsertionTooDeep, match="measure both again"):
        c.bottom_to_ground_dry(46 * INCH, 45 * INCH)
    with pytest.raises(OutOfRange):
        c.bottom_to_ground(math.nan, 1 * INCH)


def test_the_tip_is_cut_first_and_the_butt_takes_the_rest() -> None:
    got = c.cuts(46 * INCH, 1 * INCH, 40 * INCH)
    assert (got.tip / INCH, got.butt / INCH, got.length / INCH) == pytest.approx((1, 5, 40))


def test_a_shaft_exactly_long_enough_is_not_cut_at_the_butt() -> None:
    assert c.cuts(41 * INCH, 1 * INCH, 40 * INCH).butt == pytest.approx(0, abs=1e-12)
    with pytest.raises(ShaftTooShort):
        c.cuts(40.9 * INCH, 1 * INCH, 40 * INCH)


def test_a_trim_must_leave_enough_parallel_tip() -> None:
    assert c.check_tip(4 * INCH, 2 * INCH, 1.25 * INCH) / INCH == pytest.approx(2)
    with pytest.raises(TipTrimTooLong, match=r"leaves 1 in of parallel tip and the head takes 1.25 in"):
        c.check_tip(4 * INCH, 3 * INCH, 1.25 * INCH)


def test_a_higher_bore_is_trimmed_for_and_a_deeper_one_less() -> None:
    assert c.trim_at_depth(0.5 * INCH, 1.5 * INCH, 1.0 * INCH) / INCH == pytest.approx(1.0)
    assert c.trim_at_depth(0.5 * INCH, 0.75 * INCH, 1.0 * INCH) / INCH == pytest.approx(0.25)
    assert c.trim_at_depth(0.0, 0.5 * INCH, 1.5 * INCH) == 0


def test_a_hosel_weight_leaves_the_least_insertion_or_is_refused() -> None:
    assert c.room_for_weight(1.5 * INCH, 0.4 * INCH) / INCH == pytest.approx(1.1)
    with pytest.raises(WeightTooLong, match=r"leaves 0.75 in for the shaft and 1 in is the least"):
        c.room_for_weight(1.5 * INCH, 0.75 * INCH)
