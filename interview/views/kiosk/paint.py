"""A page as cells, with the places that can be pressed: for any size, down to one cell."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interview.views.kiosk.carries import drawn
from interview.views.kiosk.drawings import seven
from interview.views.kiosk.tiles import Line, grid, picture_width, tile_lines
from interview.views.pictures.ink import (
    Ink,
    Picture,
    Role,
    Row,
    between,
    cells,
    clipped,
    fitted,
    row,
    safe,
    width_of,
    wrapped,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from interview.views.kiosk.page import Page, Tile
    from interview.views.pictures import Glyphs

_WIDEST = 112
"""Cells that a page takes at most; on a wider screen it stands in the middle."""
_AIRY = 22
"""Rows of a screen from which on a page has air around its text."""
_APART = 28
"""Rows of a screen from which on each paragraph stands apart from the next."""
_FOOT_WIDEST = 26
"""Cells of a tile at the foot at most."""
_FOOT = 3
"""Rows of the tiles at the foot."""


class Spot(NamedTuple):
    """Where a tile stands."""

    press: str
    x: int
    y: int
    width: int
    height: int

    def holds(self, x: int, y: int) -> bool:
        """Return whether a cell belongs to it."""
        return self.x <= x < self.x + self.width and self.y <= y < self.y + self.height


class Painted(NamedTuple):
    """A page in cells."""

    rows: Picture
    spots: tuple[Spot, ...]

    def at(self, x: int, y: int) -> str | None:
        """Return what is pressed at a cell; None between the tiles."""
        return next((spot.press for spot in self.spots if spot.holds(x, y)), None)

    def spot(self, press: str) -> Spot | None:
        """Return where a tile stands."""
        return next((spot for spot in self.spots if spot.press == press), None)

    def beside(self, press: str, across: int, down: int) -> str:
        """Return the tile that an arrow leads to; the same one where there is none that way."""
        here = self.spot(press)
        if here is None:
            return self.spots[0].press if self.spots else press
        found = [spot for spot in self.spots if spot.press != press and _lies(here, spot, across, down)]
        return min(found, key=lambda spot: _distance(here, spot, across)).press if found else press


def _lies(here: Spot, there: Spot, across: int, down: int) -> bool:
    """Return whether a tile lies in the direction of an arrow; sideways only in the same row."""
    if down:
        return (there.y - here.y) * down > 0
    return there.y == here.y and (there.x - here.x) * across > 0


def _distance(here: Spot, there: Spot, across: int) -> tuple[int, int]:
    """Return how far a tile is: along the arrow first, then across it, by the middles."""
    aside = abs((there.x + there.width // 2) - (here.x + here.width // 2))
    return (abs(there.x - here.x), 0) if across else (abs(there.y - here.y), aside)


def painted(page: Page, cursor: str, width: int, height: int, glyphs: Glyphs) -> Painted:
    """Paint a page for a screen of so many cells; it may come out higher than the screen."""
    wide = max(1, min(width - 2 if width > 40 else width, _WIDEST))
    left = (width - wide) // 2
    columns = _foot_columns(page.foot, wide)
    foot_wide = min(wide, (_FOOT_WIDEST + 1) * (columns or 1) - 1)
    foot, foot_spots = _tiles(page.foot, foot_wide, _FOOT, cursor, glyphs, columns)
    head = _head(page, wide, height, glyphs)
    room = height - len(head) - len(foot)
    columns = 3 if page.shape == "keypad" and wide >= 24 else None
    body, spots = _tiles(page.tiles, wide, max(0, room), cursor, glyphs, columns, page.shape == "keypad")
    gap = max(0, room - len(body))
    rows = (*head, *body, *((Row(),) * gap), *foot)
    below = len(head) + len(body) + gap
    placed = [spot._replace(x=spot.x + left, y=spot.y + len(head)) for spot in spots]
    placed += [spot._replace(x=spot.x + left, y=spot.y + below) for spot in foot_spots]
    fit = (one if width_of(one) <= wide else fitted(one, wide) for one in rows)
    return Painted(tuple(_shifted(one, left) for one in fit), tuple(placed))


def _shifted(one: Row, left: int) -> Row:
    return Row((Ink(" " * left), *one.inks)) if left > 0 else one


def _head(page: Page, width: int, height: int, glyphs: Glyphs) -> list[Row]:
    """Return everything above the tiles."""
    rows = [*_top(page, width), _bar(page, width, glyphs)]
    airy, apart = height >= _AIRY, height >= _APART
    rows += (Row(),) * airy
    rows += wrapped(page.heading, width, "strong")
    for at, text in enumerate(page.text):
        rows += (Row(),) * (apart and bool(text) and at > 0 and bool(page.text[at - 1]))
        rows += wrapped(text, width) if text else (Row(),) * airy
    if page.code:
        rows += _large(page.code, width)
    if page.bars:
        rows += (Row(),) * apart
        rows += wrapped(page.caption, width, "dim")
        rows += (_fine(one, glyphs) for one in drawn(page.bars, width))
        rows += (Row(),) * apart
    if page.entry is not None:
        rows.append(row(Ink(f"{glyphs.cursor} ", "pick"), Ink(page.entry or "_", "strong")))
    rows += wrapped(page.notice, width, "alert") if page.notice else ()
    return rows


def _top(page: Page, width: int) -> list[Row]:
    """Return the topic and how far the interview is: in one row, or in two where one is too short."""
    topic, progress = Ink(page.above, "head"), Ink(page.progress, "dim")
    if not page.progress or cells(page.above) + cells(page.progress) + 2 <= width:
        return [between([topic], [progress], width)]
    return [row(topic), row(progress)]


def _fine(one: Row, glyphs: Glyphs) -> Row:
    """Return a row of a picture in the signs that the terminal has."""
    return one if glyphs.fine else Row(tuple(Ink(seven(ink.text), ink.role) for ink in one.inks))


def _bar(page: Page, width: int, glyphs: Glyphs) -> Row:
    """Return the line under the top line: how far it is, as thick against thin."""
    done = round(width * max(0.0, min(1.0, page.share)))
    thick, thin = ("━", "─") if glyphs.fine else ("=", "-")
    return row(Ink(thick * done, "pick"), Ink(thin * (width - done), "rule"))


def _large(code: str, width: int) -> list[Row]:
    """Return a code with room around its letters."""
    spaced = " ".join(code)
    text = spaced if cells(spaced) + 8 <= width else code
    role: Role = "pick"
    if cells(text) + 8 > width:
        return [row(Ink(clipped(text, width), role))]
    line = "=" * (cells(text) + 6)
    return [row(Ink(line, "rule")), row(), row("   ", Ink(text, role)), row(), row(Ink(line, "rule"))]


def _foot_columns(tiles: Sequence[Tile], width: int) -> int | None:
    """Return the columns of the foot: one row where the words fit."""
    longest = max((cells(tile.text) + cells(tile.key) + 5 for tile in tiles), default=1)
    for columns in range(len(tiles), 0, -1):
        if (width - columns + 1) // columns >= longest:
            return columns
    return None


def _tiles(
    tiles: Sequence[Tile], width: int, room: int, cursor: str, glyphs: Glyphs,
    columns: int | None, centred: bool = False,
) -> tuple[list[Row], list[Spot]]:  # fmt: skip
    """Paint tiles and say where each of them stands."""
    if not tiles:
        return [], []
    shape = grid(tiles, width, room, columns)
    pictures = picture_width(tiles, shape)
    rows: list[Row] = []
    spots: list[Spot] = []
    for start in range(0, len(tiles), shape.columns):
        group = tiles[start : start + shape.columns]
        blocks = [
            tile_lines(one, shape, pictures, glyphs, here=one.press == cursor, centred=centred)
            for one in group
        ]
        for at, one in enumerate(group):
            spots.append(Spot(one.press, at * (shape.width + 1), len(rows), shape.width, shape.height))
        rows += [_joined([block[y] for block in blocks]) for y in range(shape.height)]
    return rows, spots


def _joined(lines: Sequence[Line]) -> Row:
    """Put the lines of tiles beside one another, a cell apart."""
    inks: list[Ink] = []
    for at, line in enumerate(lines):
        inks += [Ink(" ")] * (at > 0) + list(line)
    return Row(tuple(Ink(safe(ink.text), ink.role) for ink in inks))
