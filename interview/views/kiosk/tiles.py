"""Tiles as cells: a frame, a key, a picture and words; the cursor gives a frame another shape."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interview.broken import broken
from interview.views.kiosk.drawings import seven
from interview.views.pictures.ink import Ink, Piece, Role, cells, padded, safe

if TYPE_CHECKING:
    from collections.abc import Sequence

    from interview.views.kiosk.page import Tile
    from interview.views.pictures import Glyphs

Line = tuple[Ink, ...]
"""One row of cells of a tile."""
_THIN, _THICK = "╭─╮│╰╯", "╔═╗║╚╝"
_LEAST_WORDS = 8
"""Cells that words want at least beside a picture."""
_TALLEST = 5
"""Rows that a tile without a picture is stretched to where there is room."""
_TALL, _PUSHED = 24, 1.65
"""Rows for tiles from which on a screen is tall, and how many times them one column of pictures may take."""
_WIDEST = 64
"""Cells that a single column is wide at most."""


class Grid(NamedTuple):
    """How tiles are laid out."""

    columns: int
    width: int
    """Cells of one tile."""
    height: int
    """Rows of one tile."""
    drawn: bool
    """Whether there is room for the pictures."""

    def rows(self, count: int) -> int:
        """Return how many rows of cells so many tiles take."""
        return -(-count // self.columns) * self.height


def grid(tiles: Sequence[Tile], width: int, height: int, columns: int | None = None) -> Grid:
    """Return the best layout for so much room: with pictures if they fit, with few columns, large.

    Where nothing fits, the lowest layout is taken and the page scrolls.
    """
    tried = [
        _grid(tiles, width, count, drawn)
        for drawn in (True, False)
        for count in ([columns] if columns else range(1, 5))
        if not drawn or any(tile.picture for tile in tiles)
    ]
    usable = [one for one in tried if one is not None]
    if not usable:
        return grid(tiles, width, height)
    fitting = [one for one in usable if one.rows(len(tiles)) <= height]
    pushed = [one for one in usable if one.rows(len(tiles)) <= _room(one, height)]
    if pushed and not any(one.drawn for one in fitting):
        fitting = pushed
    if not fitting:
        return min(usable, key=lambda one: (one.rows(len(tiles)), one.columns))
    best = fitting[0]
    if best.drawn or not tiles:
        return best
    roomy = height // -(-len(tiles) // best.columns)
    return best._replace(height=max(best.height, min(_TALLEST, roomy)))


def _room(shape: Grid, height: int) -> float:
    """Return the rows that a layout may take: on a tall, narrow screen, pictures are worth a push of it."""
    return height * _PUSHED if shape.drawn and shape.columns == 1 and height >= _TALL else height


def _grid(tiles: Sequence[Tile], width: int, columns: int, drawn: bool) -> Grid | None:
    """Return a layout in so many columns; None where its tiles would be too narrow for what is on them."""
    each = max(1, min(_WIDEST if columns == 1 else width, (width - columns + 1) // columns))
    room = _words_room(tiles, each, drawn)
    least = _LEAST_WORDS if drawn else max((_longest_word(tile) for tile in tiles), default=0)
    if room < least and (columns > 1 or drawn):
        return None
    lines = max((len(_wrapped(tile, room)) for tile in tiles), default=1)
    pictures = max((len(tile.picture) for tile in tiles), default=0) if drawn else 0
    return Grid(columns, each, max(lines, pictures, 1) + 2, drawn)


def _words_room(tiles: Sequence[Tile], each: int, drawn: bool) -> int:
    """Return the cells that words have within a tile."""
    return each - 4 - (_picture_width(tiles) + 1 if drawn else 0)


def _picture_width(tiles: Sequence[Tile]) -> int:
    return max((cells(line) for tile in tiles for line in tile.picture), default=0)


def _longest_word(tile: Tile) -> int:
    return max((cells(word) for word in _labelled(tile).split()), default=0)


def _labelled(tile: Tile) -> str:
    """Return the words of a tile behind its key; they stay together where the key is one letter."""
    return f"{tile.key} {tile.text}" if tile.key and tile.key != tile.text else tile.text


def _wrapped(tile: Tile, room: int) -> list[str]:
    return broken(safe(_labelled(tile)), room) or [""]


def tile_lines(
    tile: Tile, shape: Grid, pictures: int, glyphs: Glyphs, *, here: bool, centred: bool = False
) -> list[Line]:
    """Return one tile in cells. `pictures` is the width that the pictures of the whole grid take."""
    thick = here
    frame = _THICK if thick else _THIN
    frame = frame if glyphs.fine else seven(frame)
    role: Role = "pick" if here else "rule"
    inner = shape.width - 2
    if inner < 1:
        mark = (glyphs.cursor if here else tile.text[:1]) or " "
        return [(Ink(padded(mark, shape.width), role),)] * shape.height
    body = _body(tile, shape, pictures, glyphs, here=here, centred=centred)
    top = Ink(frame[0] + frame[1] * inner + frame[2], role)
    foot = Ink(frame[4] + frame[1] * inner + frame[5], role)
    side = Ink(frame[3], role)
    return [(top,), *((side, *line, side) for line in body), (foot,)]


def _body(tile: Tile, shape: Grid, pictures: int, glyphs: Glyphs, *, here: bool, centred: bool) -> list[Line]:
    """Return what stands within the frame."""
    inner, high = shape.width - 2, shape.height - 2
    drawn = shape.drawn and pictures > 0
    room = max(1, inner - 2 - (pictures + 1 if drawn else 0))
    words = _wrapped(tile, room)[:high]
    above = (high - len(words)) // 2
    sign = glyphs.yes if tile.marked else glyphs.cursor if here else " "
    lines: list[Line] = []
    for at in range(high):
        within = 0 <= at - above < len(words)
        text = words[at - above] if within else ""
        first = at == above
        pieces: list[Piece] = [Ink(sign if first else " ", "mark" if tile.marked else "pick")]
        if drawn:
            pieces.append(Ink(_picture_line(tile, at, high, pictures, glyphs) + " ", "plain"))
        pieces += _words(tile, text.center(room).rstrip() if centred else text, room, first, here)
        lines.append(tuple(Ink(p) if isinstance(p, str) else p for p in pieces))
    return [_exactly(line, inner) for line in lines]


def _words(tile: Tile, text: str, room: int, first: bool, here: bool) -> list[Piece]:
    """Return one line of words, the key in front of the first set apart."""
    role: Role = "strong" if here or tile.marked else "plain"
    shown = padded(text, room + 1)
    at = shown.find(tile.key) if first and tile.key else -1
    if at < 0 or tile.key == tile.text:
        return [Ink(shown, role)]
    end = at + len(tile.key)
    return [Ink(shown[:at], role), Ink(shown[at:end], "key"), Ink(shown[end:], role)]


def _picture_line(tile: Tile, at: int, high: int, width: int, glyphs: Glyphs) -> str:
    """Return one line of a tile's picture, which stands in the middle of its height."""
    above = (high - len(tile.picture)) // 2
    text = tile.picture[at - above] if 0 <= at - above < len(tile.picture) else ""
    return padded(text if glyphs.fine else seven(text), width)


def _exactly(line: Line, width: int) -> Line:
    """Cut or fill a line to so many cells."""
    made: list[Ink] = []
    left = width
    for ink in line:
        text = ink.text if cells(ink.text) <= left else padded(ink.text, left)
        if text:
            made.append(Ink(text, ink.role))
        left -= cells(text)
    if left > 0:
        made.append(Ink(" " * left))
    return tuple(made)


def picture_width(tiles: Sequence[Tile], shape: Grid) -> int:
    """Return the cells that the pictures of a grid take; none where they are not drawn."""
    return _picture_width(tiles) if shape.drawn else 0
