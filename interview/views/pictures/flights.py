"""Flights from the side, to scale: a yard is as long upwards as it is across."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.pictures.dots import Dots
from interview.views.pictures.ink import Ink, Picture, Role, clipped, row
from rules.units import words

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs
    from rules.units import System

_TALL = 2.0
"""How much higher than wide a cell of a terminal is."""


@dataclass(frozen=True, slots=True)
class Arc:
    """One flight."""

    name: str
    points: tuple[tuple[float, float], ...]
    """Along and above the ground, m."""
    carry: float
    apex: float


@dataclass(frozen=True, slots=True)
class FlightsView:
    """The flights of centred strikes, the longer club's first."""

    arcs: tuple[Arc, ...]
    system: System


_LOOKS: tuple[tuple[Role, str, int], ...] = (("pick", "*", 1), ("against", "o", 2), ("dim", ".", 3))
"""Of each flight: its role, its sign in seven bits, and every how many-th dot is drawn."""


def flights_rows(view: FlightsView, width: int, glyphs: Glyphs, high: int = 12) -> Picture:
    """Return the flights in `width` cells and at most `high` rows, with carry and apex in words."""
    if not view.arcs:
        return (row(Ink(clipped("Nothing flies: no pair is possible.", width), "dim")),)
    words_below = [
        row(_told(arc, view.system, number, width, glyphs)) for number, arc in enumerate(view.arcs)
    ]
    far = max(arc.carry for arc in view.arcs)
    tall = max(max(arc.apex for arc in view.arcs), 0.01)
    lines = max(1, high - len(words_below) - 1)
    across = min(float(width), lines * _TALL * far / tall) if far > 0 else float(width)
    used = max(1, round(across))
    needed = max(1, min(lines, round(used * tall / far / _TALL + 0.5))) if far > 0 else 1
    canvas = Dots(used, needed, glyphs)
    for number, arc in enumerate(view.arcs):
        _draw(canvas, arc, far, tall, number)
    ground = row(Ink(glyphs.across * used, "rule"))
    return (*canvas.picture(), ground, *words_below)


def _draw(canvas: Dots, arc: Arc, far: float, tall: float, number: int) -> None:
    """Draw one flight with as many dots as the canvas has across."""
    role, sign, every = _LOOKS[min(number, len(_LOOKS) - 1)]
    steps = max(2, canvas.across)
    for at in range(0, steps, every):
        x = arc.carry * at / (steps - 1)
        canvas.dot(x / far, _height(arc, x) / tall, role, sign)


def _height(arc: Arc, x: float) -> float:
    """Return the height of a flight at a distance, straight between its points."""
    for (x0, y0), (x1, y1) in zip(arc.points, arc.points[1:], strict=False):
        if x0 <= x <= x1 and x1 > x0:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return 0.0


def _told(arc: Arc, system: System, number: int, width: int, glyphs: Glyphs) -> Ink:
    """Return a flight in words."""
    role, sign, _ = _LOOKS[min(number, len(_LOOKS) - 1)]
    mark = (glyphs.across * 2 if number == 0 else glyphs.dot * 2) if glyphs.fine else sign * 2
    told = f"{mark} {arc.name}: {words(arc.carry, 'yd', system)}, {words(arc.apex, 'ft', system)} high"
    return Ink(clipped(told, width), role)
