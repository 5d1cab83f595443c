"""Where a line breaks: at blanks alone, and never inside a figure."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import interview
import rules
from interview.broken import broken, broken_at_commas, one_word

WHOLE = ("42 1/4 in", "31.5 mm", "20 %", "2 x 1 g", "[ ]", "-3 deg", "5-wood", "kg*cm2")


@pytest.mark.parametrize("figure", WHOLE)
@pytest.mark.parametrize("width", range(10, 30))
def test_a_figure_stays_on_one_line(figure: str, width: int) -> None:
    lines = broken(f"put the {figure} here and the {figure} there", width)
    assert sum(line.count(figure) for line in lines) == 2
    assert all(len(line) <= width for line in lines)


def test_a_number_before_a_word_that_only_begins_like_a_unit_may_part_from_it() -> None:
    assert broken("all of the 30 greens", 13) == ["all of the 30", "greens"]


@given(st.lists(st.text("abc0 %", min_size=1, max_size=9)).map(" ".join), st.integers(8, 40))
def test_no_letter_is_lost(text: str, width: int) -> None:
    assert "".join("".join(broken(text, width, "- ", "  ")).removeprefix("- ").split()) == "".join(
        text.split()
    )


def test_nothing_is_no_line() -> None:
    assert broken("", 20) == []


@pytest.mark.parametrize("tied", ["25 December 2026", "Rule 4.1a(3)", "213.5 oz*in", "2660 kg*cm2"])
@pytest.mark.parametrize("width", range(18, 40))
def test_a_day_a_rule_and_a_moment_are_figures_too(tied: str, width: int) -> None:
    head = " ".join(tied.split()[:2])
    assert any(head in line for line in broken(f"it is said to be so until {tied} at the least", width))


def test_a_path_stays_whole_where_it_may_be_copied() -> None:
    path = "/srv/a shop/sessions of 2026/kept for the fitter/2026-11-25-1346-f4n0rj.toml"
    lines = broken(f"It is kept in {one_word(path)} and nowhere else.", 38, whole_paths=True)
    assert path in lines
    assert lines[0] == "It is kept in"
    assert all(len(line) <= 38 for line in broken(f"kept in {path}", 38)), "a screen has no room for it"
    long = broken("x" * 90 + " and more", 38, whole_paths=True)
    assert all(len(line) <= 38 for line in long), "what is no path is broken all the same"


def test_a_short_list_is_broken_after_its_commas() -> None:
    assert broken_at_commas("sole 5.5 g, toe 7 g, hosel 6.5 g", 20) == ["sole 5.5 g, toe 7 g,", "hosel 6.5 g"]
    assert broken_at_commas("sole 5.5 g, hosel 6.5 g", 9) == ["sole", "5.5 g,", "hosel", "6.5 g"]
    assert broken_at_commas("", 9) == []


def test_no_other_way_of_breaking_lines_is_in_the_house() -> None:
    files = [*Path(interview.__file__).parent.rglob("*.py"), *Path(rules.__file__).parent.rglob("*.py")]
    others = [file.name for file in files if "import textwrap" in file.read_text(encoding="utf-8")]
    assert others == ["broken.py"]
