"""Where a line breaks: at blanks alone, and never inside a figure."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interview.broken import broken

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
