"""The face of a club to scale: where the ball is met on each lie, and where the golfer strikes it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.pictures.glyphs import FULL
from interview.views.pictures.ink import Ink, Picture, Row, between, cells, clipped, fitted, padded, row
from rules.units import words

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs
    from rules.units import System

_HALF = 0.030
"""How far the picture reaches toward toe and heel from the middle of the face, m."""
_RULER = 6
"""Cells of the ruler at the left."""
_LEAST_BESIDE = 20
"""Cells beside the face below which lies are named under it."""


@dataclass(frozen=True, slots=True)
class Met:
    """Where the ball is met on one lie: up the face, m."""

    name: str
    share: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Mark:
    """One strike: from the middle toward the toe, and up the face from its leading edge, m."""

    toe: float
    up: float


@dataclass(frozen=True, slots=True)
class FaceView:
    """A face with what happens on it. All lengths up the face from its leading edge, m."""

    name: str
    height: float
    centre: float
    """Where the centre of mass projects."""
    lies: tuple[Met, ...]
    marks: tuple[Mark, ...]
    pattern: tuple[float, float, float, float]
    """His strikes: mean and spread toward the toe, mean and spread up, from where the lies put the ball."""
    toe_is_right: bool
    """Whether the toe is on the right, looking at the face: for a right-hander's club it is on the left."""
    system: System
    usual: bool = False
    """Whether a usual head stands in for one nobody measured."""
    aim: Mark | None = None
    """Where a mark is about to be put; None where none is."""


def face_rows(view: FaceView, width: int, glyphs: Glyphs, high: int = 14) -> Picture:
    """Return the face in `width` cells and about `high` rows, lies named at its right if there is room."""
    grid = _grid(view, width, high)
    beside = width - _RULER - grid.across - 1 > _LEAST_BESIDE
    names = _names(grid, glyphs) if beside else {}
    rows = [_line(grid, line, width, glyphs, names.get(line, "")) for line in range(grid.top, -1, -1)]
    below = () if beside else tuple(_told(lie, view.system, width) for lie in view.lies)
    key = () if _key_fits(view, width) else (row(Ink(clipped(_key(view, glyphs), width), "dim")),)
    return (_title(view, width, glyphs), *rows, _foot(view, grid.across), *below, *key)


def mark_at(view: FaceView, width: int, high: int, column: int, line: int) -> Mark | None:
    """Return the mark that a cell of the picture stands for; None beside the face."""
    grid = _grid(view, width, high)
    across, up = column - _RULER, grid.top - (line - 1)
    if not (0 <= across < grid.across and 0 <= up <= grid.top):
        return None
    return Mark(grid.toe(across), up * grid.step)


def _grid(view: FaceView, width: int, high: int) -> _Grid:
    """Return the face cut into cells for the room there is."""
    top = max([view.height, *(mark.up for mark in view.marks)])
    room = high - 3 - (0 if _key_fits(view, width) else 1)
    fits = width - _RULER - 4 * _HALF / (top / max(3, room)) > _LEAST_BESIDE + 1
    step = max(0.002, top / max(3, room - (0 if fits else len(view.lies))))
    across = max(3, min(width - _RULER, round(4 * _HALF / step)))
    return _Grid(view, step, across, max(round(view.height / step), round(top / step)))


def _told(lie: Met, system: System, width: int) -> Row:
    """Return one lie in words: how often, and where up the face."""
    where = f"{words(lie.low, 'mm', system).removesuffix(' mm')} to {words(lie.high, 'mm', system)}"
    text = f"{lie.name} {lie.share * 100:.0f} %: {where}"
    return row(Ink(clipped(f"{text} up" if cells(text) + 3 <= width else text, width), "dim"))


@dataclass(frozen=True, slots=True)
class _Grid:
    """A face cut into cells: so many metres a row, so many cells across."""

    view: FaceView
    step: float
    across: int
    top: int
    """The highest row."""

    @property
    def edge(self) -> int:
        """Return the row of the top of the face."""
        return round(self.view.height / self.step)

    def row_of(self, up: float) -> int:
        """Return the row of a height up the face."""
        return round(up / self.step)

    def toe(self, column: int) -> float:
        """Return how far toward the toe a column lies, m."""
        side = ((column + 0.5) / self.across * 2 - 1) * _HALF
        return side if self.view.toe_is_right else -side

    def share(self, line: int) -> float:
        """Return how many of the balls are met at a row, as a share of all."""
        met = 0.0
        for lie in self.view.lies:
            first, last = self.row_of(lie.low), self.row_of(lie.high)
            if first <= line <= last:
                met += lie.share / (last - first + 1)
        return met


def _titled(view: FaceView) -> str:
    """Return what is drawn, in words."""
    usual = ", a usual head" if view.usual else ""
    return f"{view.name}: face {words(view.height, 'mm', view.system)}{usual}"


def _key(view: FaceView, glyphs: Glyphs) -> str:
    """Return what the signs on the face mean."""
    marks = f"{glyphs.times} marks   " if view.marks else ""
    return f"{marks}{glyphs.bar_against} where the ball is met"


def _key_fits(view: FaceView, width: int) -> bool:
    """Return whether what the signs mean fits beside the title."""
    return cells(_titled(view)) + cells(_key(view, FULL)) + 3 <= width


def _title(view: FaceView, width: int, glyphs: Glyphs) -> Row:
    """Return what is drawn, and what the signs mean where there is room."""
    title = Ink(clipped(_titled(view), width), "strong")
    return (
        between((title,), (Ink(_key(view, glyphs), "dim"),), width) if _key_fits(view, width) else row(title)
    )


def _names(grid: _Grid, glyphs: Glyphs) -> dict[int, str]:
    """Return what is named beside each row: the centre of mass and the lies, each at its own height.

    Where two fall on one row, the later one goes to the nearest row that is free.
    """
    view = grid.view
    wanted = [(view.centre, f"{glyphs.leads} centre of mass")]
    wanted += [((lie.low + lie.high) / 2, f"{lie.name} {lie.share * 100:.0f} %") for lie in view.lies]
    named: dict[int, str] = {}
    for up, text in wanted:
        free = [at for at in range(grid.top + 1) if at not in named] or [grid.row_of(up)]
        at = min(free, key=lambda at: abs(at * grid.step - up))
        named[at] = f"{named[at]}, {text}" if at in named else text
    return named


def _line(grid: _Grid, line: int, width: int, glyphs: Glyphs, name: str) -> Row:
    """Return one row of the face: its ruler, the face itself, and the lies that meet it here."""
    middle = grid.row_of(grid.view.centre)
    ruler = f"{line * grid.step * 1000:.0f}" if line in (0, grid.edge, middle) else ""
    pieces = [Ink(padded(ruler, _RULER - 1, right=True) + " ", "rule")]
    pieces += (_cell(grid, column, line, glyphs) for column in range(grid.across))
    if name:
        pieces += [Ink("  "), Ink(clipped(name, max(0, width - _RULER - grid.across - 2)), "dim")]
    return fitted(row(*pieces), width)


def _cell(grid: _Grid, column: int, line: int, glyphs: Glyphs) -> Ink:
    """Return one cell: a mark, the centre of mass, an edge, or the tone of how often the ball is met here."""
    view, toe, half = grid.view, grid.toe(column), _HALF / grid.across
    if view.aim is not None and abs(view.aim.toe - toe) <= half and grid.row_of(view.aim.up) == line:
        return Ink(glyphs.aim, "alert")
    if any(abs(mark.toe - toe) <= half and grid.row_of(mark.up) == line for mark in view.marks):
        return Ink(glyphs.times, "mark")
    if line == grid.row_of(view.centre) and abs(toe) <= half * 2 and toe >= 0:
        return Ink(glyphs.leads, "pick")
    if line in (0, grid.edge):
        return Ink(glyphs.across, "rule")
    if abs(toe - view.pattern[0]) > view.pattern[1] or line > grid.edge:
        return Ink(" ")
    share = grid.share(line)
    full = glyphs.bar_against
    return Ink(
        full if share >= 0.15 else glyphs.half_tone if share >= 0.05 else glyphs.dot if share else " ",
        "against",
    )


def _foot(view: FaceView, across: int) -> Row:
    """Return which side is which."""
    left, right = ("heel", "toe") if view.toe_is_right else ("toe", "heel")
    sides = f"{left}{' ' * max(1, across - len(left) - len(right))}{right}"
    return row(" " * _RULER, Ink(sides, "rule"))
