"""The balance beam of a finished club: its masses, the 14-inch edge, and where it balances."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.sheets.figures import bare_grams, place
from interview.sheets.pictures.drawing import Drawing
from rules.bench.balance import FULCRUM

if TYPE_CHECKING:
    from interview.views.build.club import PartsView
    from rules.units import System

WIDTH, HEIGHT = 44.0, 11.5
_LINE = 5.0
_END = 41.0


def beam(parts: PartsView, length: float, system: System) -> Drawing:
    """Return the beam of a club of a playing length (m); areas of the discs are masses."""
    picture = Drawing(WIDTH, HEIGHT, "Balance beam of the finished club")
    scale = (_END - 1.0) / length

    def x(metres: float) -> float:
        return 1.0 + metres * scale

    picture.line((x(0), _LINE), (x(length), _LINE), "bold")
    for row in parts.masses[:4]:
        radius = 0.15 * (row.mass * 1000) ** 0.5
        picture.circle((x(row.position), _LINE), radius, "disc")
    for row in (parts.masses[0], parts.masses[1], parts.masses[2]):
        picture.text((x(row.position), 1.9), bare_grams(round(row.mass, 4)), "middle", "tiny")
    point = parts.figure("balance_point").value
    _edge(picture, x(FULCRUM), "solid", "14 in")
    _edge(picture, x(point), "hollow", f"balances {place(point, system)}")
    return picture


def _edge(picture: Drawing, x: float, look: str, words: str) -> None:
    """Draw a knife edge under the beam."""
    picture.path(((x, _LINE + 0.6), (x - 1.4, _LINE + 3.4), (x + 1.4, _LINE + 3.4)), look, close=True)
    picture.text((x, HEIGHT - 0.6), words, "middle", "tiny")
