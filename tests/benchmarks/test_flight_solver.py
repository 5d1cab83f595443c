"""One flight against a general solver of differential equations, in one run: how far apart, how fast."""

from __future__ import annotations

import pytest

from rules.golf.coefficients import LAWS, Law
from tests.benchmarks.flight_solver import farthest_off, seconds


@pytest.mark.parametrize("law", LAWS)
def test_carry_within_a_twentieth_of_a_yard(law: Law) -> None:
    gap = farthest_off(law)
    print(f"\n{law} law: carry within {gap:.3f} yd of a fine solution")
    assert gap <= 0.05


@pytest.mark.parametrize("law", LAWS)
def test_fifteen_times_faster_than_a_general_solver(law: Law) -> None:
    ours, theirs = seconds(law)
    print(f"\n{law} law: {theirs / ours:.1f}x faster than solve_ivp, {ours * 1e6:.0f} us a flight")
    assert theirs / ours >= 15.0
