"""What must come out of physics and trade together, on families of golfers and not on single ones.

Common practice throughout: no rule reads speed to pick a fairway wood's loft; flights, counted balls and
lies do it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rules.engine.language import Rule
from rules.fitting import House, Outcome
from rules.units import parse

DEG, INCH, MM = (parse(f"1 {u}", u) for u in ("deg", "in", "mm"))
Family = Callable[..., Outcome]


def lofts(outcome: Outcome) -> tuple[float, float]:
    """Return both lofts, degrees."""
    assert outcome.picked is not None
    return outcome.picked.longer.spec.loft / DEG, outcome.picked.shorter.spec.loft / DEG


def kinds(outcome: Outcome) -> str:
    """Return the types of the pair, such as fairway+hybrid."""
    assert outcome.picked is not None
    return f"{outcome.picked.longer.kind}+{outcome.picked.shorter.kind}"


@pytest.mark.parametrize("mph", [109, 112, 115])
@pytest.mark.parametrize("handicap", [0, 3, 6])
def test_fast_and_centred(family: Family, mph: float, handicap: float) -> None:
    longer, shorter = lofts(family(mph, handicap, airborne_of_six=6, contact=["centred"]))
    assert 13 <= longer <= 16.5
    assert 16.5 <= shorter <= 21


def test_the_fast_sample_ends_at_a_strong_wood_and_a_five_wood(family: Family) -> None:
    longer, shorter = lofts(family(112, 3, airborne_of_six=6, contact=["centred"]))
    assert 13 <= longer <= 16.5
    assert 17.5 <= shorter <= 21


@pytest.mark.parametrize("mph", [86, 88, 90])
@pytest.mark.parametrize("tight", [40, 50, 60])
def test_thin_off_tight_turf(family: Family, mph: float, tight: float) -> None:
    outcome = family(
        mph, 18, contact=["thin"], airborne_of_six=2, turf="firm",
        lies={"tight_fairway": tight, "fairway": 25, "rough": 15, "tee": 10},
    )  # fmt: skip
    assert outcome.picked is not None
    longer, shorter = outcome.picked.longer, outcome.picked.shorter
    assert 17 <= longer.spec.loft / DEG <= 21.25
    assert shorter.spec.loft / DEG >= 20.5
    assert 40.5 <= longer.spec.length / INCH <= 42.5
    assert longer.spec.face_height is not None
    assert longer.spec.face_height / MM <= 34


@pytest.mark.parametrize(
    ("mph", "longest", "shortest"), [(75, 18, 22), (72, 18, 22), (65, 20, 23), (62, 20, 23)]
)
@pytest.mark.parametrize("handicap", [6, 14, 22, 30])
def test_slow_swings_get_loft(
    family: Family, mph: float, longest: float, shortest: float, handicap: float
) -> None:
    longer, shorter = lofts(family(mph, handicap))
    assert longer >= longest
    assert shorter >= shortest


@pytest.mark.parametrize("handicap", [0, 6, 12, 18, 24])
@pytest.mark.parametrize("count", [0, 1, 2, 3])
@pytest.mark.parametrize("mph", [70, 88, 96, 104, 112])
def test_fewer_than_four_of_six_means_eighteen_degrees_or_more(
    family: Family, mph: float, handicap: float, count: int
) -> None:
    longer, _ = lofts(family(mph, handicap, airborne_of_six=count))
    assert longer >= 18


TYPICAL: list[dict[str, Any]] = [
    {},
    {"contact": ["thin"], "airborne_of_six": 2},
    {"airborne_of_six": 3},
    {"turf_mark": "none", "hits_five_wood": "well"},
    {"turf_mark": "bruise", "airborne_of_six": 6, "confidence_fairway": 4},
    {"turf_mark": "divot", "contact": ["scattered"], "hits_five_wood": "badly"},
]


@pytest.mark.parametrize("answers", TYPICAL)
@pytest.mark.parametrize("handicap", [3, 12, 18, 28])
def test_with_the_bag_scaled_the_longer_loft_never_rises_with_speed(
    family: Family, handicap: float, answers: dict[str, Any]
) -> None:
    found = [lofts(family(mph, handicap, **answers))[0] for mph in range(60, 119, 4)]
    assert found == sorted(found, reverse=True)
    assert found[0] - found[-1] >= 4


@pytest.mark.parametrize("mph", [75, 82, 88, 93, 104, 112])
def test_the_longer_loft_never_falls_with_handicap(family: Family, mph: float) -> None:
    found = [lofts(family(mph, handicap))[0] for handicap in range(0, 37, 4)]
    assert found == sorted(found)


def test_a_pair_is_about_four_degrees_apart(family: Family) -> None:
    steps = [b - a for mph in range(64, 119, 6) for h in (3, 12, 24) for a, b in [lofts(family(mph, h))]]
    assert all(2.5 <= step <= 5 for step in steps)
    assert 3.4 <= sum(steps) / len(steps) <= 4.4


@pytest.mark.parametrize("mph", [78, 85, 92, 99, 106])
@pytest.mark.parametrize("handicap", [12, 18, 26])
def test_a_digger_with_scattered_strikes_leans_to_the_hybrid(
    family: Family, mph: float, handicap: float
) -> None:
    digger = family(mph, handicap, turf_mark="divot", contact=["scattered"], hits_five_wood="badly")
    assert kinds(digger).endswith("+hybrid")


@pytest.mark.parametrize("mph", [72, 82, 92, 102, 112])
@pytest.mark.parametrize("handicap", [3, 12, 20])
def test_a_sweeper_who_hits_his_five_wood_leans_to_the_wood(
    family: Family, mph: float, handicap: float
) -> None:
    assert kinds(family(mph, handicap, turf_mark="none", hits_five_wood="well")) == "fairway+fairway"


@pytest.mark.parametrize("mph", range(62, 106, 6))
@pytest.mark.parametrize(
    "answers",
    [
        {"confidence_fairway": 1, "confidence_hybrid": 5, "type_preference": "hybrid"},
        {"turf_mark": "divot", "contact": ["scattered", "fat"], "hits_five_wood": "badly"},
    ],
)
def test_no_hybrid_stronger_than_eighteen_degrees_below_real_speed(
    family: Family, mph: float, answers: dict[str, Any]
) -> None:
    # Common practice: no hybrid under 18 degrees for average speed.
    outcome = family(mph, 16, **answers)
    assert outcome.picked is not None
    for rung in (outcome.picked.longer, outcome.picked.shorter):
        assert rung.kind == "fairway" or rung.spec.loft / DEG >= 18


def test_a_club_that_flies_no_farther_earns_no_slot(family: Family) -> None:
    for mph in range(66, 119, 6):
        outcome = family(mph, 15)
        assert outcome.picked is not None
        share = outcome.picked.views["pair_gap_share"].best
        assert isinstance(share, float)
        assert share >= 0.04


def test_no_rule_of_the_pair_reads_speed_to_pick_a_fairway_wood(house: House) -> None:
    def speaks(rule: Rule) -> bool:
        return rule.decision == "pairing" and bool({"driver_head_speed", "driver_speed"} & rule.reads)

    for rule in filter(speaks, house.base.rules.values()):
        assert {"longer_kind", "shorter_kind"} & rule.reads, rule.id
        assert "hybrid" in rule.id


@pytest.mark.parametrize("mph", [84, 88, 92, 96])
@pytest.mark.parametrize("count", [0, 1, 2, 3])
@pytest.mark.parametrize("handicap", [10, 18, 26])
def test_one_strike_told_twice_counts_once(family: Family, mph: float, count: int, handicap: float) -> None:
    """Thin, low on the face and staying down are signs of one strike; naming both moves no loft."""
    once, twice = (
        family(mph, handicap, contact=contact, airborne_of_six=count)
        for contact in (["thin"], ["thin", "low_face"])
    )
    assert lofts(once) == lofts(twice)
    change = "delivered_loft_change"
    assert once.golfer.number(change) == pytest.approx(twice.golfer.number(change))


@pytest.mark.parametrize(
    ("advice", "sample"),
    [
        ("one-club-is-enough", "very-slow"),
        ("drop-the-long-iron", "digger-scattered"),
        ("mend-the-driver-first", "driver-to-mend-first"),
        ("lesson-first", "lesson-first"),
        ("something-leaves-first", "fourteen-already"),
        ("keep-what-you-have", "keep-what-he-has"),
        ("longer-club-gains-nothing", "thin-off-tight-turf"),
        ("junior-no-cut-down-clubs", "junior"),
    ],
)
def test_what_outweighs_a_pair_is_said_where_it_should_be_and_not_everywhere(
    sample_outcomes: dict[str, Outcome], advice: str, sample: str
) -> None:
    told = {id for id, outcome in sample_outcomes.items() if advice in {n.rule.id for n in outcome.notices}}
    assert sample in told
    assert "fast-and-centred" not in told


def test_one_club_and_a_longer_club_that_gains_nothing_are_not_said_together(
    sample_outcomes: dict[str, Outcome],
) -> None:
    for outcome in sample_outcomes.values():
        told = {n.rule.id for n in outcome.notices}
        assert not {"one-club-is-enough", "longer-club-gains-nothing"} <= told
