"""Facts that the program derives: each declared one is computed, and each names what it waits on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

import pytest

from rules.engine.language import Fact
from rules.facts.answers import Answer
from rules.facts.golfer import golfer
from rules.facts.known import Known, UndeclaredFact, views
from rules.facts.subject import Subject
from rules.fitting import House, Outcome

Seen = Mapping[str, Known]

_OF_SPEED = ("driver_head_speed", "driver_loft_wanted", "driver_loft_short", "shaft_mass_wanted")
_ROUTES = ("driver_carry", "seven_iron_carry", "fairway_carry", "fairway_speed")
_AIR = ("temperature", "altitude")
NOT_AWAITED = {
    "a radar's reading is welcome and never waited for: the mark on the turf stands for it":
        (("attack",), ("attack_angle",)),
    "one route to the speed is enough; a narrower one that comes unasked is taken":
        ((*_OF_SPEED, "speed_route"), _ROUTES),
    "the air moves a speed found from a carry, and a loft, by less than their own spreads":
        ((*_OF_SPEED, "claimed_excess"), _AIR),
    "it tells how what was said disagrees; what nobody said disagrees with nothing":
        (("speed_disagreement",), (*_ROUTES, *_AIR, "driver_speed", "driver_loft")),
}  # fmt: skip
"""Why some derived facts do not wait on some questions that could move them: facts, questions."""


def _made(outcomes: Mapping[str, Outcome]) -> dict[str, set[str]]:
    """Return the facts that the road computes, by scope, over all samples."""
    made: dict[str, set[str]] = {"golfer": set(), "rung": set(), "pair": set(), "bench": set()}
    for outcome in outcomes.values():
        made["golfer"] |= set(outcome.golfer.views)
        for rung in outcome.rungs:
            made["rung"] |= set(rung.views)
        for pair in outcome.pairs.values():
            made["pair"] |= set(pair.views)
        for club in outcome.clubs:
            made["bench"] |= set(club.views)
            if club.direction:
                made["bench"] |= {id for one in club.direction.standings for id in one.candidate.views}
    return made


def test_every_derived_fact_is_computed(house: House, sample_outcomes: Mapping[str, Outcome]) -> None:
    made = _made(sample_outcomes)
    derived = [fact for fact in house.base.facts.values() if fact.derived]
    assert len(derived) > 80
    lacking = [f"{fact.id} ({fact.scope})" for fact in derived if fact.id not in made[fact.scope]]
    assert lacking == [], "declared as derived, and nothing in rules/ computes it"


def test_a_fact_that_nobody_declares_is_refused_in_a_sentence(house: House) -> None:
    with pytest.raises(UndeclaredFact, match=r"the fact 'tight_shore' is computed but declared nowhere"):
        views(house.base, {"tight_shore": Known(0.5)})


def _not_awaited() -> set[tuple[str, str]]:
    return {(id, question) for ids, questions in NOT_AWAITED.values() for id in ids for question in questions}


def _answers(fact: Fact) -> Iterator[Answer]:
    """Yield answers that lie apart: the ends and the middle of what is likely, or each word alone."""
    if fact.kind == "number":
        low, high = fact.plausible or fact.range
        assert isinstance(low, float)
        assert isinstance(high, float)
        yield from (Answer(value) for value in (low, (low + high) / 2, high))
    elif fact.kind == "choice":
        yield from (Answer(word) for word in fact.values)
    elif fact.kind == "set":
        yield from (Answer(frozenset((word,))) for word in fact.values)
    else:
        yield from (Answer({part: 1.0}) for part in fact.values)


def _moved(house: House, subject: Subject, question: Fact) -> tuple[Seen, set[str]]:
    """Return a golfer who has not been asked a question yet, and which facts its answer would move."""
    rest = {id: answer for id, answer in subject.answers.items() if id != question.id}
    before = golfer(house.base, replace(subject, answers=rest), house.shelf).known
    after = [
        golfer(house.base, replace(subject, answers={**rest, question.id: answer}), house.shelf).known
        for answer in _answers(question)
    ]
    derived = [id for id in before if house.base.facts[id].ask is None]
    return before, {id for id in derived if any(not _same(one[id], after[0][id]) for one in after)}


def _same(one: Known, other: Known) -> bool:
    if isinstance(one.value, float) and isinstance(other.value, float):
        return one.value == pytest.approx(other.value, rel=1e-9, abs=1e-12)
    return one.value == other.value


def test_a_derived_fact_waits_on_every_question_that_moves_it(
    house: House, sample_subjects: Mapping[str, Subject]
) -> None:
    """Else a rule that reads it would speak as if it were known. Balls outweigh answers: none is hit here."""
    asked = [fact for fact in house.base.facts.values() if fact.ask]
    unsaid: dict[tuple[str, str], str] = {}
    told = {who: subject for who, subject in sample_subjects.items() if not subject.shots}
    for who, subject in {"nobody": Subject(), **dict([*told.items()][::2])}.items():
        for question in asked:
            before, moved = _moved(house, subject, question)
            unsaid |= {(id, question.id): who for id in moved if question.id not in before[id].waits}
    silent = {pair: who for pair, who in unsaid.items() if pair not in _not_awaited()}
    assert silent == {}, "(fact, question): a sample in which the open question moves it; name it in `waits`"
