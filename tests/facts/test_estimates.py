"""Estimates weighed by their spreads: two become one, one is drawn by another, a mean of few."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from rules.facts.weighed import Weighed, combined, drawn, mean_of, told_by_balls
from rules.golf.delivery import Estimate


def test_two_estimates_become_one() -> None:
    both = combined(Estimate(10.0, 3.0), Estimate(16.0, 3.0))
    assert (both.value, both.spread) == pytest.approx((13.0, 3.0 / math.sqrt(2)))
    assert combined(Estimate(1.0, 0.0), Estimate(9.0, 2.0)) == Estimate(1.0, 0.0)
    assert combined(Estimate(1.0, 2.0), Estimate(9.0, 0.0)) == Estimate(9.0, 0.0)
    back = told_by_balls(Estimate(10.0, 3.0), both)
    assert back is not None
    assert (back.value, back.spread) == pytest.approx((16.0, 3.0))
    assert told_by_balls(Estimate(1.0, 2.0), Estimate(5.0, 2.0)) is None
    assert told_by_balls(Estimate(0.0, 2.0), Estimate(-3.0, 1.97)) is None


def test_a_figure_takes_its_share_of_what_was_learnt_through_another() -> None:
    # y = 2 x + e: x known to 3, e to 4, so y to sqrt(36 + 16); all of y leaves x known to 3 x 4 / sqrt(52).
    x, y = Estimate(1.0, 3.0), Estimate(2.0, math.sqrt(52))
    found = drawn(x, y, Estimate(15.0, 0.0), 2.0)
    assert found.value == pytest.approx(1.0 + 2 * 9 / 52 * 13)
    assert found.spread == pytest.approx(3 * 4 / math.sqrt(52))
    assert drawn(Estimate(1.0, 0.0), y, Estimate(15.0, 0.0)) == Estimate(1.0, 0.0)


def test_a_mean_of_few_readings_is_not_trusted_beyond_what_such_readings_scatter() -> None:
    two = mean_of([100.0, 100.0], 3.0, 1.0)
    assert two.spread > 1.5
    many = mean_of([100.0 + (-1) ** i for i in range(100)], 3.0, 1.0)
    assert 1.0 < many.spread < 1.02
    assert mean_of([90.0], 3.0, 0.0).spread == pytest.approx(3.0)


def test_weights_of_what_is_certain_and_what_only_points() -> None:
    certain = Weighed("x", Estimate(1.0, 0.0), Estimate(2.0, 1.0), Estimate(1.0, 0.0), 6)
    assert certain.weight == 0.0
    assert replace(certain, seen=None).weight is None
