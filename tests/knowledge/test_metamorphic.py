"""One answer changed in a known direction: what may follow, and what never may."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest

from rules.engine import Choice
from rules.facts.reading import read_subject
from rules.fitting import House, Outcome, fit
from rules.units import parse

DEG = parse("1 deg", "rad")
Family = Callable[..., Outcome]
GOLFERS: list[tuple[float, float, dict[str, Any]]] = [
    (76, 20, {"tempo": "smooth"}),
    (86, 18, {"contact": ["thin"], "airborne_of_six": 3}),
    (92, 22, {"turf_mark": "divot", "contact": ["scattered"]}),
    (98, 10, {"hits_five_wood": "well", "miss": "left"}),
    (110, 4, {"turf_mark": "bruise", "wind": "windy"}),
]


def hybrids(outcome: Outcome) -> int:
    assert outcome.picked is not None
    return (outcome.picked.longer.kind == "hybrid") + (outcome.picked.shorter.kind == "hybrid")


def longer_loft(outcome: Outcome) -> float:
    assert outcome.picked is not None
    return outcome.picked.longer.spec.loft


@pytest.mark.parametrize(("mph", "handicap", "answers"), GOLFERS)
@pytest.mark.parametrize("fairway", [1, 3, 5])
def test_more_trust_in_hybrids_never_moves_toward_woods(
    family: Family, mph: float, handicap: float, answers: dict[str, Any], fairway: int
) -> None:
    found = [
        hybrids(family(mph, handicap, confidence_hybrid=trust, confidence_fairway=fairway, **answers))
        for trust in (1, 2, 3, 4, 5)
    ]
    assert found == sorted(found)


def test_trust_can_move_the_pick(family: Family) -> None:
    low, high = (hybrids(family(93, 15, confidence_hybrid=trust)) for trust in (1, 5))
    assert low < high


@pytest.mark.parametrize(("mph", "handicap", "answers"), GOLFERS)
def test_tighter_lies_never_ask_for_a_taller_face(
    family: Family, mph: float, handicap: float, answers: dict[str, Any]
) -> None:
    """Shots moved from the teed and the fairway ball to bare turf, step by step.

    Lies are folded into three strikes up the face, so heads within a tenth of a point may change places.
    """

    def lies(tight: float) -> dict[str, float]:
        rest = (90 - tight) / 2
        return {"tight_fairway": tight, "fairway": rest, "tee": rest, "rough": 10}

    runs = [family(mph, handicap, **{**answers, "lies": lies(tight)}) for tight in (25, 40, 60, 80)]
    for looser, tighter in pairwise(runs):
        before = {r.id: r for r in looser.rungs}
        for rung in tighter.rungs:
            old, new = before[rung.id].spec.head, rung.spec.head
            assert old is not None
            assert new is not None
            if new.face_height > old.face_height:
                choice = rung.decisions["head"]
                assert isinstance(choice, Choice)
                standing = choice.standing(old.id)
                assert standing is not None
                assert choice.standings[0].points - standing.points < 100


@pytest.mark.parametrize(("mph", "handicap", "answers"), GOLFERS)
def test_more_balls_that_get_up_never_ask_for_more_loft(
    family: Family, mph: float, handicap: float, answers: dict[str, Any]
) -> None:
    found = [longer_loft(family(mph, handicap, **{**answers, "airborne_of_six": n})) for n in range(7)]
    assert found == sorted(found, reverse=True)


@pytest.mark.parametrize(("mph", "handicap", "answers"), GOLFERS)
def test_a_mirrored_golfer_on_a_mirrored_shelf_gets_the_same_clubs(
    house: House, family: Family, mph: float, handicap: float, answers: dict[str, Any]
) -> None:
    """Left-handed copies of all right-handed heads, and of no others; his miss turned round with him."""
    turned = {"left": "right", "right": "left"}
    mirror = house.with_shelf(
        replace(
            house.shelf, heads=tuple(replace(h, hand="left") for h in house.shelf.heads if h.hand == "right")
        )
    )
    right = family(mph, handicap, **answers)
    facts = {id: a for id, a in right.subject.answers.items() if id not in ("hand", "miss")}
    miss = str(right.subject.answers["miss"].value)
    swapped = read_subject(house.base.facts, {"answers": {"hand": "left", "miss": turned.get(miss, miss)}})
    left = fit(mirror, replace(right.subject, answers={**facts, **swapped.answers}))
    assert left.picked is not None
    assert right.picked is not None
    assert left.picked.id == right.picked.id
    assert left.pairing is not None
    assert right.pairing is not None
    assert left.pairing.margin == right.pairing.margin
    for one, other in zip(left.clubs, right.clubs, strict=True):
        assert one.rung.spec.length == other.rung.spec.length
        assert one.plan == other.plan


@pytest.mark.parametrize(("mph", "handicap", "answers"), GOLFERS)
def test_the_same_answers_in_other_units_give_the_same_pick(
    family: Family, mph: float, handicap: float, answers: dict[str, Any]
) -> None:
    one = family(
        mph,
        handicap,
        wrist_to_floor="35 in",
        height="6 ft",
        temperature="68 degF",
        altitude="328 ft",
        **answers,
    )
    other = family(
        mph, handicap, wrist_to_floor="88.9 cm", height="182.88 cm", temperature="20 degC",
        altitude="99.9744 m", driver_speed={"value": f"{mph * 1.609344} km/h", "how": "measured"}, **answers,
    )  # fmt: skip
    assert one.picked is not None
    assert other.picked is not None
    assert one.picked.id == other.picked.id
    for a, b in zip(one.clubs, other.clubs, strict=True):
        assert a.rung.spec.length == pytest.approx(b.rung.spec.length)
        assert a.rung.spec.balance == pytest.approx(b.rung.spec.balance)


@pytest.mark.parametrize(("mph", "handicap", "answers"), GOLFERS)
def test_age_changes_no_flex_and_no_loft(
    family: Family, mph: float, handicap: float, answers: dict[str, Any]
) -> None:
    outcomes = [family(mph, handicap, age_band=band, **answers) for band in ("junior", "adult", "senior")]
    made = {
        tuple((c.rung.id, c.rung.spec.length, c.rung.spec.balance, c.rung.spec.shaft) for c in outcome.clubs)
        for outcome in outcomes
    }
    assert len(made) == 1


@pytest.mark.parametrize(("mph", "handicap", "answers"), GOLFERS)
def test_a_liked_club_that_fits_is_kept_and_a_disliked_one_never_gains(
    house: House, family: Family, mph: float, handicap: float, answers: dict[str, Any]
) -> None:
    plain = family(mph, handicap, **answers)
    assert plain.picked is not None
    longer = plain.picked.longer.spec
    club = {
        "name": "his own", "kind": plain.picked.longer.kind, "loft": f"{longer.loft / DEG} deg",
        "length": f"{longer.length} m",
    }  # fmt: skip
    standing = []
    for liked in ("no", "so_so", "yes"):
        owner = read_subject(house.base.facts, {"owned": [{**club, "liked": liked}]})
        outcome = fit(house, replace(plain.subject, owned=owner.owned))
        assert outcome.pairing is not None
        best = max(s.points for s in outcome.pairing.standings if "own-his-own" in s.candidate.id)
        standing.append(best)
        if liked == "yes":
            assert outcome.picked is not None
            assert "own-his-own" in outcome.picked.id
    assert standing == sorted(standing)
