"""Whole clubs put together on paper, the arithmetic written out."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from rules.bench.build import Added, Build, Grip, Head, Shaft, up_shaft
from rules.bench.problems import BeyondTheRules, OutOfRange, ShaftTooShort, TargetOutOfReach, TipTrimTooLong
from rules.units import UNITS

INCH = UNITS["in"].factor
GRAM = UNITS["g"].factor


HEAD = Head(212 * GRAM)
SHAFT = Shaft(70 * GRAM, 46 * INCH, tip_trim=0.5 * INCH)


def build(length: float = 43, head: Head = HEAD, shaft: Shaft = SHAFT) -> Build:
    # hosel 2.375 in and insertion 1.125 in: 1.25 in from bottom of bore to ground
    return Build(length * INCH, head, shaft, Grip(50 * GRAM), glue_and_ferrule=3 * GRAM)


def test_the_cuts_by_hand() -> None:
    # cut shaft: 43 - 1.25 - 0.125 (grip cap) = 41.625 in; butt trim: 46 - 0.5 - 41.625 = 3.875 in
    club = build()
    assert club.cuts.length / INCH == pytest.approx(41.625)
    assert club.cuts.tip / INCH == pytest.approx(0.5)
    assert club.cuts.butt / INCH == pytest.approx(3.875)
    # an even shaft: 70 * 41.625 / 46 = 63.342 g, its centre at 0.125 + 41.625 / 2 = 20.9375 in
    assert club.cut_shaft.mass / GRAM == pytest.approx(63.342, abs=0.001)
    assert club.cut_shaft.position / INCH == pytest.approx(20.9375)


def test_the_reading_by_hand() -> None:
    # head 212 * (43 - 0.6 - 14) = 6020.80; shaft 63.3424 * 6.9375 = 439.44; grip 50 * -10 = -500
    # ferrule and glue at the top of the hosel: 3 * (43 - 2.375 - 14) = 79.875; sum 6040.11 g*in
    # / 28.349523 = 213.058 oz*in; (213.058 - 213.5) / 1.75 = -0.2525 points: C9.7
    read = build().reading
    assert read.points == pytest.approx(-0.2525, abs=0.001)
    assert read.total / GRAM == pytest.approx(212 + 63.3424 + 50 + 3, abs=0.001)


def test_an_ordinary_3_wood_lands_between_c8_and_d2() -> None:
    """Common practice: 212 g at 43 in, 65 g cut shaft, 50 g grip, 3 g ferrule and glue, setback 0.6 in."""
    raw = 65 * GRAM * 43 / 41.625
    club = build(shaft=Shaft(raw, 43 * INCH))
    assert club.cut_shaft.mass / GRAM == pytest.approx(65)
    assert -2 <= club.reading.points <= 2


def test_a_setback_anywhere_in_its_range_is_worth_up_to_six_points() -> None:
    # 212 g * 1.4 in = 296.8 g*in; / 49.6117 = 5.98 points
    points = [build(head=Head(212 * GRAM, s * INCH)).reading.points for s in (0, 1.4)]
    assert points[0] - points[1] == pytest.approx(5.98, abs=0.01)


def test_the_head_that_a_target_wants_gives_the_target() -> None:
    club = build(42)
    mass = club.head_mass_for(1.0)
    assert replace(club, head=replace(club.head, mass=mass)).reading.points == pytest.approx(1.0)
    assert club.need(1.0) == pytest.approx(mass - club.head.mass)


def test_added_mass_reads_by_its_own_place() -> None:
    club = build(42)
    at_centre = club.with_added(Added(10 * GRAM))
    in_hosel = club.with_added(Added(10 * GRAM, up_shaft=1.4 * INCH))
    # 10 g * 1.4 in = 14 g*in; / 49.6117 = 0.282 points
    assert at_centre.reading.points - in_hosel.reading.points == pytest.approx(0.282, abs=0.001)
    assert at_centre.reading.total == pytest.approx(club.reading.total + 10 * GRAM)


def test_a_hosel_port_lies_up_the_shaft_and_a_toe_port_down_it() -> None:
    # at 57 degrees: 18 sin 57 + 38 cos 57 = 15.096 + 20.696 = 35.79 mm nearer the butt
    assert up_shaft(-0.038, 0.018, math.radians(57)) == pytest.approx(0.03579, abs=1e-5)
    assert up_shaft(0.030, -0.010, math.radians(57)) < 0


def test_tolerance_by_hand() -> None:
    # head 0.5 * 28.4 = 14.2; length 212 / 16 = 13.25; shaft 0.5 * 6.94 = 3.47; grip 0.5 * -10 = -5 g*in
    # root of the squares: sqrt(201.6 + 175.6 + 12.0 + 25.0) = 20.35 g*in; / 49.6117 = 0.410 points
    got = build().tolerance
    assert got.points == pytest.approx(0.410, abs=0.002)
    assert got.total / GRAM == pytest.approx(0.5 * math.sqrt(3), abs=1e-6)


def test_a_head_as_delivered_and_a_setback_unknown_widen_it() -> None:
    known = build().tolerance.points
    delivered = build(head=Head(212 * GRAM, mass_tolerance=2.5 * GRAM)).tolerance.points
    unset = build(head=Head(212 * GRAM, setback_tolerance=0.5 * INCH)).tolerance.points
    assert known < delivered
    # 212 g * 0.5 in = 106 g*in, over two points by itself
    assert unset > 2


def test_what_cannot_be_built_is_refused_in_a_sentence() -> None:
    with pytest.raises(
        ShaftTooShort, match=r"must be 44.625 in long after its tip trim and only 44 in is left"
    ):
        build(46, shaft=Shaft(70 * GRAM, 44.5 * INCH, tip_trim=0.5 * INCH))
    with pytest.raises(BeyondTheRules, match=r"48 in \(Equipment Rules"):
        build(48.5, shaft=Shaft(70 * GRAM, 50 * INCH))
    with pytest.raises(TipTrimTooLong, match="trim less or take a shaft with a longer parallel tip"):
        build(shaft=Shaft(70 * GRAM, 46 * INCH, tip_trim=3 * INCH, parallel_tip=4 * INCH))
    with pytest.raises(OutOfRange, match="head mass is -5 g"):
        build(head=Head(-5 * GRAM))
    with pytest.raises(OutOfRange, match="shaft mass"):
        build(shaft=Shaft(math.nan, 46 * INCH))
    with pytest.raises(TargetOutOfReach):
        build().head_mass_for(-140)
