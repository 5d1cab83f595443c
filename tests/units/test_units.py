"""Quantities as people type them, both systems, and errors that help."""

from __future__ import annotations

import math
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rules.units import (
    UNITS,
    UnitError,
    difference_words,
    parse,
    shown_in,
    swing_weight_name,
    swing_weight_points,
    unit,
    words,
)

REGISTRY: Any = pint.UnitRegistry()
PINT_NAMES = {
    "in": "inch",
    "ft": "foot",
    "yd": "yard",
    "oz": "ounce",
    "lb": "pound",
    "mph": "mile/hour",
    "km/h": "km/hour",
    "ft/s": "foot/second",
    "deg": "degree",
    "rpm": "revolutions_per_minute",
    "kg*m2": "kg*m**2",
    "kg*cm2": "kg*cm**2",
    "g*cm2": "g*cm**2",
    "kg*m": "kg*m",
    "oz*in": "ounce*inch",
    "g*in": "g*inch",
    "N*m": "newton*meter",
    "in*lbf": "inch*force_pound",
    "d": "day",
    "kg/m3": "kg/m**3",
    "h": "hour",
}
DIMENSIONLESS = {"", "%", "points", "strokes", "degC", "degF"}


@pytest.mark.parametrize("symbol", sorted(set(UNITS) - DIMENSIONLESS))
def test_factors_agree_with_pint(symbol: str) -> None:
    # pint 0.25, whose definitions follow the international yard and pound (NIST SP 811).
    theirs: float = REGISTRY.Quantity(1, PINT_NAMES.get(symbol, symbol)).to_base_units().magnitude
    if UNITS[symbol].dimension == "mass" or symbol in ("kg*m2", "kg*cm2", "g*cm2", "kg*m", "oz*in", "g*in"):
        theirs = theirs if abs(theirs - UNITS[symbol].factor) < 1e-12 else theirs / 1000
    assert UNITS[symbol].factor == pytest.approx(theirs, rel=1e-12)


def test_published_factors() -> None:
    # Exact definitions: 1 mph = 0.44704 m/s, 1 yd = 0.9144 m. pint 0.25.3: 213.5 oz*in = 6052.623 g*in.
    assert parse("1 mph", "m/s") == 0.44704
    assert parse("1 yd", "m") == 0.9144
    moment = parse("213.5 oz*in", "oz*in")
    assert UNITS["g*in"].from_si(moment) == pytest.approx(6052.623, abs=0.01)


@pytest.mark.parametrize(
    ("typed", "unit_wanted", "si"),
    [
        ("42 1/4 in", "in", 42.25 * 0.0254),
        ("42-1/4 in", "in", 42.25 * 0.0254),
        ("1/2", "in", 0.5 * 0.0254),
        ("5'11\"", "in", 71 * 0.0254),
        ("5 ft 11 in", "in", 71 * 0.0254),
        ("6 ft", "in", 72 * 0.0254),
        ("1.80 m", "in", 1.8),
        ("31,5 mm", "mm", 0.0315),
        ("60 degF", "degC", 288.70556),
        ("15°C", "degF", 288.15),
        ("40 %", "", 0.4),
        ("-3 deg", "deg", math.radians(-3)),
        ("2°", "deg", math.radians(2)),
        ("+3", "strokes", -3.0),
        ("18", "strokes", 18.0),
        ("D2", "points", 2.0),
        ("c8.5", "points", -1.5),
        (7, "yd", 7 * 0.9144),
        ("1e2 g", "g", 0.1),
    ],
)
def test_reads_what_people_type(typed: str | float, unit_wanted: str, si: float) -> None:
    assert parse(typed, unit_wanted) == pytest.approx(si, rel=1e-6)


@pytest.mark.parametrize(
    ("typed", "unit_wanted", "says"),
    [
        ("90 kg", "mph", "is a mass; a speed is wanted"),
        ("1,200 yd", "yd", "thousands"),
        ("fast", "mph", "does not start with a number"),
        ("", "in", "does not start with a number"),
        ("42 parsecs", "in", "'parsecs' is not a unit"),
        ("1/0 in", "in", "divides by nothing"),
        ("1e999 m", "m", "not a finite number"),
        ("D10", "points", "is not a swing weight"),
        (True, "in", "yes or no"),
        (float("nan"), "in", "not a finite number"),
        ("5 ft 3 g", "in", "mixes feet"),
        ("9" * 400, "in", "far too long"),
    ],
)
def test_refuses_with_a_sentence(typed: str | float, unit_wanted: str, says: str) -> None:
    with pytest.raises(UnitError, match=says):
        parse(typed, unit_wanted)


@pytest.mark.parametrize(
    ("points", "name"),
    # Table of the 14-inch scale, handbook: ten points a letter, D0 in the middle.
    [(0, "D0.0"), (2, "D2.0"), (9.96, "E0.0"), (-0.04, "D0.0"), (-5, "C5.0"), (-30, "A0.0"), (10, "E0.0")],
)
def test_swing_weights_are_rounded_first_and_then_named(points: float, name: str) -> None:
    assert swing_weight_name(points) == name


@given(st.floats(-30, 39.9))
def test_a_swing_weight_name_reads_back(points: float) -> None:
    name = swing_weight_name(points)
    assert "10.0" not in name
    assert swing_weight_points(name) == pytest.approx(points, abs=0.0501)


@given(st.sampled_from(sorted(UNITS)), st.floats(-1e6, 1e6))
def test_to_si_and_back(symbol: str, value: float) -> None:
    assert UNITS[symbol].from_si(UNITS[symbol].to_si(value)) == pytest.approx(value, rel=1e-9, abs=1e-6)


@given(st.text(max_size=70), st.sampled_from(["mph", "in", "points", "strokes", "%", "degF"]))
def test_any_text_is_a_number_or_a_sentence(text: str, symbol: str) -> None:
    try:
        found: object = parse(text, symbol)
    except UnitError as error:
        found = str(error)
    assert found is not None
    assert "\n" not in str(found) or "\n" in text


@pytest.mark.parametrize(
    ("si", "symbol", "imperial", "metric"),
    [
        (42.25 * 0.0254, "in", "42 1/4 in", "107.3 cm"),
        (-0.5 * 0.0254, "in", "-1/2 in", "-1.3 cm"),
        (0.44704 * 88, "mph", "88 mph", "142 km/h"),
        (0.9144 * 180, "yd", "180 yd", "165 m"),
        (0.0315, "mm", "31.5 mm", "31.5 mm"),
        (288.15, "degF", "59 degF", "15 degC"),
        (-3.0, "strokes", "+3", "+3"),
        (1.5, "points", "D1.5", "D1.5"),
    ],
)
def test_words(si: float, symbol: str, imperial: str, metric: str) -> None:
    assert words(si, symbol) == imperial
    assert words(si, symbol, "metric").replace(".0 ", " ") == metric


def test_a_difference_has_no_offset() -> None:
    assert difference_words(5.0, "degF") == "9 degF"
    assert difference_words(5.0, "degF", "metric") == "5 degC"
    assert difference_words(1.5, "points") == "1.5 points"


def test_display_units_swap_and_stay() -> None:
    assert shown_in("mph", "metric").symbol == "km/h"
    assert shown_in("mm", "imperial").symbol == "mm"
    assert unit("Inches").symbol == "in"
