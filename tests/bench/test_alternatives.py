"""When the ports cannot hold it: each way out, computed."""

from __future__ import annotations

import pytest

from rules.bench.alternatives import Alternative, alternatives
from rules.bench.build import Build, Grip, Head, Shaft
from rules.bench.problems import OutOfRange
from rules.units import UNITS

INCH = UNITS["in"].factor
GRAM = UNITS["g"].factor
CLUB = Build(42 * INCH, Head(212 * GRAM), Shaft(66 * GRAM, 45 * INCH), Grip(50 * GRAM))
TARGET = CLUB.reading.points + 3.0


def by_kind(**shelf: dict[str, float]) -> dict[tuple[str, str], Alternative]:
    return {(one.kind, one.name): one for one in alternatives(CLUB, TARGET, **shelf)}


def test_a_heavier_head_leaves_nothing_wanting() -> None:
    # 3 points * 49.6117 / (41.4 - 14) = 5.432 g
    got = by_kind()["heavier_head", ""]
    assert (got.amount - 212 * GRAM) / GRAM == pytest.approx(5.432, abs=0.001)
    assert got.points == pytest.approx(3.0)
    assert got.leaves == pytest.approx(0.0)


def test_a_lighter_grip_is_worth_a_point_for_five_grams() -> None:
    # 5 g * 10 in = 50 g*in; / 49.6117 = 1.0078 points
    got = by_kind()["lighter_grip", ""]
    assert got.amount / GRAM == pytest.approx(45)
    assert got.points == pytest.approx(1.0078, abs=0.0001)
    assert got.leaves == pytest.approx(3.0 - 1.0078, abs=0.0001)


def test_a_quarter_inch_more_is_worth_over_a_point() -> None:
    # head and glue move out 0.25 in; the even shaft, 66/45 g an inch, is left 0.25 in longer at the butt
    got = by_kind()["longer", ""]
    assert got.amount / INCH == pytest.approx(42.25)
    shaft = 66 / 45
    before, after = 42 - 1.375, 42.25 - 1.375
    moments = [
        216 * (length - 14) - 212 * 0.6 - 4 * 2.375 + shaft * cut * (0.125 + cut / 2 - 14)
        for length, cut in ((42, before), (42.25, after))
    ]
    assert got.points == pytest.approx((moments[1] - moments[0]) / 49.6117, abs=1e-4)
    assert 1.0 < got.points < 1.6


def test_heads_and_grips_on_the_shelf_are_tried_and_the_best_fit_comes_first() -> None:
    shelf = {"heads": {"deep": 217 * GRAM, "low": 230 * GRAM}, "grips": {"thin": 42 * GRAM, "fat": 60 * GRAM}}
    ways = alternatives(CLUB, TARGET, **shelf)
    assert ways[0].kind == "heavier_head"
    assert ways[1].name == "deep"
    assert [abs(way.leaves) for way in ways] == sorted(abs(way.leaves) for way in ways)
    assert "fat" not in {way.name for way in ways}
    assert by_kind(**shelf)["other_head", "low"].leaves < 0


def test_a_club_that_is_not_short_wants_nothing() -> None:
    assert alternatives(CLUB, CLUB.reading.points) == ()


def test_a_shaft_too_short_to_be_left_longer_offers_no_length() -> None:
    tight = Build(42 * INCH, Head(212 * GRAM), Shaft(66 * GRAM, 40.7 * INCH), Grip(50 * GRAM))
    assert "longer" not in {way.kind for way in alternatives(tight, tight.reading.points + 2)}


def test_a_club_that_is_a_little_short_has_ways_out_too() -> None:
    assert alternatives(CLUB, CLUB.reading.points + 0.2)[0].points == pytest.approx(0.2)


def test_only_grips_that_are_lighter_are_offered_and_by_name() -> None:
    shelf = {"same": 50 * GRAM, "thin": 42 * GRAM, "none": 0.0, "fat": 60 * GRAM}
    ways = [way for way in alternatives(CLUB, TARGET, grips=shelf) if way.kind == "lighter_grip"]
    assert [(way.name, way.amount) for way in ways] == [("thin", 42 * GRAM)]
    assert not [way for way in alternatives(CLUB, TARGET, grips={}) if way.kind == "lighter_grip"]


def test_a_head_from_the_shelf_is_told_by_its_mass() -> None:
    way = by_kind(heads={"deep": 217 * GRAM})["other_head", "deep"]
    assert way.amount == 217 * GRAM
    assert way.points + way.leaves == pytest.approx(3.0)


def test_a_head_heavier_than_any_is_refused_by_name() -> None:
    with pytest.raises(OutOfRange, match=r"the head mass is 2384\.77 g; it must lie between"):
        alternatives(CLUB, CLUB.reading.points + 1200)
