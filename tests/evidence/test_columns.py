"""Headings of a table of balls and their cells: what is understood, and what is wanted instead."""

from __future__ import annotations

import pytest

from rules.evidence.table.columns import heading, read_cell
from rules.units import UnitError


@pytest.mark.parametrize(
    ("text", "understood", "told"),
    [
        ("Carry (m)", True, True),
        ("carry_yd", True, True),
        ("Carry", True, False),
        ("Carry (kg)", False, False),
    ],
)
def test_a_heading_is_understood_where_its_unit_fits(text: str, understood: bool, told: bool) -> None:
    found = heading(text)
    assert (found.column is not None, found.told) == (understood, told)


@pytest.mark.parametrize(
    ("column", "cell", "says"),
    [
        ("indoors", "perhaps", "yes or no"), ("surface", "sand", "turf, mat or tee"),
        ("kind", "putter", "fairway or hybrid"), ("outcome", "lost", "topped, thin, fat or up"),
        ("carry", "far", "is not a number"), ("carry", "left 150", "is not a number"),
    ],
)  # fmt: skip
def test_a_cell_that_cannot_be_read_says_what_is_wanted(column: str, cell: str, says: str) -> None:
    with pytest.raises(UnitError, match=says):
        read_cell(cell, heading(column))
