"""Sideways: gear effect, bulge and an open face, honestly small."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from rules.golf.ball import AREA, GRAVITY, MASS, RADIUS
from rules.golf.coefficients import bearman_harvey
from rules.golf.curve import curve, toe_curve
from rules.golf.flight import fly
from rules.golf.impact import Clubhead, blow

HEAD = Clubhead(0.215, 0.82, 0.2, 0.02, 1500e-7, 2300e-7)
DELIVERED = (math.radians(15), math.radians(-3))
YARD = 0.9144


def test_a_toe_strike_starts_toeward_and_curves_back() -> None:
    found = toe_curve(40.0, DELIVERED, HEAD, 0.010, 1.2)
    straight = fly(blow(40.0, *DELIVERED, HEAD, 0.010, 0.0).launch, 1.2).carry * math.sin(found.start)
    assert found.start > 0.0
    assert found.side < straight


def test_heel_mirrors_toe() -> None:
    toe, heel = (toe_curve(40.0, DELIVERED, HEAD, one, 1.2, 0.28) for one in (0.012, -0.012))
    assert (heel.start, heel.side) == pytest.approx((-toe.start, -toe.side))


def test_a_bulged_face_keeps_a_toe_strike_within_a_few_yards() -> None:
    # Bulge of about 11 in (common practice, from memory): what it is for.
    for toe in (0.005, 0.010, 0.015):
        flat, bulged = (toe_curve(40.0, DELIVERED, HEAD, toe, 1.2, radius) for radius in (math.inf, 0.28))
        assert abs(bulged.side) < 7 * YARD
        assert abs(bulged.side) < abs(flat.side)


def test_a_centred_square_strike_goes_straight() -> None:
    found = toe_curve(40.0, DELIVERED, HEAD, 0.0, 1.2, 0.28)
    assert (found.start, found.side) == (0.0, 0.0)


def test_a_ball_that_never_flies_does_not_curve() -> None:
    struck = blow(40.0, 0.02, 0.1, HEAD, 0.01)
    found = curve(struck, 1.2)
    assert found.side == pytest.approx(fly(struck.launch, 1.2).carry * math.sin(found.start))


@pytest.mark.parametrize("face", [1.0, 3.0])
def test_bend_against_a_flight_in_three_dimensions(face: float) -> None:
    struck = blow(40.0, *DELIVERED, HEAD, 0.0, 0.0, math.radians(face))
    launch, k = struck.launch, 1.2 * AREA / (2 * MASS)
    tilt = math.atan2(struck.sidespin, launch.spin)
    lean = math.sin(tilt)
    axis = np.array([-math.sin(launch.angle) * lean, math.cos(launch.angle) * lean, math.cos(tilt)])

    def slopes(_: float, state: np.ndarray[tuple[int], np.dtype[np.float64]]) -> list[float]:
        v = state[3:6]
        speed = float(np.linalg.norm(v))
        drag, lift = bearman_harvey(speed, float(state[6]))
        pull = k * speed * (lift * np.cross(axis, v) - drag * v)
        spin = -2e-5 * speed * state[6] / RADIUS
        return [*v.tolist(), float(pull[0]), float(pull[1]) - GRAVITY, float(pull[2]), float(spin)]

    def ground(_: float, state: np.ndarray[tuple[int], np.dtype[np.float64]]) -> float:
        return float(state[1])

    ground.terminal = True  # type: ignore[attr-defined]
    ground.direction = -1  # type: ignore[attr-defined]
    start = [0.0, 0.0, 0.0, launch.speed * math.cos(launch.angle), launch.speed * math.sin(launch.angle), 0.0]
    solved = solve_ivp(slopes, (0.0, 15.0), [*start, launch.spin], rtol=1e-8, atol=1e-9, events=ground)
    assert solved.y_events is not None
    straight = fly(launch, 1.2).carry * math.sin(struck.start)
    bend = curve(struck, 1.2).side - straight
    assert bend == pytest.approx(float(solved.y_events[0][0][2]), rel=0.03, abs=0.1)
