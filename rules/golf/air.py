"""Moist air: how dense it is at a place and a temperature.

The pressure is that of the International Standard Atmosphere at the altitude; weather is not asked for
(20 hPa of it moves a 200 yd carry by about 1 yd).
"""

from __future__ import annotations

import math

from rules.problems import Problem

SEA_LEVEL_PRESSURE = 101325.0
"""Pa at mean sea level (ISO 2533)."""

DRY_GAS_CONSTANT = 287.055
"""J/(kg K), dry air."""

VAPOUR_GAS_CONSTANT = 461.52
"""J/(kg K), water vapour."""

ALTITUDE_RANGE = (-500.0, 6000.0)
"""m: from the lowest shore to above the highest course on earth."""

TEMPERATURE_RANGE = (233.15, 333.15)
"""K: -40 to 60 degC."""

_EARTH_RADIUS = 6356766.0
_LAPSE = 0.0065
_SEA_LEVEL_TEMPERATURE = 288.15
_EXPONENT = 5.255876


def _geopotential(altitude_m: float) -> float:
    """Turn a geometric altitude into the geopotential one that the standard atmosphere is written in."""
    return _EARTH_RADIUS * altitude_m / (_EARTH_RADIUS + altitude_m)


def standard_temperature(altitude_m: float) -> float:
    """Return the temperature of the standard atmosphere, K: 15 degC at the sea, 6.5 K less each km."""
    return _SEA_LEVEL_TEMPERATURE - _LAPSE * _geopotential(altitude_m)


def pressure(altitude_m: float) -> float:
    """Return the standard pressure at an altitude, Pa.

    p = p0 (T(H) / T0)^5.2559 with geopotential H (ISO 2533; U.S. Standard Atmosphere 1976). Valid from
    -500 to 6000 m; Problem outside, or when the altitude is no number.
    """
    low, high = ALTITUDE_RANGE
    if not low <= altitude_m <= high:
        raise Problem(
            f"an altitude of {altitude_m:g} m is outside {low:g} to {high:g} m; give the course's own"
        )
    share = standard_temperature(altitude_m) / _SEA_LEVEL_TEMPERATURE
    return float(SEA_LEVEL_PRESSURE * share**_EXPONENT)


def saturation_pressure(temperature_k: float) -> float:
    """Return the vapour pressure of water at saturation, Pa, from a temperature in K.

    Buck 1981 (J. Appl. Meteorol. 20, 1527), 1996 coefficients, over liquid water: within 0.1 % from -20 to
    50 degC, which is beyond anything that air density can feel.
    """
    celsius = temperature_k - 273.15
    return 611.21 * math.exp((18.678 - celsius / 234.5) * celsius / (257.14 + celsius))


def density(temperature_k: float, humidity: float = 0.5, altitude_m: float = 0.0) -> float:
    """Return the density of moist air, kg/m3, from K, relative humidity 0 to 1, and altitude in m.

    rho = (p - e) / (Rd T) + e / (Rv T), e = humidity x saturation pressure: two ideal gases side by side
    (ASHRAE Handbook, Fundamentals, ch. 1). Valid -40 to 60 degC; Problem outside, and for a humidity that
    is not a share.
    """
    low, high = TEMPERATURE_RANGE
    if not low <= temperature_k <= high:
        raise Problem(f"air at {temperature_k - 273.15:.0f} degC is outside -40 to 60 degC; check the unit")
    if not 0.0 <= humidity <= 1.0:
        raise Problem(f"a humidity of {humidity * 100:g} % is outside 0 to 100 %")
    vapour = humidity * saturation_pressure(temperature_k)
    dry = pressure(altitude_m) - vapour
    return (dry / DRY_GAS_CONSTANT + vapour / VAPOUR_GAS_CONSTANT) / temperature_k
