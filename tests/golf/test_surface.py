"""The lazy surface: when it flies outright, and that it flies only what it needs."""

from __future__ import annotations

import math

import pytest

from rules.golf.coefficients import RPM
from rules.golf.flight import Launch, fly
from rules.golf.surface import ANGLE_STEP, SPEED_STEP, SPIN_STEP, CarrySurface


def test_nodes_are_flights() -> None:
    surface = CarrySurface(1.2)
    launch = Launch(14 * SPEED_STEP, 8 * ANGLE_STEP, 9 * SPIN_STEP)
    assert surface.carry(launch.speed, launch.angle, launch.spin) == fly(launch, 1.2).carry
    assert surface.fly(launch) == fly(launch, 1.2)


def test_it_fills_thirteen_nodes_for_a_patch_and_none_again() -> None:
    surface = CarrySurface(1.2)
    assert surface.flights == 0
    surface.carry(56.2, math.radians(12.1), 3650 * RPM)
    assert surface.flights == 13
    surface.carry(55.4, math.radians(11.8), 3550 * RPM)
    assert surface.flights == 13


@pytest.mark.parametrize(
    ("speed", "degrees", "rpm"), [(56, 2.0, 3000), (56, -3.0, 3000), (4, 20, 3000), (107, 12, 3000)]
)
def test_off_the_surface_a_ball_is_flown(speed: float, degrees: float, rpm: float) -> None:
    surface = CarrySurface(1.2, "second")
    launch = Launch(speed, math.radians(degrees), rpm * RPM)
    assert surface.carry(launch.speed, launch.angle, launch.spin) == fly(launch, 1.2, "second").carry
    assert surface.fly(launch) == fly(launch, 1.2, "second")
    assert surface.flights == 0


def test_the_whole_flight_is_read_closely() -> None:
    surface, launch = CarrySurface(1.2), Launch(57.3, math.radians(10.6), 3770 * RPM)
    read, flown = surface.fly(launch), fly(launch, 1.2)
    assert read.carry == pytest.approx(flown.carry, abs=0.2)
    assert read.apex == pytest.approx(flown.apex, abs=0.05)
    assert read.descent == pytest.approx(flown.descent, abs=math.radians(0.15))
    assert read.time == pytest.approx(flown.time, abs=0.02)
