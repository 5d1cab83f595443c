"""Readings on the sheet: filled in, flagged, corrected, certified, and the gaps as built."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from interview.sheets.golfer.text import text as golfer_text
from interview.sheets.workshop.text import text
from rules.units import UNITS

from .conftest import ANSWERS, Made

INCH, GRAM = UNITS["in"].factor, UNITS["g"].factor


@pytest.fixture(scope="module")
def plain(made: Callable[..., Made]) -> Made:
    return made(answers=ANSWERS)


def readings(plain: Made, heavier: float = 0.0, role: int = 0, **more: str) -> dict[str, Any]:
    """What scale and gauge say of a club whose head is so many grams heavy."""
    build = plain.outcome.clubs[role].build
    assert build is not None
    real = replace(build, head=replace(build.head, mass=build.head.mass + heavier * GRAM)).reading
    return {
        "total": f"{real.total / GRAM:.1f} g",
        "balance_point": f"{real.balance_point / INCH:.2f} in",
        "length": f"{build.length / INCH} in",
        **more,
    }


def test_a_head_three_grams_heavy_leaves_a_piece_out(made: Callable[..., Made], plain: Made) -> None:
    built = made(answers=ANSWERS, readings={"longer": readings(plain, 3.0)})
    page = text(built.workshop)
    assert "AS BUILT, longer" in page
    assert "3.0 g more than the parts" in page
    assert "the head." in page
    assert "leave out" in page
    assert "read 320" in page or "OUT" in page


def test_a_club_as_planned_is_left_alone(made: Callable[..., Made], plain: Made) -> None:
    page = text(made(answers=ANSWERS, readings={"longer": readings(plain)}).workshop)
    assert "Every figure that was read is within what is allowed." in page
    assert "leave it." in page
    assert "OUT" not in page


def test_impossible_readings_are_one_sentence_and_nothing_is_lost(
    made: Callable[..., Made], plain: Made
) -> None:
    wrong = {"total": "200 g", "balance_point": "31 in"}
    built = made(answers=ANSWERS, readings={"longer": wrong})
    page = text(built.workshop)
    assert "Not used: the longer club's total reads 200 g where its parts add up to" in " ".join(page.split())
    same = [block for block in built.workshop.blocks if block.title == "HEAD"]
    assert same == [block for block in plain.workshop.blocks if block.title == "HEAD"]


def test_the_certificate_goes_line_by_line(made: Callable[..., Made], plain: Made) -> None:
    spec = plain.outcome.clubs[0].rung.spec
    build = plain.outcome.clubs[0].build
    assert spec.head is not None
    assert spec.shaft is not None
    assert build is not None
    demo = {
        "name": "the demo", "kind": "fairway", "loft": f"{spec.loft / UNITS['deg'].factor:.2f} deg",
        "length": f"{build.length / INCH} in", "swing_weight": build.reading.points,
        "total": f"{build.reading.total / GRAM:.1f} g", "head": spec.head.id, "shaft": spec.shaft.id,
        "balance_point": f"{build.reading.balance_point / INCH:.2f} in", "face_angle": "0.5 deg closed",
    }  # fmt: skip
    reading = readings(plain, loft=str(demo["loft"]), face="0.5 deg closed")
    page = text(made(answers=ANSWERS, trial_clubs=[demo], readings={"longer": reading}).workshop)
    assert "Every line was recorded, read, and agrees: this is the club that worked." in page
    other = {**reading, "loft": "20.5 deg"}
    page = text(made(answers=ANSWERS, trial_clubs=[demo], readings={"longer": other}).workshop)
    assert "Not certified: 7 same, 1 differs." in page
    thin = {"name": "the demo", "kind": "fairway", "loft": demo["loft"]}
    page = text(made(answers=ANSWERS, trial_clubs=[thin]).workshop)
    assert "Not certified: 7 not recorded, 1 not read." in page


def test_a_weaker_loft_moves_the_gaps(made: Callable[..., Made], plain: Made) -> None:
    """The shorter club comes out three degrees weaker: the step between the two widens, and is told."""
    loft = plain.outcome.clubs[1].rung.spec.loft / UNITS["deg"].factor + 3
    weak = readings(plain, role=1, loft=f"{loft:.2f} deg")
    built = made(answers=ANSWERS, readings={"shorter": weak})
    assert built.build.ladder is not None
    assert built.view.gaps is not None
    assert built.build.ladder.shorter < built.view.gaps.shorter - 2
    assert "GAPS AS BUILT" in text(built.workshop)
    assert built.golfer.gaps is not None
    assert built.golfer.gaps.shorter == pytest.approx(built.build.ladder.shorter)
    assert "measured" in golfer_text(built.golfer)


def test_a_heavy_head_on_the_scale_changes_the_sheet_before_assembly(
    made: Callable[..., Made], plain: Made
) -> None:
    build = plain.outcome.clubs[0].build
    assert build is not None
    head = f"{build.head.mass / GRAM + 3.0:.1f} g"
    weighed = {"head": head, "raw_shaft": "64 g", "torque": "40 in*lbf", "torque_again": "30 in*lbf"}
    one = made(answers=ANSWERS, readings={"longer": weighed})
    page = text(one.workshop)
    flat = " ".join(page.split())
    assert "PARTS AS WEIGHED, longer" in page
    assert f"head {head} (+3.0 g, more than such parts are out by)" in flat
    assert "Leave out" in flat
    assert f"read {head} OUT" in flat
    assert "Screws fell from 40 in*lbf to 30 in*lbf" in flat
    assert "40 / 30 OUT" in flat
    assert "AS BUILT" not in page
    assert "GAPS AS BUILT" not in page
    # the lines of the sheet have the parts as weighed and the pieces that are left
    assert f"{head.split()[0]} g @" in flat
    right = one.build.clubs[0].built.put_right
    assert right is not None
    parts = one.build.clubs[0].parts
    assert parts is not None
    assert parts.added == pytest.approx(sum(map(sum, right.pieces.values())))
    assert abs(parts.left) <= 0.5


def test_an_impossible_part_is_one_sentence_and_the_plan_stays(
    made: Callable[..., Made], plain: Made
) -> None:
    one = made(answers=ANSWERS, readings={"longer": {"head": "300 g"}})
    page = " ".join(text(one.workshop).split())
    assert "Not used: the longer club's head reads 300 g" in page
    assert "PARTS AS WEIGHED" not in page
    first, now = (of.build.clubs[0].parts for of in (plain, one))
    assert first is not None
    assert now is not None
    assert now.ports == first.ports


def test_the_golfers_sheet_tells_the_head_as_it_was_weighed(made: Callable[..., Made]) -> None:
    told = golfer_text(made("built-and-read").golfer)
    assert "210.0 g weighed + " in told  # the longer club's head went on the scale before the glue
    assert told.count("weighed +") == 1  # the shorter one's did not: the catalogue's mass stands
