"""The pictures in the room there is: one of them, or as many as fit, the one that is looked at first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from interview.screens.bay import faces
from interview.views.bay.drawn import PICTURES, Drawn
from interview.views.pictures.ink import Ink, Picture, Row, beside

if TYPE_CHECKING:
    from interview.screens.kit.pane import Painter
    from interview.views.pictures import Glyphs

_EACH = 13
"""Rows of a picture where there is room for several."""
_TWO_WIDE, _TWO_HIGH = 96, 16
"""Cells and rows from which on there is room for several."""
_APART = 3
"""Cells between two columns of pictures."""


def gallery(at: int, draw: Callable[[str], Drawn], height: Callable[[], int]) -> Painter:
    """Return the painter of the pictures from one on; `draw` draws one by its name, `height` is the room."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        names = [PICTURES[(at + step) % len(PICTURES)] for step in range(len(PICTURES))]
        room = height()
        columns = 2 if width >= _TWO_WIDE else 1
        if columns == 1 and room < _TWO_HIGH:
            return faces.picture(names[0], draw(names[0]), room)(width, glyphs)
        each = (width - _APART * (columns - 1)) // columns
        first = room if columns == 1 else min(room, _EACH)
        rows = (first, *(min(room, _EACH) for _ in names[1:]))
        painted = (
            faces.picture(name, draw(name), r)(each, glyphs) for name, r in zip(names, rows, strict=True)
        )
        return _hung(list(painted), columns, each, room, glyphs)

    return paint


def _hung(pictures: Sequence[Picture], columns: int, each: int, room: int, glyphs: Glyphs) -> Picture:
    """Hang pictures in columns, each below the one before in the lower column, as long as they fit whole."""
    walls: list[list[Row]] = [[] for _ in range(columns)]
    for at, picture in enumerate(pictures):
        wall = min(walls, key=len)
        if at >= columns and len(wall) + 1 + len(picture) > room:
            break
        wall += [*([Row()] if wall else []), *picture]
    return beside([(tuple(wall), each) for wall in walls], Ink(f" {glyphs.axis} ", "rule"))
