"""Starting points, faces, flights and pairs: what physics and common practice say must come out."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rules.facts.golfer import Golfer, golfer
from rules.facts.subject import Subject
from rules.fitting import House, Outcome
from rules.golf.impact import Clubhead
from rules.golf.quadrature import Face
from rules.ladder.judge import Judge
from rules.ladder.meeting import meeting
from rules.ladder.options import by_loft, tip_options
from rules.ladder.rung import trade_name
from rules.ladder.start import length_factor, scatter_factor, speed_ratio, suiting_apex, usual_length
from rules.units import parse

MPH, DEG, INCH, YARD, FOOT = (parse(f"1 {u}", u) for u in ("mph", "deg", "in", "yd", "ft"))


@pytest.mark.parametrize(
    ("kind", "loft", "ratio"),
    # Club head speed as a share of the driver's, common practice: 3-wood 0.955, 5-wood 0.92, hybrid 0.89.
    [("fairway", 15, 0.955), ("fairway", 18.5, 0.92), ("hybrid", 20, 0.89)],
)
def test_speed_falls_by_type(house: House, kind: Any, loft: float, ratio: float) -> None:
    assert speed_ratio(house.base, kind, loft * DEG) == pytest.approx(ratio)


def test_speed_never_rises_with_loft(house: House) -> None:
    for kind in ("fairway", "hybrid"):
        ratios = [speed_ratio(house.base, kind, loft / 2 * DEG) for loft in range(26, 60)]
        assert ratios == sorted(ratios, reverse=True)


@pytest.mark.parametrize(
    ("kind", "loft", "low", "high"),
    # Lengths sold today, common practice: 3-wood 42.75-43.5 in, 5-wood 42-42.5, 7-wood 41-42, hybrids 39-41.
    # Ours start a little below.
    [
        ("fairway", 15, 42, 43),
        ("fairway", 18.5, 41.5, 42.5),
        ("fairway", 21.5, 41, 42),
        ("hybrid", 21, 39, 41),
    ],
)
def test_lengths_start_a_little_below_what_is_sold(
    house: House, kind: Any, loft: float, low: float, high: float
) -> None:
    assert low <= usual_length(house.base, kind, loft * DEG) / INCH <= high


def test_length_costs_little_speed_and_buys_scatter(house: House) -> None:
    # Common practice: 43 to 42 in costs nothing worth measuring; an inch is 0.4 to 0.8 % of speed
    # (Kenny, Wallace & Otto 2008 for drivers).
    lost = 1 - length_factor(house.base, 42 * INCH, 43 * INCH)
    assert 0.004 <= lost <= 0.008
    assert scatter_factor(house.base, 42 * INCH, 43 * INCH) < 1


@pytest.mark.parametrize(("mph", "feet"), [(100, (99, 101)), (70, (50, 60))])
def test_apex_that_suits_a_speed(mph: float, feet: tuple[float, float]) -> None:
    # Case of the trade A41: 100 ft at 100 mph, 50 to 60 ft at 70 mph (common practice).
    assert feet[0] <= suiting_apex(mph * MPH) / FOOT <= feet[1]


@pytest.mark.parametrize(
    ("kind", "loft", "name"),
    [("fairway", 15, "3-wood"), ("fairway", 17, "4-wood"), ("fairway", 18.5, "5-wood"),
     ("fairway", 21, "7-wood"), ("fairway", 25, "9-wood"), ("hybrid", 19, "3-hybrid"),
     ("hybrid", 22, "4-hybrid")],
)  # fmt: skip
def test_clubs_have_the_names_of_the_trade(kind: Any, loft: float, name: str) -> None:
    assert trade_name(kind, loft) == name


@pytest.fixture
def player(house: House, subject: Callable[..., Subject]) -> Callable[..., Golfer]:
    return lambda answers: golfer(house.base, subject(answers))


def loss(who: Golfer, cg: float) -> float:
    head = Clubhead(0.215, 0.82, 0.2, 0.020, 1500e-7, 2300e-7)
    return meeting(who, Face(15 * DEG, 2 * cg, cg), 15 * DEG, head).loss


def test_bare_turf_asks_for_a_face_of_thirty_to_thirty_two(player: Callable[..., Golfer]) -> None:
    # Common practice: 30 to 32 mm suits a ball close to bare turf; the ball is met near half of it.
    who = player({"lies": {"tight_fairway": 100}, "turf": "firm", "turf_mark": "none", "contact": "centred"})
    best = min(range(120, 240), key=lambda tenth: loss(who, tenth / 10000))
    assert 28 <= best / 10 * 2 <= 36


def test_a_tee_forgives_what_bare_turf_does_not(player: Callable[..., Golfer]) -> None:
    turf = player({"lies": {"tight_fairway": 100}, "contact": "centred", "handicap": 10})
    tee = player({"lies": {"tee": 100}, "contact": "centred", "handicap": 10})
    shallow, deep = 0.0165, 0.021
    assert loss(turf, shallow) < loss(turf, deep)
    assert loss(tee, deep) < loss(tee, shallow)


def test_the_loss_is_never_below_nothing_and_never_more_than_the_ball_has(
    player: Callable[..., Golfer],
) -> None:
    for lies in ({"sand": 1}, {"heavy_rough": 1}, {"tee": 1}):
        for cg in (0.010, 0.018, 0.026):
            assert 0 <= loss(player({"lies": lies, "handicap": 40}), cg) < 0.4


def test_heads_of_one_loft_share_a_place(house: House) -> None:
    groups = by_loft(house.shelf.heads_for("right"))
    assert sum(len(group) for group in groups.values()) == len(house.shelf.heads_for("right"))
    assert any(len({head.face_height for head in group}) > 1 for group in groups.values())
    for (kind, _), group in groups.items():
        assert {head.kind for head in group} == {kind}


def test_a_tip_is_never_trimmed_into_its_taper_or_its_length(
    house: House, player: Callable[..., Golfer]
) -> None:
    judge = Judge(house, player({}))
    head = house.shelf.heads_for("right")[0]
    for shaft in house.shelf.shafts_for("fairway"):
        options = tip_options(judge, head, shaft, head.loft, 42 * INCH)
        assert options
        for option in options:
            extra = option.part
            assert isinstance(extra, float)
            assert extra == 0 or shaft.raw_length - shaft.tip_trim(head.loft) - extra >= 42 * INCH


def test_faster_carries_farther_and_climbs_higher_on_every_rung(fitted: Callable[..., Outcome]) -> None:
    slow = {r.id: r.flown for r in fitted({"driver_speed": "85 mph", "handicap": 15}).rungs}
    fast = {r.id: r.flown for r in fitted({"driver_speed": "95 mph", "handicap": 15}).rungs}
    for id in slow.keys() & fast.keys():
        assert fast[id].centred > slow[id].centred
        assert fast[id].apex > slow[id].apex


def test_expected_carry_is_below_the_centred_one_and_the_band_holds_it(
    fitted: Callable[..., Outcome],
) -> None:
    for rung in fitted({"driver_speed": "90 mph", "handicap": 20}).rungs:
        assert rung.flown.expected < rung.flown.centred
        assert rung.flown.low <= rung.flown.centred <= rung.flown.high
        assert 0 <= rung.flown.usable <= 1


def test_pairs_are_ordered_and_never_one_club_twice(fitted: Callable[..., Outcome]) -> None:
    club = {"name": "his 3-wood", "kind": "fairway", "loft": "15 deg", "length": "44 in", "can_add": "8 g"}
    for pair in fitted({"driver_speed": "90 mph"}, owned=[club]).pairs.values():
        assert pair.longer.spec.loft <= pair.shorter.spec.loft + 1e-12
        if pair.longer.owned and pair.shorter.owned:
            assert pair.longer.owned.name != pair.shorter.owned.name


def test_gaps_need_both_ends(fitted: Callable[..., Outcome]) -> None:
    with_iron = fitted({"driver_speed": "90 mph", "longest_iron_carry": "150 yd"})
    without = fitted({"driver_speed": "90 mph"})
    assert with_iron.picked is not None
    assert without.picked is not None
    gap = with_iron.picked.views["iron_gap"].best
    assert gap == pytest.approx(with_iron.picked.shorter.flown.centred - 150 * YARD)
    assert without.picked.views["iron_gap"].best is None
