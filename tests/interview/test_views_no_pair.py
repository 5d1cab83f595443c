"""A shop that can make no pair: every room says so, and none breaks."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from interview.views.bay.drawn import flights_view, ladder_view
from interview.views.bay.parts import parts_view
from interview.views.bay.reasons import reasons_view
from interview.views.bay.standing import standing_view
from interview.views.build import build_view
from interview.views.inquiry.asked import explained
from interview.views.inquiry.explain_text import explain_text
from interview.views.inquiry.whatif_text import whatif_text
from interview.views.pictures import FULL, PLAIN, plain
from interview.views.pictures.distances import ladder_rows
from interview.views.pictures.flights import flights_rows
from interview.views.pictures.parts import parts_rows
from interview.views.pictures.standing import standing_line, standing_rows
from rules.fitting import House, Outcome, fit
from rules.inquiry.study import study
from rules.inquiry.whatif import compared
from rules.lessons.case import LessonProblem, decided, open_case
from rules.lessons.exercises import make
from rules.lessons.influence import influence

ANSWERS = {"driver_speed": "92 mph", "handicap": 15}


def test_every_picture_of_the_bay_says_that_there_is_no_pair(nothing: Outcome) -> None:
    for glyphs in (FULL, PLAIN):
        drawn = {
            "There is no ladder": ladder_rows(ladder_view(nothing, "imperial"), 70, glyphs),
            "Nothing flies": flights_rows(flights_view(nothing, "imperial"), 70, glyphs),
            "Nothing is decided": parts_rows(parts_view(nothing, "imperial"), 70, glyphs),
        }
        for says, rows in drawn.items():
            assert plain(rows).strip() == f"{says}: no pair is possible."
    standing = standing_view(nothing)
    assert standing.candidates == ()
    assert plain(standing_rows(standing, 70, FULL)).strip()
    assert standing_line(standing, FULL) == "no pair is possible"


def test_a_question_about_it_is_answered(nothing: Outcome) -> None:
    assert study(nothing) is None
    for voice in ("fitter", "customer", "trainer"):
        said = explain_text(explained(nothing, "pairing", None, None, "imperial"), voice)
        assert "no pair is possible" in said
    assert build_view(nothing).clubs == ()
    (line,) = reasons_view(nothing, "pairing", "imperial").lines
    assert line.text == "No pair is possible, so this was not decided."


def test_what_if_tells_the_way_to_a_pair_and_back(
    nothing: Outcome, house: House, subject: Callable[..., Any]
) -> None:
    there = fit(house, subject(ANSWERS))
    gone = whatif_text(compared(there, nothing, ()), "fitter", "imperial")
    come = whatif_text(compared(nothing, there, ()), "customer", "imperial")
    assert "-> no pair." in " ".join(gone.split())
    assert "No pair -> " in " ".join(come.split())


def test_there_is_nothing_to_teach_about_it(bare: House, subject: Callable[..., Any]) -> None:
    case = open_case(bare, "bare", subject(ANSWERS), "")
    assert decided(case) == ()
    (moved,) = influence((case,), "tempo").cases
    assert (moved.tried, moved.picks, moved.parts) == (0, 0, ())
    with pytest.raises(LessonProblem):
        make("deciding", (case,), 1)
    with pytest.raises(LessonProblem):
        make("putting_back", (case,), 1)
