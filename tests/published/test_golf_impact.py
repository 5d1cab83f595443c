"""Blows against published figures."""

from __future__ import annotations

import math

import pytest

from rules.golf.impact import Clubhead, strike

MPH = 0.44704


@pytest.mark.parametrize(
    ("grams", "expected"), [(190, 147.3), (195, 148.0), (200, 148.9), (205, 149.5), (210, 150.2)]
)
def test_straight_blow(grams: float, expected: float) -> None:
    # Cochran & Stobbs 1968, in The Modern Guide to Golf Clubfitting (handbook), ch. 13: 100 mph, e 0.83
    launch = strike(100 * MPH, 0.0, 0.0, Clubhead(grams / 1000, 0.83, 0.0))
    assert launch.speed / MPH == pytest.approx(expected, abs=0.15)


@pytest.mark.parametrize(("loft", "expected"), [(9, 132.3), (10, 131.9), (11, 131.5), (12, 131.0)])
def test_loft_ladder(loft: float, expected: float) -> None:
    # The Modern Guide to Golf Clubfitting (handbook), ch. 15, loft ladder: 90 mph, 200 g, e 0.83, level blow
    launch = strike(90 * MPH, math.radians(loft), 0.0, Clubhead(0.200, 0.83, 0.0))
    assert launch.speed / MPH == pytest.approx(expected, abs=0.25)


@pytest.mark.parametrize(
    ("offset_mm", "inertia", "lost", "tolerance"), [(12.7, 3000, 1.97, 0.02), (25.4, 4500, 5.08, 0.05)]
)
def test_ball_speed_lost_off_centre(offset_mm: float, inertia: float, lost: float, tolerance: float) -> None:
    # Cross & Nathan 2009, Sports Technology 2:7, effective mass of an off-centre hit (quoted in a later text)
    head = Clubhead(0.200, 0.83, 0.0, 0.0, inertia * 1e-7, inertia * 1e-7)
    centred = strike(40.0, 0.0, 0.0, head).speed
    for offset in ({"toe": offset_mm / 1000}, {"high": offset_mm / 1000}):
        off_centre = strike(40.0, 0.0, 0.0, head, **offset).speed
        assert (1 - off_centre / centred) * 100 == pytest.approx(lost, abs=tolerance)


@pytest.mark.parametrize(
    ("spin_loft", "grams", "restitution", "ratio", "tolerance"),
    [
        # Henrikson et al. 2020, Proceedings 49(1):27 (quoted in a later text); head masses: common practice
        (14, 200, 0.83, 0.83, 0.08),  # driver
        (27, 268, 0.80, 0.81, 0.05),  # 7-iron
        (40, 285, 0.78, 0.72, 0.06),  # pitching wedge
    ],
)
def test_launch_as_a_share_of_loft(
    spin_loft: float, grams: float, restitution: float, ratio: float, tolerance: float
) -> None:
    launch = strike(40.0, math.radians(spin_loft), 0.0, Clubhead(grams / 1000, restitution, 0.2))
    assert math.degrees(launch.angle) / spin_loft == pytest.approx(ratio, abs=tolerance)
