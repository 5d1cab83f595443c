"""What readings come to, in words: figures that are out, mass that is over, and where no piece helps."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from interview.sheets.workshop.text import text
from rules.units import UNITS

from .conftest import ANSWERS, Made

INCH, GRAM = UNITS["in"].factor, UNITS["g"].factor


@pytest.fixture(scope="module")
def read(made: Callable[..., Made]) -> Callable[..., str]:
    """Print the sheet with readings of the longer club; given as what they are off the plan, SI."""
    plain = made(answers=ANSWERS)
    build = plain.outcome.clubs[0].build
    assert build is not None
    real = build.reading

    def sheet(total: float = 0.0, point: float | None = 0.0, length: float | None = 0.0, **more: str) -> str:
        typed: dict[str, Any] = {"total": f"{(real.total + total) / GRAM:.1f} g", **more}
        if point is not None:
            typed["balance_point"] = f"{(real.balance_point + point) / INCH:.3f} in"
        if length is not None:
            typed["length"] = f"{(build.length + length) / INCH:.3f} in"
        return " ".join(text(made(answers=ANSWERS, readings={"longer": typed}).workshop).split())

    return sheet


def test_each_figure_that_is_out_is_named_with_how_far(read: Callable[..., str]) -> None:
    said = read(total=12 * GRAM, length=0.5 * INCH, loft="20.5 deg").partition("AS BUILT, longer")[2]
    out = said.partition("Out: ")[2].partition(". ")[0]
    assert "total +12" in out
    assert "length +" in out
    assert "loft +" in out
    short = read(length=-0.5 * INCH).partition("AS BUILT, longer")[2]
    assert "length -" in short.partition("Out: ")[2].partition(". ")[0]


def test_mass_without_a_balance_point_is_somewhere(read: Callable[..., str]) -> None:
    said = read(total=8 * GRAM, point=None)
    assert "8.0 g more than the parts; where it sits wants the balance point." in said


def test_mass_that_lacks_is_told_with_its_place_and_the_pieces_that_make_it_good(
    read: Callable[..., str],
) -> None:
    head = read(total=-10 * GRAM, point=-0.3 * INCH)
    assert "10.0 g less than the parts, about" in head
    assert "from the butt: the head." in head
    assert "put in" in head.partition("AS BUILT")[2]
    nowhere = read(total=-20 * GRAM, point=-1.5 * INCH)
    assert "scale and knife edge cannot tell where, so weigh the parts." in nowhere


def test_a_part_that_weighs_as_catalogued_changes_nothing(made: Callable[..., Made]) -> None:
    plain = made(answers=ANSWERS)
    parts = plain.build.clubs[0].parts
    assert parts is not None
    weighed = {
        "head": f"{parts.head.mass / GRAM:.1f} g", "raw_shaft": f"{parts.shaft.mass / GRAM:.1f} g",
        "grip": f"{parts.grip.mass / GRAM:.1f} g",
    }  # fmt: skip
    same = " ".join(text(made(answers=ANSWERS, readings={"longer": weighed}).workshop).split())
    assert "leave them." in same
    heavy = {**weighed, "head": f"{(parts.head.mass + 4 * GRAM) / GRAM:.1f} g"}
    changed = " ".join(text(made(answers=ANSWERS, readings={"longer": heavy}).workshop).split())
    assert "as in the lines." in changed
    assert changed.count("With the pieces planned") == 1
