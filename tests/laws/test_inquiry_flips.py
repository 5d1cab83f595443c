"""What is said to change a pick changes it, nothing nearer does, and what is enough is enough."""

from __future__ import annotations

from functools import lru_cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.facts.reading import read_subject
from rules.fitting import Outcome, fit, load_house
from rules.inquiry.enough import Sparing, enough
from rules.inquiry.flips import FactFlips, Flipping
from rules.inquiry.invented import invented
from rules.inquiry.overtake import overtake
from rules.inquiry.roads import Roads, changes
from rules.inquiry.values import Line

HOUSE = load_house()
numbers = st.integers(0, 10**6)
FACTS = (
    "handicap",
    "airborne_of_six",
    "driver_speed",
    "longest_iron_loft",
    "temperature",
    "confidence_hybrid",
)


@lru_cache(maxsize=8)
def outcome_of(number: int) -> Outcome:
    data = {key: part for key, part in invented(number).items() if key in ("answers", "owned")}
    return fit(HOUSE, read_subject(HOUSE.base.facts, data))


def flipping(outcome: Outcome) -> Flipping:
    roads = Roads(HOUSE, outcome.subject, outcome.golfer.density)
    rival = outcome.pairing.runner_up if outcome.pairing else None
    return Flipping(outcome, roads, roads.run(), rival.candidate.id if rival else None)


def of(found: Flipping, id: str) -> list[FactFlips]:
    return [one for fact in found.facts() if fact.id == id for one in found.of(fact)]


@settings(max_examples=8, deadline=None)
@given(numbers, st.sampled_from((*FACTS, "type_preference", "turf_mark", "contact", "lies")))
def test_a_reported_flip_really_flips(number: int, id: str) -> None:
    found = flipping(outcome_of(number))
    for one in of(found, id):
        for flip in one.flips:
            road = found.roads.run(flip.trial.answers)
            assert flip.decision in changes(found.base, found.mine, road)
            assert road.decided.get(flip.decision, "") == flip.pick


@settings(max_examples=8, deadline=None)
@given(numbers, st.sampled_from(FACTS))
def test_nothing_nearer_flips_on_the_grid_that_people_tell(number: int, id: str) -> None:
    found, outcome = flipping(outcome_of(number)), outcome_of(number)
    for one in of(found, id):
        line = Line(HOUSE.base.facts[id], outcome.golfer.known[id], outcome.subject.answers.get(id))
        for side in ("up", "down"):
            flip = next((f for f in one.flips if f.decision == "pairing" and f.direction == side), None)
            if not one.tried:
                continue
            for trial in line.outward(side):
                nearer = flip is None or abs(float(trial.value) - line.now) < abs(float(flip.to) - line.now)  # type: ignore[arg-type]
                if not nearer:
                    break
                assert found.roads.run(trial.answers).pick == found.mine.pick


@settings(max_examples=6, deadline=None)
@given(numbers)
def test_a_fact_that_was_not_tried_reaches_nothing(number: int) -> None:
    """What is skipped because nothing depends on it gives the same road at both ends of its range."""
    found, outcome = flipping(outcome_of(number)), outcome_of(number)
    for fact in found.facts():
        if fact.kind != "number" or fact.id in ("height", "driver_length"):
            continue
        line = Line(fact, outcome.golfer.known[fact.id], None)
        routes = fact.unit in ("mph", "yd") and fact.id != "longest_iron_carry"
        if not found._acts(fact, line) and not routes:
            for end in fact.range:
                road = found.roads.run(line.trial(line.shown.from_si(end), "").answers)
                assert not changes(found.base, found.mine, road)


@settings(max_examples=3, deadline=None)
@given(numbers)
def test_the_set_that_makes_the_runner_up_win_does_and_none_can_be_spared(number: int) -> None:
    found = flipping(outcome_of(number))
    if found.rival is None:
        return
    flips = [one for id in FACTS for one in of(found, id)]
    winning = overtake(found.roads, found.rival, flips)
    if winning is None:
        return
    for left_out in (None, *winning.trials):
        some = [trial for trial in winning.trials if trial is not left_out]
        answers = {id: answer for trial in some for id, answer in trial.answers.items()}
        assert (found.roads.run(answers).pick == found.rival) == (left_out is None)


@pytest.mark.parametrize("handicap", [20])
def test_what_is_enough_is_and_none_of_it_can_be_spared(handicap: int) -> None:
    """A golfer of whom almost all is told: steady, and a smaller set of his answers is too."""
    unknown = {id: {"unknown": True} for id, fact in HOUSE.base.facts.items() if fact.ask is not None}
    told = {
        "driver_speed": {"value": "80 mph", "how": "measured"},
        "handicap": handicap,
        "airborne_of_six": 2,
        "type_preference": "fairway",
        "hits_five_wood": "well",
        "confidence_fairway": 5,
        "confidence_hybrid": 1,
        "pain": "no",
    }
    outcome = fit(HOUSE, read_subject(HOUSE.base.facts, {"answers": {**unknown, **told}}))
    assert outcome.picked is not None
    found = enough(outcome, outcome.picked.id, unlikely=set(unknown) - set(told))
    assert found is not None
    assert len(found.answers) < found.given
    sparing = Sparing(outcome, Roads(HOUSE, outcome.subject, outcome.golfer.density), outcome.picked.id)
    assert sparing.still(found.answers)
    for id in found.answers:
        assert not sparing.still([one for one in found.answers if one != id])


def test_an_unsteady_pick_has_no_set_that_is_enough() -> None:
    outcome = fit(HOUSE, read_subject(HOUSE.base.facts, {"answers": {"handicap": 15}}))
    assert outcome.picked is not None
    assert enough(outcome, outcome.picked.id) is None
