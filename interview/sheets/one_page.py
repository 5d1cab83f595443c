"""How small a sheet must be set to stay on one page, A4 or Letter, reckoned before it is printed.

Letters are taken as wide as common sans-serif ones are, and a little wider, so that the reckoning errs
toward a page that is set too small rather than one that runs over.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from interview.sheets.pictures.drawing import REM
from interview.sheets.pictures.face import height_of

if TYPE_CHECKING:
    from interview.sheets.golfer import GolferSheet
    from interview.sheets.workshop import WorkshopSheet

PAGE = 258.0
"""Height that both papers have for a sheet, mm: Letter's 279.4 less its margins, and some to spare."""
SIZES = (10.0, 9.7, 9.4, 9.1, 8.8, 8.5, 8.2, 7.9, 7.6)
"""Sizes of the page's own unit, points; ten is full size."""
_LETTER = 0.46
"""Width of a usual letter, of its font's size."""
_LEADING = 1.2


def smallest_needed(height: Callable[[float], float]) -> float:
    """Return the largest size (points) at which a sheet of so much height (mm) stays on its page."""
    return next((size for size in SIZES if height(size / 10) <= PAGE), SIZES[-1])


def lines(words: str, width: float, font: float, scale: float) -> int:
    """Return how many lines words take in a column (mm) of a font (in the page's unit)."""
    letters = width / (_LETTER * font * REM * scale)
    return max(1, math.ceil(len(words) / letters))


def written(items: Iterable[str], width: float, font: float, scale: float, gap: float = 0.3) -> float:
    """Return the height of paragraphs or items, mm."""
    return sum(
        lines(item, width, font, scale) * font * REM * scale * _LEADING + gap for item in items
    )  # fmt: skip


def golfer_height(sheet: GolferSheet, scale: float) -> float:
    """Return the height of the golfer's sheet at a scale, mm."""
    unit = REM * scale
    top = 2.9 * unit + 3.0 + written((sheet.lead,), 186, 1.04, scale)
    top += written(sheet.verdicts, 186, 0.86, scale, 0.6) + written(sheet.stop, 180, 1.0, scale, 5.0)
    top += max((_card(sheet, number, scale) for number in range(len(sheet.cards))), default=0.0)
    middle = max(_left(sheet, scale), _right(sheet, scale))
    foot = written(
        (f"Please mind. {' '.join(sheet.mind)}", f"Yours to take anywhere. {sheet.yours}"), 190, 0.79, scale
    )
    return top + middle + foot + 4.0


def _card(sheet: GolferSheet, number: int, scale: float) -> float:
    """Return the height of one card."""
    card = sheet.cards[number]
    unit = REM * scale
    rows = sum(lines(value, 58, 0.79, scale) * 0.97 * unit + 0.3 for _, value in card.rows)
    name = lines(f"{card.name} {card.role}, {card.whose}", 78, 1.0, scale) * 1.43 * unit
    return name + 2.4 * unit + rows + written((card.says,), 86, 0.82, scale) + 7.0


def _section(items: Iterable[str], scale: float) -> float:
    """Return the height of a section of items; nothing where there are none."""
    said = tuple(items)
    return written(said, 86.5, 0.8, scale) + _heading(scale) if said else 0.0


def _heading(scale: float) -> float:
    return 0.9 * 1.15 * REM * scale + 2.7


def _left(sheet: GolferSheet, scale: float) -> float:
    """Return the height of the left column: ladder, reasons, and how to check it."""
    rungs = 4 if sheet.gaps is not None and sheet.gaps.iron is not None else 3
    drawn = 10.5 + 8.4 * (rungs - 1) + _heading(scale) if sheet.gaps is not None else 0.0
    lists = (sheet.why, sheet.against, sheet.made_so, () if sheet.stop else sheet.check)
    return drawn + sum(_section(items, scale) for items in lists)


def _right(sheet: GolferSheet, scale: float) -> float:
    """Return the height of the right column: faces, numbers, and what was not tested."""
    faces = sum(height_of(view) + 0.6 for view in sheet.faces)
    faces += _heading(scale) + 3 * 0.7 * REM * scale * 1.3 if sheet.faces else 0.0
    rows = sum(lines(value, 49, 0.79, scale) * 0.98 * REM * scale + 0.2 for _, value in sheet.numbers)
    return faces + (rows + _heading(scale) if sheet.numbers else 0.0) + _section(sheet.untested, scale)


def workshop_height(sheet: WorkshopSheet, scale: float) -> float:
    """Return the height of the workshop's sheet at a scale, mm."""
    unit = REM * scale
    rows = sum(len(block.lines) for block in sheet.blocks)
    row = 0.97 if sheet.built else 1.015
    table = 1.25 * unit + rows * (row * unit + 0.08) + len(sheet.blocks) * (1.05 * unit + 0.2)
    ticks = (len(sheet.checks) + 1) * (0.99 * unit + 0.1) if sheet.checks else 0.0
    law = [(note.title, *note.items) for note in sheet.below] + [("CAUTIONS", *sheet.cautions)]
    rules = sum(written(note, 65, 0.62, scale, 0.1) + 1.2 for note in law) / 2 + 3.0 * unit
    aside = sum(written((note.title, *note.items), 41, 0.69, scale, 0.1) + 1.8 for note in sheet.beside)
    pictures = sum(1 for title in sheet.titles if "own" not in title) * (33.0 + 7.5 + 1.0 + 11.5) * scale
    built = sum(written((note.title, *note.items), 58, 0.69, scale, 0.1) + 1.4 for note in sheet.built)
    columns = 3 if len(sheet.built) > 2 else 2
    bench = max(table + ticks + rules, pictures + aside + 26.0 * scale)
    whole = 2.4 * unit + 3.0 + bench + built / columns + (4.0 * unit if sheet.built else 0.0)
    whole += written(sheet.stop, 184, 0.9, scale, 4.0)
    return 0.95 * whole  # cells are lower than what is written in them, all told
