"""The golfer's sheet: his numbers, his clubs, why in plain words, what was not tested, how to check it."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from interview.sheets.golfer.text import WIDTH, text

from .conftest import ANSWERS, SAMPLES, Made

NAMES = sorted(path.stem for path in SAMPLES.glob("*.toml"))


def test_it_holds_what_he_may_take_anywhere(thin: Made) -> None:
    page = text(thin.golfer)
    for heading in (
        "YOUR TWO CLUBS", "WHY THESE TWO", "WHAT SPEAKS AGAINST THEM", "YOUR NUMBERS", "WHAT WAS NOT TESTED",
        "HOW TO CHECK IT ON THE COURSE", "YOURS TO TAKE ANYWHERE", "HOW FAR, HIT WELL",
    ):  # fmt: skip
        assert heading in page, heading
    flat = " ".join(page.split())
    assert "88 mph, measured" in flat
    assert "18.75°" in flat
    assert "41 1/4 in" in flat
    assert "at least four of six" in flat.lower()
    assert "No ball was hit for this sheet" in flat


def test_the_ladder_steps_down(thin: Made) -> None:
    page = text(thin.golfer)
    rungs = [int(c) for c in re.findall(r"^  (?:driver|\S+-\S+|longest iron) +(\d+) yd", page, re.MULTILINE)]
    assert len(rungs) == 4
    assert rungs == sorted(rungs, reverse=True)


def test_each_face_says_where_the_ball_meets_it(thin: Made) -> None:
    face = thin.golfer.faces[0]
    tight = next(one for one in face.met if one.tightest)
    assert tight.lie == "tight_fairway"
    # 16.4 mm up a 15-degree face on bare turf and 14.7 at 21 (geometry of ball and loft): here 18.75 deg
    assert 0.0147 < tight.height < 0.0175
    assert "tight fairway 16 mm (matters most)" in text(thin.golfer)


@pytest.mark.parametrize("sample", NAMES)
def test_every_sample_has_a_sheet_that_keeps_to_its_width(made: Callable[..., Made], sample: str) -> None:
    page = text(made(sample).golfer)
    assert max(map(len, page.splitlines())) <= WIDTH
    assert "None" not in page
    assert "nan" not in page.split()
    assert re.search(r"\{\w+\}", page) is None


@pytest.mark.parametrize("width", [24, 38, 60])
def test_a_narrow_page_is_set_narrow(thin: Made, width: int) -> None:
    page = text(thin.golfer, width)
    assert max(map(len, page.splitlines())) <= width
    assert "88 mph, measured" in " ".join(page.split())


def test_one_ball_of_some_was_not_hit_off_turf(made: Callable[..., Made]) -> None:
    balls = [{"club": "demo", "outcome": "up", "surface": one} for one in ("turf", "mat", "mat")]
    club = [{"name": "demo", "kind": "fairway", "loft": "18 deg"}]
    for count, says in ((2, "1 of 2 balls was not"), (3, "2 of 3 balls were not")):
        told = made(answers=ANSWERS, trial_clubs=club, shots=balls[:count]).golfer.untested
        assert any(says in sentence for sentence in told), told
    alone = made(answers=ANSWERS, trial_clubs=club, shots=balls[1:2]).golfer.untested
    assert any("1 of 1 ball was not hit off turf" in sentence for sentence in alone)


def test_pain_comes_first_and_sends_nobody_to_the_range(made: Callable[..., Made]) -> None:
    sheet = made("pain-stops").golfer
    page = text(sheet)
    assert page.index("licensed professional") < page.index("For later, when you are well: a ")
    assert "HOW TO CHECK IT" not in page


def test_one_club_enough_and_keep_what_you_have_are_said(made: Callable[..., Made]) -> None:
    assert "Keep what you have" in text(made("keep-what-he-has").golfer)
    own = made("his-wood-to-shorten").golfer
    assert own.cards[0].whose == "your own, “his 4-wood”, 1 inch shorter, 9.3 grams back into its head"


def test_nothing_private_is_on_it(thin: Made) -> None:
    """Neither the fitter's note nor anything of health is printed; the golfer has no name here."""
    page = text(thin.golfer)
    assert "The commonest case" not in page
    assert "pain" not in page.lower()


def test_marks_and_balls_change_what_was_not_tested(made: Callable[..., Made]) -> None:
    page = " ".join(text(made("marks-overrule-handicap").golfer).split())
    assert "No ball was hit" not in page
    assert "marks on the face would replace it" not in page


def test_a_left_hander_reads_of_his_own_hand(made: Callable[..., Made]) -> None:
    sheet = made("left-handed-slicer").golfer
    assert sheet.stamp.hand == "left-handed"
    assert {face.hand for face in sheet.faces} == {"left"}


def test_no_pair_says_why(made: Callable[..., Made], tmp_path: Path) -> None:
    from dataclasses import replace
    from datetime import date

    from interview.sheets.golfer import golfer_sheet
    from interview.sheets.paper import stamp
    from interview.sheets.workshop import workshop_sheet
    from interview.sheets.workshop.text import text as workshop_text
    from interview.views.build import build_view
    from interview.views.outcome import outcome_view
    from rules.fitting import House, fit

    thin = made("thin-off-tight-turf").outcome
    bare = replace(thin.house.shelf, shafts=())
    outcome = fit(House(thin.house.base, bare), replace(thin.subject, owned=()))
    view, build = outcome_view(outcome), build_view(outcome)
    mark = stamp("x", "a shop", view.hand, "digest", date(2026, 5, 4))
    page = text(golfer_sheet(outcome, view, build, mark))
    assert "No pair of clubs can be made for you from what is on the shelf here." in page
    assert "WHY NOT" in page
    assert "No pair can be built." in workshop_text(workshop_sheet(build, view, mark))
