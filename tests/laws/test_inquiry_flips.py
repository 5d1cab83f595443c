"""What is said to change a pick changes it, nothing nearer does, and what is enough is enough."""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.facts.reading import read_subject
from rules.fitting import Outcome, fit, load_house
from rules.inquiry.enough import Sparing, enough, needed_alone
from rules.inquiry.flips import FactFlips, Flipping
from rules.inquiry.invented import invented
from rules.inquiry.overtake import overtake, together
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


@pytest.mark.parametrize(("number", "changes"), [(1, 0), (3, 1), (6, 1)])
def test_the_set_that_makes_the_runner_up_win_does_and_no_part_of_it(number: int, changes: int) -> None:
    found = flipping(outcome_of(number))
    assert found.rival is not None
    flips = [one for id in FACTS for one in of(found, id)]
    winning = overtake(found, found.rival, flips)
    assert len(winning.trials) == changes
    for size in range(changes + 1):
        for some in combinations(winning.trials, size):
            assert (found.roads.run(together(some)).pick == found.rival) == (0 < size == changes)
    if changes != 1:
        assert winning.pool
        tried = [trial for one in flips for trial, _ in one.tried]
        beyond = [trial for one in flips for trial in found.beyond(one)]
        for trial in (*tried, *beyond)[::4]:
            assert found.roads.run(trial.answers).pick != found.rival


def told_golfer(handicap: int) -> Outcome:
    """A golfer of whom almost all is told: steady, and a smaller set of the answers is too."""
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
    return fit(HOUSE, read_subject(HOUSE.base.facts, {"answers": {**unknown, **told}}))


def roads_of(outcome: Outcome) -> Roads:
    return Roads(HOUSE, outcome.subject, outcome.golfer.density)


@pytest.mark.parametrize("number", [29])
def test_what_is_enough_is_and_for_every_smaller_set_another_pair_may_win(number: int) -> None:
    """Every answer left out alone, or a few together, is answered otherwise by somebody plausible."""
    outcome = outcome_of(number)
    pick = roads_of(outcome).run().pick or ""
    flips = tuple(one for id in (*FACTS, "turf_mark", "hits_five_wood") for one in of(flipping(outcome), id))
    found = enough(outcome, pick, flips, steady=False, most=700)
    assert found.answers
    sparing = Sparing(outcome, roads_of(outcome), pick, anyhow=False, most=10**6)
    assert sparing.counterexample(frozenset(found.answers)) is None
    assert found.proved
    for id in found.answers:
        without = frozenset(found.answers) - {id}
        alone = id in needed_alone(outcome, flips)
        assert alone or sparing.counterexample(without, narrowed=False) is not None


def test_an_answer_that_flips_the_pair_alone_is_always_kept() -> None:
    outcome = outcome_of(3)
    flips = tuple(one for id in FACTS for one in of(flipping(outcome), id))
    alone = needed_alone(outcome, flips) & set(outcome.subject.answers)
    assert alone
    found = enough(outcome, roads_of(outcome).run().pick or "", flips, steady=False, most=20)
    assert alone <= set(found.answers)
    assert found.at_least >= len(alone)


def test_a_steady_pick_needs_few_of_its_answers_whatever_is_open() -> None:
    outcome = told_golfer(20)
    assert outcome.picked is not None
    found = enough(outcome, outcome.picked.id, most=900)
    assert found.anyhow
    assert found.proved
    assert 0 < len(found.answers) < found.given
    sparing = Sparing(outcome, roads_of(outcome), outcome.picked.id, anyhow=True, most=10**6)
    assert sparing.counterexample(frozenset(found.answers)) is None
    for id in found.answers:
        assert sparing.counterexample(frozenset(found.answers) - {id}, narrowed=False) is not None
    short = enough(outcome, outcome.picked.id, most=60)
    assert short.at_least <= len(found.answers) <= len(short.answers) <= short.given
    assert sparing.counterexample(frozenset(short.answers)) is None


def test_a_counterexample_is_one_and_holds_nothing_that_is_kept() -> None:
    outcome = told_golfer(20)
    assert outcome.picked is not None
    sparing = Sparing(outcome, roads_of(outcome), outcome.picked.id, anyhow=True, most=10**6)
    spoiling = sparing.counterexample(frozenset(("handicap", "pain")))
    assert spoiling
    assert not spoiling & {"handicap", "pain"}
    assert sparing.counterexample(frozenset(sparing.given) - spoiling) is not None
