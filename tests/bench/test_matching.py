"""Matching two clubs by either number, and what it does to the other."""

from __future__ import annotations

import pytest

from rules.bench.build import Added, Build, Grip, Head, Shaft
from rules.bench.matching import match
from rules.bench.problems import InertiaOutOfReach
from rules.units import UNITS

INCH = UNITS["in"].factor
GRAM = UNITS["g"].factor


def club(length: float, head: float, shaft: float = 66) -> Build:
    return Build(length * INCH, Head(head * GRAM), Shaft(shaft * GRAM, 46 * INCH), Grip(50 * GRAM))


def test_by_swing_weight_the_readings_agree_and_inertia_does_not() -> None:
    got = match(club(42, 220), club(40, 236), "swing_weight")
    assert got.points_difference == pytest.approx(0, abs=1e-9)
    assert got.reading.points == pytest.approx(club(42, 220).reading.points)
    # the shorter club needs mass nearer in for the same moment: less m x^2 about the butt
    assert got.inertia_difference < 0


def test_by_inertia_the_longer_club_reads_lighter() -> None:
    shorter, longer = club(40, 236), club(42, 220)
    got = match(shorter, longer, "inertia")
    assert got.inertia_difference == pytest.approx(0, abs=1e-12)
    assert got.points_difference < 0


def test_the_change_is_what_is_put_in() -> None:
    other = club(40, 236).with_added(Added(4 * GRAM))
    got = match(club(42, 220), other, "swing_weight")
    assert got.head_change == pytest.approx(got.head_mass - 240 * GRAM)


def test_inertia_asks_for_the_heavier_head() -> None:
    reference, other = club(42, 220), club(40, 236)
    first, second = match(reference, other, "swing_weight"), match(reference, other, "inertia")
    assert (first.by, second.by) == ("swing_weight", "inertia")
    assert second.head_mass > first.head_mass


def test_an_inertia_that_the_parts_exceed_is_refused() -> None:
    light = Build(30 * INCH, Head(1 * GRAM), Shaft(30 * GRAM, 40 * INCH), Grip(20 * GRAM))
    with pytest.raises(InertiaOutOfReach, match="no head mass gives"):
        match(light, Build(46 * INCH, Head(0.2), Shaft(0.2, 48 * INCH), Grip(0.05)), "inertia")
