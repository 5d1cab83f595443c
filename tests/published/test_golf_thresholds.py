"""Where loft stops paying, and how far a speed can carry: the house's own table and the trade's ceilings."""

from __future__ import annotations

import math

import pytest

from rules.golf.air import density
from rules.golf.coefficients import LAWS, Law
from rules.golf.impact import Clubhead
from rules.golf.speed import Swing, carry_ceiling, centred_flight

MPH = 0.44704
YARD = 0.9144
AIR = density(293.15, 0.5, 0.0)
HEAD = Clubhead(0.215, 0.82, 0.2)


def crossing(strong: float, weak: float, attack: float, law: Law, *, static: bool = False) -> float:
    """Head speed, mph, at which two lofts carry alike; delivered = static + attack unless `static`."""
    lean = 0.0 if static else attack
    swings = [Swing(math.radians(loft + lean), math.radians(attack), HEAD) for loft in (strong, weak)]

    def gain(mph: float) -> float:
        first, second = (centred_flight(mph * MPH, swing, AIR, law).carry for swing in swings)
        return first - second

    low, high = 45.0, 138.0
    assert gain(low) < 0.0 < gain(high)
    while high - low > 0.002:
        middle = (low + high) / 2
        low, high = (middle, high) if gain(middle) < 0.0 else (low, middle)
    return low


@pytest.mark.parametrize(
    ("attack", "law", "expected"),
    [
        # An independent earlier computation of the same two laws: 215 g, e 0.82, et 0.2, 20 degC
        (-3, "first", (91, 87, 83)),
        (-3, "second", (93, 89, 85.5)),
        (0, "first", (84, 79, 75)),
        (0, "second", (86, 82, 78)),
    ],
)
def test_speed_below_which_15_degrees_no_longer_pays(
    attack: float, law: Law, expected: tuple[float, ...]
) -> None:
    found = [crossing(15, weak, attack, law) for weak in (17, 19, 21)]
    print(
        f"\n{law} law, attack {attack:+d}: 15 against 17 / 19 / 21 deg cross at", [f"{v:.1f}" for v in found]
    )
    assert found == pytest.approx(expected, abs=1.0)


def test_each_step_weaker_pays_below_a_lower_speed() -> None:
    found = [crossing(loft, loft + 2, -3, "first") for loft in (15, 17, 19, 21)]
    assert found == pytest.approx((91, 81, 72.5, 65), abs=1.0)


def test_delivered_loft_moves_the_threshold_most() -> None:
    # Delivered = static: 15 against 17 crosses at 77 mph instead of 91, in the same earlier computation.
    assert crossing(15, 17, -3, "first", static=True) == pytest.approx(77, abs=1.0)


@pytest.mark.parametrize(("mph", "yards"), [(90, 215), (75, 179)])
def test_carry_ceiling(mph: float, yards: float) -> None:
    # common practice: 215 yd at 90 mph of driver speed (135 mph of ball speed), 179 at 75
    assert carry_ceiling(mph * MPH, AIR) / YARD == pytest.approx(yards, abs=6)


def test_ceiling_forbids_250_yards_at_90_mph() -> None:
    for law in LAWS:
        assert carry_ceiling(90 * MPH, density(308.15, 0.5, 300.0), law=law) / YARD < 250
