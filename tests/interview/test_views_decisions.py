"""Ledgers add up, whatever was said, and nothing is ever decided without a reason."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from interview.session import load
from interview.views.decisions import PARTS, ROLES, DecisionView
from interview.views.outcome import OutcomeView, outcome_view
from rules.fitting import House, Outcome, fit

SAMPLES = sorted((Path(__file__).parents[2] / "sample_sessions").glob("*.toml"))


def some_answers(house: House, file: Path, keep: Callable[[int], bool]) -> OutcomeView:
    """Fit a sample with only some of its answers, so that questions of every sort stay open."""
    subject = load(file, house.base.facts).subject
    kept = {id: answer for index, (id, answer) in enumerate(subject.answers.items()) if keep(index)}
    return outcome_view(fit(house, type(subject)(answers=kept, owned=subject.owned, shots=())))


def adds_up(one: DecisionView) -> None:
    assert one.because, one.id
    if one.start is not None:
        assert one.start + sum(line.adjust or 0 for line in one.because) == one.pick, one.id
        assert all(line.points is None for line in one.because)
    elif one.score is not None:
        assert sum(line.points or 0 for line in one.because) == one.score, one.id
        assert all(line.adjust is None for line in one.because)


@pytest.mark.parametrize("file", SAMPLES, ids=lambda file: file.stem)
def test_ledgers_add_up_with_all_half_and_none_of_the_answers(house: House, file: Path) -> None:
    for keep in (lambda i: True, lambda i: i % 2 == 0, lambda i: i % 3 == 1, lambda i: False):
        view = some_answers(house, file, keep)
        assert len(view.decisions) == 1 + len(ROLES) * len(PARTS)
        for one in view.decisions.values():
            adds_up(one)


def test_a_line_says_why_on_whose_word(house: House, fitted: Callable[..., Outcome]) -> None:
    view = outcome_view(fitted({"contact": ["scattered"], "handicap": 22}))
    length = view.decisions["longer.length"]
    scattered = next(one for one in length.because if one.rule == "scattered-strikes-shorten")
    rule = house.base.rules["scattered-strikes-shorten"]
    assert scattered.text == rule.because
    assert scattered.teaches == rule.teaches
    assert scattered.adjust == -500
    assert scattered.contested is not None
    assert scattered.contested.says == rule.contested.other  # type: ignore[union-attr]
    assert scattered.facts["contact"] == frozenset(("scattered",))


def test_start_and_rounding_are_lines(fitted: Callable[..., Outcome]) -> None:
    length = outcome_view(fitted({"handicap": 22})).decisions["longer.length"]
    assert length.because[0].rule == "start"
    assert length.because[-1].rule == "rounding"
    assert length.unit == "in"
    assert isinstance(length.pick, int)
    assert length.pick % 250 == 0


def test_an_only_candidate_is_said_to_be_the_only_one(fitted: Callable[..., Outcome]) -> None:
    """The demo shop has several places that one head alone can fill."""
    views = [outcome_view(fitted({"driver_speed": f"{speed} mph"})) for speed in (65, 80, 95, 110)]
    heads = [view.decisions[f"{role}.head"] for view in views for role in ROLES]
    alone = [one for one in heads if one.runner_up is None and not any(line.spoken for line in one.because)]
    assert all([line.rule for line in one.because] == ["only-one"] for one in alone)
    assert all(one.runner_up or one.because for one in heads)


def test_what_stays_as_it_is_has_a_line_that_says_so(fitted: Callable[..., Outcome]) -> None:
    owned = [
        {"name": "his 4", "kind": "fairway", "loft": "16.5 deg", "length": "42 in", "liked": "yes"},
        {"name": "his 7", "kind": "fairway", "loft": "21 deg", "length": "41 in", "liked": "yes"},
    ]
    view = outcome_view(fitted({"driver_speed": "98 mph", "handicap": 9}, owned=owned))
    assert [club.owned for club in view.clubs] == ["his 4", "his 7"]
    for role in ROLES:
        for part in ("head", "shaft", "tip", "grip", "lie", "ports"):
            (line,) = view.decisions[f"{role}.{part}"].because
            assert line.rule == "own-club"
            assert not line.spoken


def test_a_pinned_amount_is_the_last_line(fitted: Callable[..., Outcome]) -> None:
    made = outcome_view(fitted({}, overrides={"shorter.length": {"value": "40 in", "reason": "his demo"}}))
    length = made.decisions["shorter.length"]
    adds_up(length)
    assert length.pick == 40000
    assert length.overruled
    assert length.because[-1].rule == "pinned"
    assert "his demo" in length.because[-1].text


def test_a_part_changed_by_hand_changes_the_ledger_of_the_pair(fitted: Callable[..., Outcome]) -> None:
    """A longer club flies otherwise, so the pair's own ledger is read again."""
    answers: dict[str, Any] = {"driver_speed": "92 mph", "longest_iron_loft": "27 deg"}
    free = outcome_view(fitted(answers)).decisions["pairing"]
    override = {"longer.length": {"value": "43.5 in", "reason": "to see"}}
    bent = outcome_view(fitted(answers, overrides=override)).decisions["pairing"]
    adds_up(bent)
    assert bent.pick == free.pick
    assert bent.score != free.score


def test_words_of_a_pick_are_a_persons(fitted: Callable[..., Outcome]) -> None:
    view = outcome_view(fitted({"driver_speed": "92 mph"}))
    assert view.decisions["longer.length"].words.endswith(" in")
    assert view.decisions["longer.balance"].words[0] in "CD"
    tip = view.decisions["longer.tip"].words
    assert tip == "cut as the shaft's own note says" or tip.endswith("than its note")
    assert view.decisions["longer.ports"].words in ("spread evenly", "to the heel side", "to the toe side")
    metric = outcome_view(fitted({"driver_speed": "92 mph"}), "metric")
    assert metric.decisions["longer.length"].words.endswith(" cm")
