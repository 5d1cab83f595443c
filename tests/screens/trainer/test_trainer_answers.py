"""What was said of a golfer, as the trainer's sheet tells it: his answers, his clubs and his balls."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from interview.views.trainer.answers import case_sheet
from interview.views.trainer.changed import change_view, flip_view, read, read_words
from rules.facts.answers import UNKNOWN, AnswerProblem
from rules.facts.subject import Subject
from rules.fitting import House
from rules.lessons.case import Case, open_case, with_answers
from rules.lessons.flipping import mark_flip

OWNED = [
    {"name": "his 3-wood", "kind": "fairway", "loft": "15 deg", "length": "43 in", "swing_weight": "D2",
     "carry": "185 yd", "liked": "no"},
    {"name": "an old hybrid", "kind": "hybrid"},
]  # fmt: skip
SHOTS = [
    {"club": "his 3-wood", "outcome": "thin"}, {"club": "his 3-wood", "outcome": "up"},
    {"club": "his 3-wood", "outcome": "thin"}, {"club": "an old hybrid", "toe_mm": 2.0, "high_mm": 1.0},
]  # fmt: skip


@pytest.fixture
def case(house: House, subject: Callable[..., Subject]) -> Case:
    told = subject(
        {"driver_speed": "92 mph", "handicap": 15, "wind": {"unknown": True}}, owned=OWNED, shots=SHOTS
    )
    return open_case(house, "told", told, "")


def test_his_clubs_and_balls_are_told_in_sentences(case: Case) -> None:
    sheet = case_sheet(case, "imperial")
    said = " ".join(repr(part) for part in (sheet,))
    assert "his 3-wood: 15 deg, 43 in, D2" in said
    assert "185 yd" in said
    assert "an old hybrid" in said
    assert "2 thin, 1 up" in said


def test_an_answer_is_read_put_away_or_refused(case: Case) -> None:
    assert read(case, "handicap", "") is None
    assert read(case, "handicap", "don't know") is UNKNOWN
    words, takes = read_words(case, "handicap", "lots", "imperial")
    assert not takes
    assert words.endswith(".")
    with pytest.raises(AnswerProblem):
        read(case, "handicap", "lots")


def test_a_changed_answer_says_what_follows_and_what_is_decided_otherwise(case: Case) -> None:
    after = with_answers(
        case, {"handicap": read(case, "handicap", "2"), "tempo": read(case, "tempo", "abrupt")}
    )
    view = change_view(case, after, "handicap", "imperial")
    assert (view.was, view.now) == ("15", "2")
    shifts = {one.title: (one.before, one.after) for one in (*view.decisions, *view.facts)}
    assert all(before != now for before, now in shifts.values())
    assert "Heel-to-toe scatter" in shifts, "a steadier golfer meets the ball more alike"
    assert shifts["shaft, longer club"][0] != shifts["shaft, longer club"][1]
    opened = change_view(case, with_answers(case, {"handicap": None}), "handicap", "imperial")
    assert opened.now != opened.was


def test_guessing_that_nothing_flips_is_told_as_that(case: Case) -> None:
    mark = mark_flip(case, "local_length_limit", "none")
    view = flip_view(case, "local_length_limit", (mark,), "imperial", told=True)
    assert len(view.guesses) == 1
    assert view.guesses[0][1:] == ("", False)
    assert view.marks == 100
    assert len(view.told) == 1, "no value of it changes the pair, and that is said"
