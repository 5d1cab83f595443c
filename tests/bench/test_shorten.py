"""Shortening by hand: the cut piece leaves, everything else but the grip moves in."""

from __future__ import annotations

import math

import pytest

from rules.bench.balance import Part, balance
from rules.bench.problems import NotShorter, OutOfRange
from rules.bench.shorten import Shortening, shorten
from rules.units import UNITS

INCH = UNITS["in"].factor
GRAM = UNITS["g"].factor


def cut(before: float, after: float, head: float = 212, shaft: float = 65, **more: float) -> Shortening:
    return shorten(before * INCH, after * INCH, head * GRAM, shaft * GRAM, **more)


def test_an_inch_off_a_light_shaft_by_hand() -> None:
    # an even shaft of 65 g over 43 in weighs 1.5116 g an inch; the piece has its centre at 0.5 in
    # lost: -(212 + 65 - 1.5116) * 1 - 1.5116 * (0.5 - 14) = -275.4884 + 20.4070 = -255.0814 g*in
    # -255.0814 / 49.6117 = -5.1416 points; back in at 42 in: 5.1416 * 49.6117 / 28 = 9.110 g
    got = cut(43, 42)
    assert got.points_change == pytest.approx(-5.1416, abs=0.0002)
    assert got.restore / GRAM == pytest.approx(9.110, abs=0.001)
    assert got.shaft_lost / GRAM == pytest.approx(1.5116, abs=0.0001)
    assert got.rule_points_change == pytest.approx(-6.0)
    assert got.rule_restore / GRAM == pytest.approx(12.0)
    # (12 - 9.110) / 1.7718 = 1.631 points too heavy by the bench rule
    assert got.rule_overshoot == pytest.approx(1.631, abs=0.001)


def test_a_heavier_shaft_loses_more() -> None:
    # 120 g: -(212 + 120 - 2.7907) + 2.7907 * 13.5 = -329.2093 + 37.6744 = -291.5349; / 49.6117 = -5.8763
    assert cut(43, 42, shaft=120).points_change == pytest.approx(-5.8763, abs=0.0002)


def test_what_is_restored_brings_the_club_back_to_its_reading() -> None:
    """Independent of the formula: two clubs built part by part, the second with the mass put back."""
    got = cut(43, 41.5, setback=0.6 * INCH)
    per_inch = 65 / 43
    before = balance([_part(212, 42.4), _part(65, 21.5), _part(50, 4)])
    after = balance([_part(212 + got.restore / GRAM, 40.9), _part(per_inch * 41.5, 20.75), _part(50, 4)])
    assert after.points == pytest.approx(before.points, abs=1e-9)


def _part(grams: float, inches: float) -> Part:
    return Part(grams * GRAM, inches * INCH)


def test_a_butt_heavy_shaft_loses_more_of_itself() -> None:
    assert (
        cut(43, 41, balance=0.45).shaft_lost > cut(43, 41).shaft_lost > cut(43, 41, balance=0.55).shaft_lost
    )


def test_more_than_an_inch_is_cautioned() -> None:
    assert not cut(43, 42).too_much
    assert cut(43, 41.9375).too_much


def test_no_cut_changes_nothing() -> None:
    got = cut(42, 42)
    assert (got.points_change, got.restore, got.shaft_lost) == (0, 0, 0)


def test_what_makes_no_sense_is_refused_in_a_sentence() -> None:
    with pytest.raises(NotShorter, match="must not exceed the old one"):
        cut(42, 43)
    with pytest.raises(OutOfRange, match="head mass is -212 g"):
        cut(43, 42, head=-212)
    with pytest.raises(OutOfRange, match="shaft mass is not a finite number"):
        cut(43, 42, shaft=math.nan)
    with pytest.raises(OutOfRange, match="length after is 3 in"):
        cut(43, 3)
