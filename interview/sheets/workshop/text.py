"""The workshop's sheet as plain text: columns, blanks to write in, nothing but letters and lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from interview.broken import broken
from interview.text import one_line

if TYPE_CHECKING:
    from interview.sheets.paper import Block, Cell, Line, Note
    from interview.sheets.workshop.sheet import WorkshopSheet

WIDTH = 96
"""Columns of the sheet: what a portrait page holds in a usual fixed font."""
LEAST = 60
"""Columns below which it is not set any narrower."""
_LABEL = 24


def text(sheet: WorkshopSheet, width: int = WIDTH) -> str:
    """Return the sheet as plain text; no line is longer than `width`, from `LEAST` to `WIDTH`."""
    lines = _lines(sheet, max(LEAST, min(WIDTH, width)))
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _lines(sheet: WorkshopSheet, width: int) -> Iterator[str]:
    yield from _head(sheet, width)
    for block in sheet.blocks:
        yield from _block(block, sheet.titles, _column(width))
    for note in (*sheet.built, *sheet.beside, *sheet.below):
        yield from _note(note, width)
    if sheet.checks:
        yield ""
        yield "BEFORE IT LEAVES (tick, initials for each club)"
        for number, check in enumerate(sheet.checks, 1):
            first, *more = broken(check, width - 28) or [""]
            yield f"{number}. {first:<{width - 28}}[ ] ______  [ ] ______"
            yield from (f"   {line}" for line in more)
    if sheet.cautions:
        yield from ("", "CAUTIONS")
        for caution in sheet.cautions:
            yield from _wrapped(caution, "- ", width)


def _column(width: int) -> int:
    """Return the cells of one club's column."""
    return (width - _LABEL - 2) // 2


def _head(sheet: WorkshopSheet, width: int) -> Iterator[str]:
    """Yield what the sheet is of."""
    s = sheet.stamp
    yield f"WORKSHOP SHEET   session {s.session}   ticket {s.ticket}   {s.printed}"
    yield one_line(f"{s.shop}; {s.hand}; rules {s.rules}", width)
    for sentence in sheet.stop:
        yield from ("", *_wrapped(sentence, "", width))
    if sheet.tray:
        yield from _wrapped(f"From the tray, both clubs: {sheet.tray}", "", width)
    if sheet.nothing:
        yield from _wrapped(sheet.nothing, "", width)


def _block(block: Block, titles: Sequence[str], column: int) -> Iterator[str]:
    """Yield a block: labels at the left, a column for each club."""
    yield ""
    clubs = " ".join(f"{one_line(title, column):<{column}}" for title in titles)
    if len(block.title) <= _LABEL:
        yield f"{block.title:<{_LABEL}} {clubs}"
    else:
        yield from (block.title, f"{'':<{_LABEL}} {clubs}")
    for line in block.lines:
        yield from _line(line, column)


def _line(line: Line, column: int) -> Iterator[str]:
    """Yield one line; figures too wide for their column go on below."""
    columns = [broken(_cell(cell), column) or [""] for cell in line.cells]
    for row in range(max(map(len, columns))):
        label = line.label if row == 0 else ""
        cells = [one[row] if row < len(one) else "" for one in columns]
        yield f"{label:<{_LABEL}.{_LABEL}} " + " ".join(f"{cell:<{column}}" for cell in cells)


def _cell(cell: Cell) -> str:
    """Write a figure with its blank, or the reading in it."""
    if cell.read:
        return f"{cell.text} read {cell.read}{' OUT' if cell.out else ''}"
    box = {"read": "____", "tick": "[ ]"}.get(cell.box, "")
    return f"{cell.text} {box}".rstrip()


def _note(note: Note, width: int) -> Iterator[str]:
    """Yield a note."""
    yield ""
    yield from _wrapped(note.title, "", width)
    for item in note.items:
        yield from _wrapped(item, "- ", width)


def _wrapped(sentence: str, mark: str, width: int) -> list[str]:
    """Break a sentence at blanks."""
    return broken(one_line(sentence, 2000), width, mark, " " * len(mark))
