"""What was said of a golfer, as the trainer's sheet tells it: his answers, his clubs and his balls."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from interview.views.bay.sayings import value_words
from interview.views.pictures import ink
from interview.views.trainer.answers import CaseSheet, SaidLine, SaidTopic, case_sheet, sheet_rows
from interview.views.trainer.cases import CaseLine, CasesView, cases_heading
from interview.views.trainer.changed import change_view, flip_view, read, read_words
from interview.views.trainer.chart import InfluenceLine, InfluenceView, influence_rows
from interview.views.trainer.predicted import reveal_view
from rules.facts.answers import UNKNOWN, AnswerProblem
from rules.facts.subject import Subject
from rules.fitting import House
from rules.lessons.case import Case, open_case, with_answers
from rules.lessons.flipping import mark_flip
from rules.lessons.marks import mark
from rules.lessons.predict import predicted

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
    assert "an old hybrid: 1 ball, how they flew was not noted" in said


def test_questions_whose_names_begin_alike_are_told_apart_at_any_width() -> None:
    alike = ("confidence over a fairway wood", "confidence over a hybrid")
    lines = tuple(SaidLine(f"of{at}", title, f"{at} of 5") for at, title in enumerate(alike))
    for width in range(30, 90):
        rows = ink.plain(sheet_rows(CaseSheet("", (SaidTopic("Confidence", lines),)), width))
        assert all(title in rows for title in alike), width


def test_one_case_is_one_case_and_one_line_says_how_far_off_an_amount_is(case: Case) -> None:
    view = CasesView((CaseLine("a", "A", ""),))
    assert "Turfpair trainer  1 case  " in ink.plain(cases_heading(view, 78))
    assert "Turfpair trainer  2 cases  " in ink.plain(cases_heading(CasesView(view.cases * 2), 78))
    moved = (InfluenceLine("A", flips=True, moved="", points=0),)
    for of, words in ((1, "INFLUENCE OVER 1 CASE"), (3, "INFLUENCE OVER 3 CASES")):
        assert ink.plain(influence_rows(InfluenceView(of, of, moved, ("It flips.",)), 40)).startswith(
            f"{words}\n"
        )
    short = mark(case, predicted(case, "longer.length", "38 in", ("handicap",)))
    (line,) = [one for one in reveal_view(case, (short,), "imperial").lines if one.id == "longer.length"]
    assert re.match(r"The answer is off by \d", line.why[0]), line.why


def test_shares_are_said_as_a_person_calls_them(case: Case) -> None:
    purpose = value_words(case.base.facts["purpose"], {"par5_second": 0.4, "tee": 0.6}, "imperial")
    assert purpose == "par-5 second 40 %, tee 60 %"


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
