"""What a run leaned on is what it read: nothing missing that matters, nothing told that was answered."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from interview.session import load
from interview.views.leans import leans
from interview.views.recommend_json import to_json
from rules.engine.plan import assumptions_of
from rules.fitting import House, Outcome, fit

FOLDER = Path(__file__).parents[2] / "sample_sessions"


def ids(outcome: Outcome, group: str = "") -> set[str]:
    return {one.id for one in leans(outcome) if group in ("", one.group)}


def test_an_answer_given_is_not_assumed(fitted: Callable[..., Outcome]) -> None:
    assert "usual-wind" in ids(fitted({}), "answer")
    assert "usual-wind" in ids(fitted({"wind": {"unknown": True}}), "answer")
    assert "usual-wind" not in ids(fitted({"wind": "calm"}))


def test_an_open_answer_and_a_closed_one_are_told_apart(fitted: Callable[..., Outcome]) -> None:
    found = {one.id: one for one in leans(fitted({"wind": {"unknown": True}}))}
    assert not found["usual-wind"].open
    assert found["usual-turf"].open
    assert found["usual-wind"].question == "wind"


def test_a_speed_and_a_handicap_that_nobody_knows_are_answers_too(fitted: Callable[..., Outcome]) -> None:
    nothing, told = fitted({}), fitted({"driver_speed": "92 mph", "handicap": 12})
    assert {"usual-driver-speed", "usual-handicap"} <= ids(nothing, "answer")
    assert not {"usual-driver-speed", "usual-handicap"} & ids(told)


@pytest.mark.parametrize("mark", ["none", "brush", "bruise", "divot"])
def test_physics_is_what_this_golfer_needed(fitted: Callable[..., Outcome], mark: str) -> None:
    read = ids(fitted({"turf_mark": mark, "longest_iron_carry": "150 yd"}), "physics")
    assert f"attack-{mark}" in read
    assert len({id for id in read if id.startswith("attack-")}) == 1


def test_gaps_of_the_shelf_are_those_of_the_parts_used(house: House, fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({})
    used = {club.rung.spec.head.id for club in outcome.clubs if club.rung.spec.head}
    gaps = [one for one in leans(outcome) if one.group == "shelf"]
    assert gaps
    for one in gaps:
        named = one.part.partition(",")[0].removeprefix("head ")
        assert not one.part.startswith("head ") or named in used


@pytest.mark.parametrize("name", ["digger-scattered", "fast-and-centred", "keep-what-he-has", "very-slow"])
@pytest.mark.parametrize("end", [0, 1])
def test_what_is_not_told_does_not_matter(house: House, name: str, end: int) -> None:
    """Swing every other assumption to an end of its range at once: nothing of the outcome may move.

    Thresholds of rules are left alone: a rule that was silent could speak at another threshold.
    """
    session = load(FOLDER / f"{name}.toml", house.base.facts)
    outcome = fit(house, session.subject)
    thresholds = {id for rule in house.base.rules.values() for id in assumptions_of(rule)}
    swung: dict[str, Any] = {
        id: one.range[end]
        for id, one in house.base.assumptions.items()
        if one.range and id not in ids(outcome) | thresholds
    }
    assert swung
    other = fit(House(house.base.with_assumptions(swung), house.shelf), session.subject)
    before, after = to_json(outcome, name), to_json(other, name)
    assert before.pop("rules_digest") != after.pop("rules_digest")
    assert before == after


def test_what_is_told_is_told_once(fitted: Callable[..., Outcome]) -> None:
    found = [(one.id, one.part) for one in leans(fitted({}))]
    assert len(found) == len(set(found))
