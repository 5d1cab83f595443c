"""Air: what is refused."""

from __future__ import annotations

import math

import pytest

from rules.golf.air import density, pressure
from rules.problems import Problem


@pytest.mark.parametrize("altitude", [-501.0, 6001.0, math.nan, math.inf])
def test_altitude_outside_the_range_is_refused(altitude: float) -> None:
    with pytest.raises(Problem, match="altitude"):
        pressure(altitude)


@pytest.mark.parametrize("kelvin", [20.0, 400.0, math.nan])
def test_temperature_outside_the_range_is_refused(kelvin: float) -> None:
    with pytest.raises(Problem, match="check the unit"):
        density(kelvin)


@pytest.mark.parametrize("humidity", [-0.1, 50.0, math.nan])
def test_humidity_that_is_no_share_is_refused(humidity: float) -> None:
    with pytest.raises(Problem, match="humidity"):
        density(290.0, humidity)
