"""Tolerances carried from the parts, both ways of counting, and the handbook's builds."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from rules.bench.build import Build, Grip, Head, Shaft
from rules.fitting import Outcome
from rules.units import UNITS
from rules.workbench import Club
from rules.workbench.counting import both_counts
from rules.workbench.spreads import spreads

INCH, GRAM, KG_CM2 = UNITS["in"].factor, UNITS["g"].factor, UNITS["kg*cm2"].factor
HEAD = Head(212 * GRAM)
WOOD = Build(
    43 * INCH, HEAD, Shaft(70 * GRAM, 46 * INCH, tip_trim=0.5 * INCH), Grip(50 * GRAM),
    glue_and_ferrule=3 * GRAM,
)  # fmt: skip


def test_spreads_by_hand() -> None:
    """Head and setback 42.4 in from the butt, shaft at 20.94, grip at 4, half a gram each, 1/16 in."""
    got = spreads(WOOD)
    assert got.points == pytest.approx(0.410, abs=0.003)
    assert got.total / GRAM == pytest.approx(0.5 * math.sqrt(3), abs=1e-6)
    # inertia: head 0.5 g x 42.4^2 = 898.9; length 212 x 2 x 42.4 x 1/16 = 1123.6; shaft
    # 0.5 x (20.9375^2 + 41.625^2 / 12) = 291.4; grip 0.5 x 16 = 8 g in2: root of squares 1468.3 = 9.47 kg cm2
    assert got.inertia / KG_CM2 == pytest.approx(9.47, abs=0.05)
    # balance point: the moment about it over 328.34 g: head 0.5 (42.4 - 32.40) = 5.0; length 13.25; shaft
    # 0.5 (20.94 - 32.40) = -5.73; grip 0.5 (4 - 32.40) = -14.2 g in: root of squares 20.9, / 328.8 = 0.064 in
    assert got.balance_point / INCH == pytest.approx(0.0637, abs=0.002)


def test_spreads_agree_with_the_bench(woods: Outcome) -> None:
    for club in woods.clubs:
        assert club.build is not None
        own, bench = spreads(club.build), club.build.tolerance
        assert own.points == pytest.approx(bench.points, rel=0.02)
        assert own.total == pytest.approx(bench.total, rel=1e-6)


def test_a_calibrated_shop_knows_its_clubs_better(wood: Club) -> None:
    assert wood.build is not None
    known = replace(wood.build, head=replace(wood.build.head, setback_tolerance=0.0))
    assert spreads(known).points < 1.7 < spreads(wood.build).points


def test_both_ways_of_counting_by_hand() -> None:
    """A 43 in wood that reads C9.7 and is to read D1.7: lever of the head 28.4 in."""
    target = WOOD.reading.points + 2
    counts = {one.what: one for one in both_counts(WOOD, target)}
    # 49.6117 / 28.4 = 1.7469 g a point; 2 points want 3.49 g; the rule says 4 g, 0.29 of a point too much
    assert counts["mass_per_point"].exact / GRAM == pytest.approx(1.7469, abs=1e-3)
    assert counts["mass_to_add"].exact / GRAM == pytest.approx(3.4938, abs=1e-3)
    assert counts["mass_to_add"].rule / GRAM == pytest.approx(4.0)
    assert counts["mass_to_add"].off == pytest.approx(0.29, abs=0.005)
    # half an inch off: (212 + 3) x 0.5 = 107.5 and the shaft's 0.76 g and half inch: about -2.6 points
    assert counts["half_inch"].exact == pytest.approx(-2.6, abs=0.1)
    assert counts["half_inch"].rule == pytest.approx(-3.0)
    assert counts["half_inch"].off == pytest.approx(0.4, abs=0.1)
    # 5 g of grip at 4 in: 5 x 10 / 49.6117 = 1.008 points
    assert counts["lighter_grip"].exact == pytest.approx(1.008, abs=1e-3)
    # 9 g of shaft at 20.94 in: 9 x 6.9375 / 49.6117 = 1.2585 points, a quarter more than the rule says
    assert counts["heavier_shaft"].exact == pytest.approx(1.2585, abs=1e-3)


def test_the_rule_puts_too_much_into_long_clubs_and_too_little_into_short_ones(
    woods: Outcome, slow: Outcome
) -> None:
    for club in (*woods.clubs, *slow.clubs):
        assert club.build is not None
        adds = next(one for one in both_counts(club.build, club.target) if one.what == "mass_to_add")
        assert adds.exact == pytest.approx(club.needed)
        if club.needed > 0:  # the rule is right where the head's centre is 38.8 in from the butt
            assert (adds.off > 0) is (club.build.head_position > 38.81 * INCH)


# The Modern Guide to Golf Clubfitting (handbook; author J. Summitt, from memory), ch. 13: head mass that a
# wood of a length needs to read D0, low and high.
HANDBOOK_WOODS = {43.0: (210, 215), 42.5: (215, 220), 42.0: (220, 225), 41.5: (225, 230), 41.0: (230, 235)}


@pytest.mark.parametrize(("length", "grams"), HANDBOOK_WOODS.items())
def test_the_handbooks_d0_woods(length: float, grams: tuple[int, int]) -> None:
    """With a 65 g cut shaft and a 50 g grip (common practice) the sum gives the printed head mass."""
    cut = (length - 1.375) * INCH
    build = Build(length * INCH, HEAD, Shaft(65 * GRAM, cut), Grip(50 * GRAM), glue_and_ferrule=3 * GRAM)
    assert build.cut_shaft.mass / GRAM == pytest.approx(65)
    assert grams[0] <= build.head_mass_for(0.0) / GRAM <= grams[1]


def test_the_handbooks_d0_hybrid() -> None:
    """The same chapter: a hybrid of 41.5 in wants 216 g; a 90 g shaft and no setback (common practice)."""
    head = Head(216 * GRAM, setback=0.0)
    build = Build(
        41.5 * INCH, head, Shaft(90 * GRAM, 40.125 * INCH), Grip(50 * GRAM), glue_and_ferrule=3 * GRAM
    )
    assert build.head_mass_for(0.0) / GRAM == pytest.approx(216, abs=2.5)
