"""Steady: fixed completions of the open questions, and what they come to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from rules.engine.document import read_toml
from rules.facts.answers import Answer
from rules.facts.reading import read_subject
from rules.facts.speed import DIRECT, DISTANCES
from rules.facts.subject import Subject
from rules.fitting import House, Outcome, fit
from rules.inquiry.plausible import open_questions, plausible
from rules.inquiry.roads import Superseded, with_answers
from rules.inquiry.steady import explained, steady

SAMPLES = Path(__file__).parents[2] / "sample_sessions"


def opened(outcome: Outcome) -> tuple[str, ...]:
    return open_questions(outcome.house.base, outcome.subject, outcome.golfer)


def completed(outcome: Outcome) -> tuple[Mapping[str, Answer], ...]:
    return plausible(outcome.house.base, outcome.subject, outcome.golfer)


def sample(house: House, name: str) -> Subject:
    return read_subject(house.base.facts, read_toml(SAMPLES / f"{name}.toml").data)


def test_nothing_open_is_steady_without_a_road(house: House, subject: Callable[..., Subject]) -> None:
    questions = [id for id, fact in house.base.facts.items() if fact.ask is not None]
    who = subject({id: {"unknown": True} for id in questions})
    outcome = fit(house, who)
    found = steady(house, who, outcome)
    assert found.steady
    assert found.tried == 0
    assert list(found.picks) == [outcome.picked.id if outcome.picked else ""]


def test_a_steady_pick_is_the_pick_of_every_completion(house: House) -> None:
    """On surfaces as on full flights: some of the set is tried again with the traced road."""
    for name in ("driver-to-mend-first", "keep-what-he-has", "senior-smooth"):
        who = sample(house, name)
        outcome = fit(house, who)
        found = steady(house, who, outcome)
        assert outcome.picked is not None
        assert found.steady == (found.picks == {outcome.picked.id: 1.0})
        if found.steady:
            break
    assert outcome.picked is not None
    assert found.steady, "no sample is steady any more: pick another for this test"
    assert found.needed == {}
    for answers in completed(outcome)[::6]:
        again = fit(house, with_answers(who, answers))
        assert again.picked is not None
        assert again.pairing is not None
        near = (again.pairing.margin or 0) < 50  # thousandths of a point: the surfaces' own error
        assert again.picked.id == outcome.picked.id or near


def test_an_unsteady_pick_names_its_rivals_and_stops_early_when_asked(house: House) -> None:
    who = sample(house, "knows-almost-nothing")
    outcome = fit(house, who)
    found, early = steady(house, who, outcome), steady(house, who, outcome, until_unsteady=True)
    assert not found.steady
    assert not early.steady
    assert early.tried < found.tried
    assert len(found.picks) > 1
    assert sum(found.picks.values()) == pytest.approx(1)
    assert list(found.picks.values()) == sorted(found.picks.values(), reverse=True)
    assert set(found.needed) <= set(opened(outcome))
    assert steady(house, who, outcome) == found


def test_one_head_speed_is_enough(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({"driver_speed": "90 mph"})
    drawn = set(opened(outcome))
    assert not drawn & {*DIRECT, *DISTANCES}
    assert drawn & {"handicap", "lies"}


def test_a_distance_leaves_the_head_speed_open_about_what_is_believed(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({"seven_iron_carry": "150 yd"})
    believed = outcome.golfer.known["driver_head_speed"]
    drawn = [one["driver_speed"].value for one in completed(outcome)]
    speeds = [float(speed) for speed in drawn if isinstance(speed, float)]
    assert len(speeds) == len(drawn)
    assert sum(speeds) / len(speeds) == pytest.approx(believed.number, abs=believed.spread / 5)
    assert {*DIRECT, *DISTANCES} & set(opened(outcome)) == {"driver_speed"}


def test_completions_are_the_same_each_time_and_keep_what_was_said(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({"handicap": 12})
    assert completed(outcome) == completed(outcome)
    assert all("handicap" not in one and "typical_score" not in one for one in completed(outcome))


def test_a_newer_request_stops_an_older_one(house: House, fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({"handicap": 12})
    asked: list[int] = []

    def stale() -> bool:
        asked.append(1)
        return len(asked) > 3

    with pytest.raises(Superseded):
        steady(house, outcome.subject, outcome, stale=stale)
    assert len(asked) == 4


def test_a_question_explains_the_disagreement_it_makes() -> None:
    sets = [{"a": Answer(float(i)), "b": Answer("xy"[i % 2])} for i in range(40)]
    by_b = explained(sets, ["one" if i % 2 else "two" for i in range(40)], {"a", "b"})
    assert by_b == {"b": pytest.approx(1.0)}
    assert list(explained(sets, ["one" if i < 14 else "two" for i in range(40)], {"a", "b"})) == ["a"]
    assert explained(sets, ["one"] * 40, {"a", "b"}) == {}
    assert explained(sets, ["one" if i % 2 else "two" for i in range(40)], {"a"}) == {}
