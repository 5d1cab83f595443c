"""The ball as the rules bound it, and the coefficients as their authors printed them."""

from __future__ import annotations

import pytest

from rules.golf.ball import AREA, DIAMETER, MASS, RADIUS
from rules.golf.coefficients import RPM, bearman_harvey, naruo


def test_ball_is_at_the_limits_of_the_equipment_rules() -> None:
    # Equipment Rules, Part 4: mass at most 1.620 oz, diameter at least 1.680 in (quoted in a later text)
    assert pytest.approx(45.93, abs=0.005) == MASS * 1000
    assert pytest.approx(42.67, abs=0.005) == DIAMETER * 1000
    assert pytest.approx(1.620 * 28.349523125, abs=0.005) == MASS * 1000
    assert pytest.approx(1.680 * 25.4, abs=0.005) == DIAMETER * 1000
    assert pytest.approx(3.14159265 * RADIUS**2) == AREA


@pytest.mark.parametrize(
    ("speed", "rpm", "drag", "lift"),
    [
        # Bearman & Harvey 1976, Aeronautical Quarterly 27:112-122, Figs 7-8, hexagonal-dimple ball
        (63.1, 3000, 0.2560, 0.1702),
        (13.7, 2000, 0.3624, 0.1040),
        (88.1, 6000, 0.2740, 0.2000),
    ],
)
def test_first_law_at_its_nodes(speed: float, rpm: float, drag: float, lift: float) -> None:
    assert bearman_harvey(speed, rpm * RPM) == pytest.approx((drag, lift), abs=0.0001)


@pytest.mark.parametrize(
    ("factor", "drag", "lift"),
    [
        # Naruo, Mizota & Shimozono 2004, Trans. JSME B 70:2371 (quoted in a later text)
        (0.1, 0.2357, 0.1711),
        (0.2, 0.2789, 0.2535),
    ],
)
def test_second_law_by_spin_factor(factor: float, drag: float, lift: float) -> None:
    speed = 50.0
    assert naruo(speed, factor * speed / RADIUS) == pytest.approx((drag, lift), abs=0.001)
