"""The bench against figures published elsewhere; the source stands beside each."""

from __future__ import annotations

import math
from typing import Any

import pint
import pytest

from rules.bench import rules_of_golf as law
from rules.bench import rules_of_thumb as thumb
from rules.bench.balance import Part, balance, finished, mass_per_point, moment
from rules.bench.cuts import bottom_to_ground
from rules.bench.shorten import shorten
from rules.units import UNITS, swing_weight_points

INCH = UNITS["in"].factor
GRAM = UNITS["g"].factor
OZ_IN = UNITS["oz*in"].factor

# The Modern Guide to Golf Clubfitting (handbook; author J. Summitt, from memory), ch. 13: table of the
# 14-inch scale, oz*in for a letter and number.
HANDBOOK_TABLE = {"A0": 161.0, "C0": 196.0, "D0": 213.5, "D2": 217.0, "E0": 231.0}


@pytest.mark.parametrize(("name", "ounce_inches"), HANDBOOK_TABLE.items())
def test_the_handbooks_scale(name: str, ounce_inches: float) -> None:
    assert moment(swing_weight_points(name)) / OZ_IN == pytest.approx(ounce_inches, abs=0.001)


def test_the_handbooks_iron_on_the_scale() -> None:
    """The same handbook, ch. 13, worked example: 390 g balancing at 29.5 in, 213.23 oz*in."""
    assert finished(390 * GRAM, 29.5 * INCH).moment / OZ_IN == pytest.approx(213.23, abs=0.01)


def test_the_handbooks_driver_on_the_scale() -> None:
    """The same handbook, ch. 13: 11.25 oz balancing at 33 in, 213.75 oz*in."""
    club = finished(11.25 * UNITS["oz"].factor, 33 * INCH)
    assert club.moment / OZ_IN == pytest.approx(213.75, abs=0.001)


@pytest.mark.parametrize(("inches", "grams"), [(45, 1.6), (42, 1.77), (41, 1.84)])
def test_grams_a_point(inches: float, grams: float) -> None:
    """1.75 oz*in / (L - 14 in); the same handbook prints 1.6 g at 45 in."""
    assert mass_per_point(inches * INCH) / GRAM == pytest.approx(grams, abs=0.02)


def test_grams_a_point_of_a_wedge() -> None:
    """The same handbook prints 2.3 g for a wedge (35.5 in, the usual length: common practice)."""
    assert mass_per_point(35.5 * INCH) / GRAM == pytest.approx(2.3, abs=0.05)


def test_two_grams_of_head_are_about_a_point() -> None:
    """Common practice: 2 g in the head is one point, within 0.3 on clubs of 39 to 43 in."""
    for inches in (39, 41, 42, 43):
        assert 2 * GRAM / mass_per_point(inches * INCH) == pytest.approx(1.0, abs=0.3)
    assert pytest.approx(1.0) == 2 * GRAM / thumb.HEAD_PER_POINT


def test_two_grams_are_right_for_a_club_of_39_inches() -> None:
    assert mass_per_point(39 * INCH) / GRAM == pytest.approx(2.0, abs=0.02)


def test_half_an_inch_is_about_three_points() -> None:
    """Common practice: half an inch is three points, within half a point."""
    got = shorten(43 * INCH, 42.5 * INCH, 212 * GRAM, 65 * GRAM)
    assert got.points_change == pytest.approx(-3.0, abs=0.5)
    assert thumb.points_for_length(-0.5 * INCH) == pytest.approx(-3.0)


def test_five_grams_of_grip_are_a_point() -> None:
    """Common practice: 5 g in the grip is one point less, its centre 4 in from the butt; within 0.05."""
    club = [Part(212 * GRAM, 42 * INCH), Part(50 * GRAM, 4 * INCH)]
    heavier = [Part(212 * GRAM, 42 * INCH), Part(55 * GRAM, 4 * INCH)]
    assert balance(heavier).points - balance(club).points == pytest.approx(-1.0, abs=0.05)
    assert thumb.points_for_grip(5 * GRAM) == pytest.approx(-1.0)


def test_nine_grams_of_shaft_are_about_a_point() -> None:
    """Common practice: 9 g of shaft is one point, within 0.3, for a shaft that balances at 20.9 in."""
    club = [Part(212 * GRAM, 42 * INCH), Part(65 * GRAM, 20.9 * INCH)]
    heavier = [Part(212 * GRAM, 42 * INCH), Part(74 * GRAM, 20.9 * INCH)]
    assert balance(heavier).points - balance(club).points == pytest.approx(1.0, abs=0.3)
    assert thumb.points_for_shaft(9 * GRAM) == pytest.approx(1.0)


def test_bottom_of_bore_to_ground() -> None:
    """Common practice, a trade article's worked example: hosel 2.375 in, insertion 1.125 in, 1.25 in."""
    assert bottom_to_ground(2.375 * INCH, 1.125 * INCH) / INCH == pytest.approx(1.25, abs=0.001)


def test_ounce_inches_as_pint_turns_them() -> None:
    """pint: 213.5 oz*in is 6052.623 g*in."""
    registry: Any = pint.UnitRegistry()
    theirs = (213.5 * registry.ounce * registry.inch).to("gram * inch").magnitude
    assert theirs == pytest.approx(6052.623, abs=0.01)
    assert moment(0) / (GRAM * INCH) == pytest.approx(theirs, rel=1e-9)
    si = (1.75 * registry.ounce * registry.inch).to("kilogram * meter").magnitude
    assert moment(1) - moment(0) == pytest.approx(si, rel=1e-9)


# Constants of the rules, pinned to the printed figure and unit.
PRINTED = [
    (law.LONGEST, 48.0, "in", "Equipment Rules 2.1c and length protocol rev. 1.1"),
    (law.SHORTEST, 18.0, "in", "Equipment Rules 2.1c"),
    (law.LOCAL_LONGEST, 46.0, "in", "Model Local Rule G-10, 2022-01-01"),
    (law.HEAD_INERTIA, 5900.0, "g*cm2", "from 2006-05-01, 100 more allowed for measurement"),
    (law.CLUBS_IN_BAG, 14.0, "", "Rule 4.1b(1)"),
]


@pytest.mark.parametrize(("limit", "printed", "unit", "source"), PRINTED)
def test_the_rules_limits(limit: law.Limit, printed: float, unit: str, source: str) -> None:
    assert UNITS[unit].from_si(limit.value) == pytest.approx(printed, rel=1e-12), source


def test_what_a_measured_inertia_may_be_out_by() -> None:
    """Equipment Rules, Part 2: 100 g*cm2 more are allowed for measurement."""
    assert math.isclose(UNITS["g*cm2"].from_si(law.HEAD_INERTIA.tolerance), 100)
