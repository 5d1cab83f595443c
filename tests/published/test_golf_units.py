"""The units that golf is computed in, against exact definitions and a library of units."""

from __future__ import annotations

import pint
import pytest

from rules.units import UNITS

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()


def test_exact_definitions() -> None:
    # NIST SP 811 (2008), appendix B; pint 0.25.3
    assert UNITS["mph"].to_si(1) == 0.44704
    assert UNITS["yd"].to_si(1) == pytest.approx(0.9144, rel=1e-15)


@pytest.mark.parametrize(
    ("symbol", "theirs", "si"),
    [
        ("mph", "mile/hour", "m/s"),
        ("yd", "yard", "m"),
        ("ft", "foot", "m"),
        ("in", "inch", "m"),
        ("oz", "ounce", "kg"),
        ("lb", "pound", "kg"),
        ("deg", "degree", "radian"),
        ("rpm", "revolution/minute", "radian/second"),
        ("g*cm2", "gram*centimeter**2", "kg*m**2"),
        ("km/h", "kilometer/hour", "m/s"),
    ],
)
def test_factors(symbol: str, theirs: str, si: str) -> None:
    expected = REGISTRY.Quantity(1.0, theirs).to(si).magnitude
    assert UNITS[symbol].to_si(1.0) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(("symbol", "theirs"), [("degC", "degC"), ("degF", "degF")])
@pytest.mark.parametrize("reading", [-10.0, 0.0, 59.0, 98.6])
def test_temperatures(symbol: str, theirs: str, reading: float) -> None:
    expected = REGISTRY.Quantity(reading, theirs).to("kelvin").magnitude
    assert UNITS[symbol].to_si(reading) == pytest.approx(expected, rel=1e-12)


def test_ounce_inches_in_gram_inches() -> None:
    # pint 0.25.3: 213.5 oz*in = 6052.623 g*in
    assert UNITS["g*in"].from_si(UNITS["oz*in"].to_si(213.5)) == pytest.approx(6052.623, abs=0.01)
