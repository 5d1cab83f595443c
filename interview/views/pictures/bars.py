"""Bars to the left and to the right of a line: what speaks against something, and what speaks for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs


def points_text(thousandths: int, glyphs: Glyphs, *, sign: bool = True) -> str:
    """Return points with two decimals and their sign; a minus that is seen."""
    plus = "+" if sign and thousandths > 0 else ""
    return f"{plus}{thousandths / 1000:.2f}".replace("-", glyphs.minus)


def halves(amount: int, scale: int, width: int) -> int:
    """Return how many half cells an amount fills, when `scale` fills `width` cells; never none for some."""
    if amount <= 0 or width <= 0:
        return 0
    return max(1, min(2 * width, round(2 * width * amount / max(1, scale))))


def bar(against: int, speaks_for: int, scale: int, width: int, glyphs: Glyphs) -> tuple[Ink, Ink, Ink]:
    """Return one bar about its line in `width` cells; `scale` is the amount that fills a side.

    Both amounts count from nought up, in thousandths.
    """
    left = max(0, (width - 1) // 2)
    right = max(0, width - 1 - left)
    lefts, rights = halves(against, scale, left), halves(speaks_for, scale, right)
    left_text = glyphs.half_against * (lefts % 2) + glyphs.bar_against * (lefts // 2)
    right_text = glyphs.bar_for * (rights // 2) + glyphs.half_for * (rights % 2)
    return (
        Ink(" " * (left - len(left_text)) + left_text, "against"),
        Ink(glyphs.axis if width > 0 else "", "rule"),
        Ink(right_text + " " * (right - len(right_text)), "for"),
    )
