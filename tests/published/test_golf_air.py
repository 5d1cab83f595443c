"""Moist air against published figures and two libraries that compute it otherwise."""

from __future__ import annotations

import fluids
import psychrolib
import pytest

from rules.golf.air import density, pressure, standard_temperature

psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize(
    ("celsius", "humidity", "expected"),
    [
        (15, 0.0, 1.225),  # psychrolib 2.5.0, GetMoistAirDensity at 101325 Pa
        (20, 0.5, 1.1989),  # the same
        (25, 0.5, 1.177),  # the same
    ],
)
def test_density_at_sea_level(celsius: float, humidity: float, expected: float) -> None:
    assert density(celsius + 273.15, humidity, 0.0) == pytest.approx(expected, abs=0.0015)


def test_standard_atmosphere_at_1500_m() -> None:
    # fluids 1.3.1 and ambiance 1.3.1, both after the U.S. Standard Atmosphere 1976
    assert pressure(1500.0) == pytest.approx(84559.7, abs=2.0)
    assert density(standard_temperature(1500.0), 0.0, 1500.0) == pytest.approx(1.0581, abs=0.0005)


@pytest.mark.parametrize("altitude", [-400.0, 0.0, 300.0, 1609.0, 2500.0, 4000.0])
def test_pressure_follows_the_standard_atmosphere(altitude: float) -> None:
    # fluids.ATMOSPHERE_1976 (U.S. Standard Atmosphere 1976)
    standard = fluids.ATMOSPHERE_1976(altitude)
    assert pressure(altitude) == pytest.approx(standard.P, rel=2e-5)
    assert standard_temperature(altitude) == pytest.approx(standard.T, abs=0.01)


@pytest.mark.parametrize("celsius", [-15.0, 0.0, 10.0, 20.0, 30.0, 42.0])
@pytest.mark.parametrize("humidity", [0.0, 0.4, 1.0])
@pytest.mark.parametrize("altitude", [0.0, 1600.0])
def test_density_follows_psychrometrics(celsius: float, humidity: float, altitude: float) -> None:
    # psychrolib.GetMoistAirDensity (ASHRAE Handbook, Fundamentals 2017, ch. 1)
    here = pressure(altitude)
    ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity, here) if humidity else 0.0
    expected = psychrolib.GetMoistAirDensity(celsius, ratio, here)
    assert density(celsius + 273.15, humidity, altitude) == pytest.approx(expected, abs=0.0015)
