"""Length, face, balance, shaft, grip, lie and ports of a club, as the trade sets them (common practice)."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rules.engine import Amount
from rules.fitting import Outcome
from rules.ladder.rung import Rung
from rules.units import parse

DEG, INCH, MM, GRAM = (parse(f"1 {u}", u) for u in ("deg", "in", "mm", "g"))
Family = Callable[..., Outcome]


def rung(outcome: Outcome, id: str) -> Rung:
    """Return one rung of the ladder."""
    return next(one for one in outcome.rungs if one.id == id)


def amount(outcome: Outcome, id: str, decision: str) -> Amount:
    made = rung(outcome, id).decisions[decision]
    assert isinstance(made, Amount)
    return made


def spoken(made: Amount) -> set[str]:
    return {line.rule.id for line in made.lines if line.rule}


@pytest.mark.parametrize("handicap", [6, 12, 18, 24])
def test_strong_woods_are_centred_best_near_forty_two(family: Family, handicap: float) -> None:
    # 41.5 to 42.5 in typical for club golfers who scatter their strikes.
    outcome = family(92, handicap, contact=["scattered", "heel"])
    for id in ("fairway-15", "fairway-17"):
        assert 41 <= rung(outcome, id).spec.length / INCH <= 42.5
    assert 41.25 <= rung(outcome, "fairway-15").spec.length / INCH <= 42.5


def test_a_quiet_golfer_gets_a_little_less_than_shops_sell(family: Family) -> None:
    # Sold today: 3-wood 42.75 to 43.5 in, 5-wood 42 to 42.5, hybrids 39 to 41.
    outcome = family(95, 8)
    assert 42.25 <= rung(outcome, "fairway-15").spec.length / INCH < 42.75
    assert 41.75 <= rung(outcome, "fairway-19").spec.length / INCH <= 42.25


def test_fairway_woods_do_not_read_the_wrist_and_hybrids_do(family: Family) -> None:
    # 37 in to the wrist: hybrid half an inch more; 36 in: nothing, whatever the height; woods never.
    usual, tall, long_armed, short = (
        family(95, 12, wrist_to_floor=f"{w} in", height=f"{h} in")
        for w, h in ((34.5, 70), (37, 75), (36, 77), (32, 63))
    )
    for id in ("fairway-15", "fairway-19"):
        assert len({rung(o, id).spec.length for o in (usual, tall, long_armed, short)}) == 1

    def hybrid(outcome: Outcome) -> float:
        return rung(outcome, "hybrid-20.5").spec.length / INCH

    assert hybrid(tall) - hybrid(usual) == pytest.approx(0.5)
    assert hybrid(long_armed) == pytest.approx(hybrid(usual))
    assert hybrid(short) < hybrid(usual)


def test_own_marks_silence_the_handicap(sample_outcomes: dict[str, Outcome]) -> None:
    outcome = sample_outcomes["marks-overrule-handicap"]
    assert outcome.picked is not None
    made = outcome.picked.longer.decisions["length"]
    assert isinstance(made, Amount)
    assert "own-marks-spread-sets-length" in spoken(made)
    assert not {"standard-of-play-sets-length", "scattered-strikes-shorten", "heel-strikes-shorten"} & spoken(
        made
    )


@pytest.mark.parametrize(
    "answers",
    [
        {"contact": ["scattered"]},
        {"contact": ["heel"]},
        {"contact": ["thin"]},
        {"confidence_fairway": 1},
        {"tempo": "abrupt"},
    ],
)
def test_what_shortens_a_fairway_wood(family: Family, answers: dict[str, Any]) -> None:
    assert (
        rung(family(92, 12, **answers), "fairway-17").spec.length
        < rung(family(92, 12), "fairway-17").spec.length
    )


@pytest.mark.parametrize("id", ["fairway-15", "fairway-17", "fairway-19", "hybrid-20.5"])
def test_length_is_its_ledger(family: Family, id: str) -> None:
    made = amount(family(84, 22, contact=["thin", "heel"]), id, "length")
    assert made.start + sum(line.adjust for line in made.lines) == made.pick


@pytest.mark.parametrize(
    ("mph", "low", "high"), [(62, -6, -3), (70, -5, -3), (92, 0, 2), (105, 0, 2), (112, 0, 2)]
)
def test_balance_follows_speed(family: Family, mph: float, low: float, high: float) -> None:
    # C5 to C7 for slow swings, D0 to D2 at average speed and above.
    assert low <= rung(family(mph, 15), "fairway-19").spec.balance <= high


def test_balance_moves_by_what_can_be_felt(family: Family) -> None:
    light, right, heavy = (
        rung(family(92, 15, head_feel=f), "fairway-19").spec.balance for f in ("light", "right", "heavy")
    )
    assert light - right == pytest.approx(2)
    assert right - heavy == pytest.approx(2)


def test_shaft_mass_and_flex_follow_speed_and_start_down(family: Family) -> None:
    # Under 65 g for easy swingers, 70 to 80 in the middle of fast ones, over 80 for the strong and abrupt.
    def shaft(mph: float, tempo: str, id: str = "fairway-19") -> tuple[float, str]:
        spec = rung(family(mph, 12, tempo=tempo), id).spec
        assert spec.shaft is not None
        return spec.shaft.mass / GRAM, spec.shaft.flex

    easy, middle, strong = shaft(72, "smooth"), shaft(95, "medium"), shaft(114, "abrupt")
    assert easy[0] < 60 < middle[0] < 78 < strong[0]
    order = "LARSX"
    assert order.index(easy[1]) < order.index(middle[1]) < order.index(strong[1])
    for mph in (75, 90, 105):
        more = shaft(mph, "medium", "hybrid-20.5")[0] - shaft(mph, "medium")[0]
        assert 5 <= more <= 25


def test_the_hand_sets_the_grip(family: Family) -> None:
    sizes = []
    for hand in ("6.4 in", "7.25 in", "8 in", "9 in"):
        grip = rung(family(92, 12, hand_length=hand), "fairway-19").spec.grip
        assert grip is not None
        sizes.append(["undersize", "standard", "midsize", "oversize"].index(grip.size))
    assert sizes == sorted(sizes)
    assert sizes[0] == 0
    assert sizes[-1] == 3


def test_lie_follows_the_sole_and_by_little(family: Family) -> None:
    toe, middle, heel = (
        rung(family(92, 12, sole_marks=m), "hybrid-20.5").spec.lie / DEG for m in ("toe", "middle", "heel")
    )
    assert toe - middle == pytest.approx(1)
    assert middle - heel == pytest.approx(1)


@pytest.mark.parametrize(
    ("hand", "miss", "side"),
    [("right", "right", "heel"), ("right", "left", "toe"), ("left", "left", "heel"), ("left", "right", "toe"),
     ("right", "straight", "even"), ("left", "both", "even")],
)  # fmt: skip
def test_mass_goes_against_the_shape_of_the_miss(family: Family, hand: str, miss: str, side: str) -> None:
    outcome = family(95, 12, hand=hand, miss=miss, curve=None)
    for club in outcome.clubs:
        assert club.direction is not None
        assert club.direction.pick is not None
        assert club.direction.pick.candidate.id == side


def test_a_worry_about_tall_faces_is_heard(family: Family) -> None:
    for mph in (85, 95, 105):
        worried, fond = (
            family(mph, 12, deep_face=feeling, lies={"fairway": 60, "tee": 40})
            for feeling in ("worries", "likes")
        )
        for id in ("fairway-15", "fairway-17"):
            low, tall = rung(worried, id).spec.face_height, rung(fond, id).spec.face_height
            assert low is not None
            assert tall is not None
            assert low / MM <= 34 < tall / MM


def test_bare_turf_gets_a_shallow_face(family: Family) -> None:
    # 30 to 32 mm suits a ball close to bare turf; 34 mm still counts as low.
    outcome = family(95, 12, turf="firm", lies={"tight_fairway": 80, "fairway": 20})
    for id in ("fairway-15", "fairway-17", "fairway-19", "fairway-21"):
        height = rung(outcome, id).spec.face_height
        assert height is not None
        assert 30 <= height / MM <= 32
