"""Blows: the matrix solved another way, and what is refused."""

from __future__ import annotations

import math

import numpy as np
import pytest

from rules.golf.ball import MASS, RADIUS
from rules.golf.impact import Clubhead, blow, strike
from rules.problems import Problem

HEAD = Clubhead(0.212, 0.82, 0.2, 0.02, 1500e-7, 2300e-7)


@pytest.mark.parametrize(
    ("toe", "high", "face"), [(0, 0, 0), (0.01, 0, 0), (0, -0.006, 0), (-0.012, 0.004, 0.03)]
)
def test_elimination_solves_the_whole_matrix(toe: float, high: float, face: float) -> None:
    speed, loft, attack = 38.0, math.radians(13), math.radians(-3)
    sigma, d, m = loft - attack, HEAD.cg_depth, HEAD.mass
    bare = 7 / (2 * MASS) + 1 / m
    matrix = np.array(
        [
            [
                1 / MASS + 1 / m + high**2 / HEAD.moi_vertical + toe**2 / HEAD.moi_heel_toe,
                -d * high / HEAD.moi_vertical,
                -d * toe / HEAD.moi_heel_toe,
            ],
            [-d * high / HEAD.moi_vertical, bare + d**2 / HEAD.moi_vertical, 0.0],
            [-d * toe / HEAD.moi_heel_toe, 0.0, bare + d**2 / HEAD.moi_heel_toe],
        ]
    )
    slip = -(1 + HEAD.spin_grip) * speed
    push = (1 + HEAD.restitution) * speed * math.cos(sigma) * math.cos(face)
    jn, jt, js = np.linalg.solve(matrix, [push, slip * math.sin(sigma), slip * math.sin(face)])
    struck = blow(speed, loft, attack, HEAD, toe, high, face)
    assert struck.launch.speed == pytest.approx(math.sqrt(jn**2 + jt**2 + js**2) / MASS, rel=1e-12)
    assert struck.launch.angle == pytest.approx(loft + math.atan2(jt, jn), rel=1e-12)
    assert struck.launch.spin == pytest.approx(-2.5 * jt / (MASS * RADIUS), rel=1e-12)
    assert struck.sidespin == pytest.approx(2.5 * js / (MASS * RADIUS), rel=1e-12, abs=1e-9)


def test_a_head_of_unknown_inertia_does_not_turn() -> None:
    stiff = Clubhead(0.212, 0.82, 0.2, 0.02)
    assert strike(38.0, 0.2, -0.05, stiff, 0.012, 0.005) == strike(38.0, 0.2, -0.05, stiff)


def test_head_depth_and_inertia_move_a_thin_strike_as_gear_effect_does() -> None:
    thin, centred = strike(38.0, 0.2, -0.05, HEAD, 0.0, -0.006), strike(38.0, 0.2, -0.05, HEAD)
    assert thin.spin > centred.spin
    assert thin.angle < centred.angle
    assert thin.speed < centred.speed


def test_an_open_face_starts_the_ball_open_and_curves_it_further() -> None:
    struck = blow(38.0, 0.25, -0.05, HEAD, 0.0, 0.0, math.radians(2))
    assert 0.0 < struck.start < math.radians(2)
    assert struck.sidespin < 0.0


@pytest.mark.parametrize(
    "wrong",
    [
        {"mass": 0.0}, {"mass": -0.2}, {"mass": 200.0}, {"mass": math.nan}, {"restitution": 1.2},
        {"restitution": math.nan}, {"spin_grip": 2.0}, {"cg_depth": -0.01}, {"moi_vertical": 0.0},
        {"moi_heel_toe": -1.0}, {"moi_heel_toe": math.nan},
    ],
)  # fmt: skip
def test_a_head_that_is_none_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(Problem):
        Clubhead(**{"mass": 0.2, **wrong})


@pytest.mark.parametrize(
    ("speed", "loft", "attack", "toe", "high"),
    [
        (0.0, 0.2, 0.0, 0.0, 0.0),
        (95.0, 0.2, 0.0, 0.0, 0.0),
        (math.nan, 0.2, 0.0, 0.0, 0.0),
        (40.0, 1.5, 0.0, 0.0, 0.0),
        (40.0, 0.0, 0.3, 0.0, 0.0),
        (40.0, 0.2, 0.0, 0.1, 0.0),
        (40.0, 0.2, 0.0, 0.0, math.nan),
    ],
)
def test_a_blow_that_nobody_strikes_is_refused(
    speed: float, loft: float, attack: float, toe: float, high: float
) -> None:
    with pytest.raises(Problem, match="check"):
        strike(speed, loft, attack, HEAD, toe, high)
