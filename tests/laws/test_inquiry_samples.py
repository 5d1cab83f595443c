"""The same laws on the sample sessions, where something is to be found: none holds for want of cases."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest

from interview.session import load
from rules.fitting import Outcome, fit, load_house
from rules.inquiry.enough import Sparing, enough, needed_alone
from rules.inquiry.flips import FactFlips, Flip, Flipping
from rules.inquiry.ledgers import why_not
from rules.inquiry.roads import Roads, changes
from rules.inquiry.values import Line, Trial

HOUSE = load_house()
SAMPLES = Path(__file__).parents[2] / "sample_sessions"
NAMES = ("fast-and-centred", "digger-scattered", "senior-smooth")
NUMBERS = ("handicap", "airborne_of_six", "driver_speed")


@lru_cache(maxsize=4)
def outcome_of(name: str) -> Outcome:
    return fit(HOUSE, load(SAMPLES / f"{name}.toml", HOUSE.base.facts).subject)


@lru_cache(maxsize=4)
def moved(name: str) -> tuple[Flipping, tuple[FactFlips, ...]]:
    """What moving three numbers of a sample can do."""
    outcome = outcome_of(name)
    assert outcome.pairing is not None
    assert outcome.pairing.runner_up is not None
    roads = Roads(HOUSE, outcome.subject, outcome.golfer.density)
    found = Flipping(outcome, roads, roads.run(), outcome.pairing.runner_up.candidate.id)
    return found, tuple(one for id in NUMBERS for one in found.of(HOUSE.base.facts[id]))


def line_of(name: str, id: str) -> Line:
    outcome = outcome_of(name)
    return Line(HOUSE.base.facts[id], outcome.golfer.known[id], outcome.subject.answers.get(id))


def nearer(line: Line, flip: Flip) -> list[Trial]:
    """Every value that people tell between where a number stands and its flip, the last step cut finer."""
    assert flip.direction
    sign, end = (1 if flip.direction == "up" else -1), float(flip.to)  # type: ignore[arg-type]
    steps: list[Trial] = []
    inner: Trial | None = None
    for trial in line.outward(flip.direction):
        if sign * (float(trial.value) - end) >= -1e-9:  # type: ignore[arg-type]
            finer = line.between(inner, trial)
            return [*steps, *(one for one in finer if sign * (float(one.value) - end) < -1e-9)]  # type: ignore[arg-type]
        steps.append(trial)
        inner = trial
    return steps


@pytest.mark.parametrize("name", NAMES)
def test_a_flip_flips_and_no_value_nearer_does(name: str) -> None:
    found, flips = moved(name)
    some = [flip for one in flips for flip in one.flips if flip.decision == "pairing"]
    assert len(some) >= 2
    tried = 0
    for flip in some:
        assert "pairing" in changes(found.base, found.mine, found.roads.run(flip.trial.answers))
        for trial in nearer(line_of(name, flip.fact), flip):
            tried += 1
            assert found.roads.run(trial.answers).pick == found.mine.pick
    assert tried >= 3


@pytest.mark.parametrize("name", NAMES)
def test_where_no_flip_is_told_the_whole_range_keeps_the_pair(name: str) -> None:
    found, flips = moved(name)
    for one in flips:
        line = line_of(name, one.fact)
        for side in ("up", "down"):
            if not any(f.direction == side and f.decision == "pairing" for f in one.flips) and one.tried:
                for trial in line.outward(side):
                    assert found.roads.run(trial.answers).pick == found.mine.pick


@pytest.mark.parametrize("name", NAMES)
def test_what_separates_the_pick_from_every_rival_adds_up(name: str) -> None:
    outcome = outcome_of(name)
    assert outcome.pairing is not None
    assert len(outcome.pairing.standings) > 20
    for standing in outcome.pairing.standings[1::3]:
        why = why_not(outcome, "pairing", standing.candidate.id)
        assert why.differences
        assert sum(one.apart for one in why.differences) == why.margin
        assert why.same + sum(one.mine.points for one in why.differences if one.mine) == (
            outcome.pairing.standings[0].points
        )


def test_the_answers_that_are_enough_are_and_none_can_be_spared() -> None:
    """Each answer of the set flips the pair alone, or some plausible way to answer it and others does."""
    outcome, (found, flips) = outcome_of("fast-and-centred"), moved("fast-and-centred")
    pick = found.mine.pick or ""
    few = enough(outcome, pick, flips, steady=False, most=500)
    assert few.proved
    assert 0 < len(few.answers) < few.given
    roads = Roads(HOUSE, outcome.subject, outcome.golfer.density)
    sparing = Sparing(outcome, roads, pick, anyhow=False, most=10**6)
    assert sparing.counterexample(frozenset(few.answers)) is None
    alone = needed_alone(outcome, flips)
    assert alone & set(few.answers)
    for id in few.answers:
        rest = frozenset(few.answers) - {id}
        assert id in alone or sparing.counterexample(rest, narrowed=False) is not None
