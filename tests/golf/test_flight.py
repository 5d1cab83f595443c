"""Flights: edges, flags and refusals."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from rules.golf.coefficients import RPM
from rules.golf.flight import GROUNDED, Launch, fly, states, trajectory
from rules.problems import Problem

FAIRWAY = Launch(58.0, math.radians(11), 3800 * RPM)


@pytest.mark.parametrize("angle", [0.0, -0.01, -0.5])
def test_a_ball_launched_level_or_down_never_flies(angle: float) -> None:
    launch = Launch(50.0, angle, 3000 * RPM)
    assert fly(launch, 1.2) is GROUNDED
    assert trajectory(launch, 1.2, n=4) == [(0.0, 0.0)] * 4


def test_a_barely_rising_ball_lands_at_once_or_is_lifted() -> None:
    low = fly(Launch(20.0, math.radians(0.5), 2500 * RPM), 1.2)
    assert 0.0 < low.carry < 2.0
    assert 0.0 < low.apex < 0.02
    lifted = fly(Launch(70.0, math.radians(0.5), 5000 * RPM), 1.2)
    assert lifted.carry > 100.0


def test_a_lob_goes_up_and_comes_down() -> None:
    lob = fly(Launch(20.0, 1.4, 3000 * RPM), 1.2)
    assert lob.apex > lob.carry
    assert lob.descent > math.radians(70)


@pytest.mark.parametrize(
    ("speed", "rpm", "clipped"),
    [(58, 3800, False), (58, 2100, True), (58, 6500, True), (90, 3800, True), (12, 3800, True)],
)
def test_leaving_the_first_law_is_flagged(speed: float, rpm: float, clipped: bool) -> None:
    assert fly(Launch(speed, 0.2, rpm * RPM), 1.2).clipped is clipped


@pytest.mark.parametrize(("speed", "rpm", "clipped"), [(58, 3800, False), (58, 500, True), (9, 9000, True)])
def test_leaving_the_second_law_is_flagged(speed: float, rpm: float, clipped: bool) -> None:
    assert fly(Launch(speed, 0.2, rpm * RPM), 1.2, "second").clipped is clipped


@pytest.mark.parametrize(
    ("speed", "angle", "spin"),
    [
        (0.0, 0.2, 300.0),
        (-5.0, 0.2, 300.0),
        (150.0, 0.2, 300.0),
        (math.nan, 0.2, 300.0),
        (50.0, 2.0, 300.0),
        (50.0, math.nan, 300.0),
        (50.0, 0.2, math.inf),
        (50.0, 0.2, 5000.0),
    ],
)
def test_a_launch_that_no_ball_has_is_refused(speed: float, angle: float, spin: float) -> None:
    with pytest.raises(Problem, match="check it"):
        Launch(speed, angle, spin)


@pytest.mark.parametrize("density", [0.0, -1.0, 12.0, math.nan])
def test_air_that_is_none_is_refused(density: float) -> None:
    with pytest.raises(Problem, match="air density"):
        fly(FAIRWAY, density)


def test_a_finer_step_hardly_moves_a_flight(monkeypatch: pytest.MonkeyPatch) -> None:
    coarse = fly(FAIRWAY, 1.2)
    monkeypatch.setattr("rules.golf.flight.STEP", 0.02)
    fine = fly(FAIRWAY, 1.2)
    assert coarse.carry == pytest.approx(fine.carry, abs=0.03)
    assert coarse.apex == pytest.approx(fine.apex, abs=0.01)
    assert coarse.descent == pytest.approx(fine.descent, abs=math.radians(0.1))
    assert coarse.time == pytest.approx(fine.time, abs=0.002)


def test_spin_decays_along_the_path() -> None:
    # d(omega)/dt = -2e-5 V omega / r integrates to exp(-2e-5 x path / r)
    found = states(FAIRWAY, 1.2, "first", 5.0)
    path = sum(math.dist(a[:2], b[:2]) for a, b in pairwise(found))
    assert found[-1][4] == pytest.approx(FAIRWAY.spin * math.exp(-2e-5 * path / 0.021335), rel=2e-4)
