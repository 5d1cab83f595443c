"""A canvas of dots finer than cells, four high and two wide to a cell; one dot to a cell in seven bits."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Role, Row

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs

_BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""The dot of a row and a column within a cell, as a bit above U+2800 (Unicode, Braille Patterns)."""


class Dots:
    """Dots in so many cells. Points are given from 0 to 1 across and from 0 to 1 up."""

    def __init__(self, width: int, height: int, glyphs: Glyphs) -> None:
        self.width, self.height = max(0, width), max(0, height)
        self._glyphs = glyphs
        self._cells: dict[tuple[int, int], tuple[int, str, Role]] = {}

    @property
    def across(self) -> int:
        """Return how many dots fit across."""
        return self.width * (2 if self._glyphs.fine else 1)

    @property
    def up(self) -> int:
        """Return how many dots fit up."""
        return self.height * (4 if self._glyphs.fine else 1)

    def dot(self, x: float, y: float, role: Role = "plain", sign: str = "*") -> None:
        """Put a dot at a place from 0 to 1 either way; what lies outside is left out.

        `sign` stands for it in seven bits.
        """
        if not (0.0 <= x <= 1.0 and 0.0 <= y <= 1.0) or not self._room:
            return
        column = min(self.across - 1, round(x * (self.across - 1)))
        row = self.up - 1 - min(self.up - 1, round(y * (self.up - 1)))
        if self._glyphs.fine:
            at, bit = (column // 2, row // 4), _BITS[row % 4][column % 2]
            self._cells[at] = (self._cells.get(at, (0, "", role))[0] | bit, "", role)
        else:
            self._cells[column, row] = (0, sign, role)

    @property
    def _room(self) -> bool:
        return self.width > 0 and self.height > 0

    def picture(self) -> Picture:
        """Return the canvas as rows."""
        return tuple(self._row(line) for line in range(self.height))

    def _row(self, line: int) -> Row:
        """Return one row, neighbours of one role together."""
        inks: list[Ink] = []
        for column in range(self.width):
            bits, letter, role = self._cells.get((column, line), (0, " ", "plain"))
            text = chr(0x2800 + bits) if bits else letter
            if inks and inks[-1].role == role:
                inks[-1] = Ink(inks[-1].text + text, role)
            else:
                inks.append(Ink(text, role))
        return Row(tuple(inks))
