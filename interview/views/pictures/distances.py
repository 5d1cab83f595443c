"""The ladder of distances, from driver to longest iron, each with its band and the step to the next."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Role, Row, cells, clipped, padded, row
from rules.units import shown_in, words

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs
    from rules.units import System

_LEAST_AXIS = 10
"""Cells of an axis below which words alone say more."""
_LEAST_WITH_HEIGHTS = 28
"""Cells of an axis below which the heights are left out."""


@dataclass(frozen=True, slots=True)
class RungOnLadder:
    """One club on the ladder. Lengths in m."""

    name: str
    carry: float
    low: float
    """Lower end of its band: what the laws of flight leave open, or how loosely it was told."""
    high: float
    expected: float | None
    """Over the golfer's own strikes and lies; None where it is not known."""
    apex: float | None
    ours: bool
    """One of the two clubs."""


@dataclass(frozen=True, slots=True)
class LadderView:
    """The ladder, longest first."""

    rungs: tuple[RungOnLadder, ...]
    system: System


def ladder_rows(view: LadderView, width: int, glyphs: Glyphs) -> Picture:
    """Return the ladder: a row a club with its band on one axis, and between two rows the step."""
    if not view.rungs:
        return (row(Ink(clipped("There is no ladder: no pair is possible.", width), "dim")),)
    name = min(max(cells(one.name) for one in view.rungs), max(4, width // 3))
    told = [_told(one, view.system) for one in view.rungs]
    if width - name - max(cells(text) for text in told) < _LEAST_WITH_HEIGHTS:
        told = [f"{words(one.carry, 'yd', view.system):>6}" for one in view.rungs]
    axis = width - name - max(cells(text) for text in told) - 2
    if axis < _LEAST_AXIS:
        return _without_axis(view, told, width)
    low, high = _ends(view)
    scale = _Scale(low, high, axis)
    rows = [_rung(one, text, scale, name, glyphs) for one, text in zip(view.rungs, told, strict=True)]
    steps = [_step(a, b, scale, name, view.system, glyphs) for a, b in pairwise(view.rungs)]
    woven = [piece for pair in zip(rows, [*steps, None], strict=True) for piece in pair if piece is not None]
    return (*woven, _ticks(scale, name, view.system))


@dataclass(frozen=True, slots=True)
class _Scale:
    """An axis in so many cells."""

    low: float
    high: float
    width: int

    def at(self, value: float) -> int:
        """Return the cell of a value, held within the axis."""
        share = (value - self.low) / (self.high - self.low)
        return max(0, min(self.width - 1, round(share * (self.width - 1))))


def _ends(view: LadderView) -> tuple[float, float]:
    """Return the ends of the axis: a little beyond what is on it, on tens of what it is shown in."""
    ten = 10 * shown_in("yd", view.system).factor
    low = min(min(one.low, one.expected or one.low) for one in view.rungs)
    high = max(one.high for one in view.rungs)
    bottom = math.floor(low / ten) * ten
    return bottom, max(math.ceil(high / ten) * ten, bottom + ten)


def _told(one: RungOnLadder, system: System) -> str:
    """Return a club's carry in words, and its height."""
    height = f" {words(one.apex, 'ft', system):>6} high" if one.apex is not None else ""
    return f"{words(one.carry, 'yd', system):>6}{height}"


def _without_axis(view: LadderView, told: list[str], width: int) -> Picture:
    """Return the ladder in words alone, where there is no room for an axis."""
    return tuple(
        row(Ink(clipped(f"{one.name} {text.strip()}", width)))
        for one, text in zip(view.rungs, told, strict=True)
    )


def _rung(one: RungOnLadder, told: str, scale: _Scale, name: int, glyphs: Glyphs) -> Row:
    """Return one club: its band, its centred carry and what it carries over all his strikes."""
    line = [" "] * scale.width
    left, right = scale.at(one.low), scale.at(one.high)
    for at in range(left, right + 1):
        line[at] = glyphs.band
    line[left], line[right] = (glyphs.band_left, glyphs.band_right) if right > left else (" ", " ")
    if one.expected is not None:
        line[scale.at(one.expected)] = glyphs.second
    line[scale.at(one.carry)] = glyphs.point
    role: Role = "pick" if one.ours else "dim"
    return row(
        Ink(padded(one.name, name), "pick" if one.ours else "plain"),
        " ",
        Ink("".join(line), role),
        " ",
        Ink(told, "strong" if one.ours else "dim"),
    )


def _step(
    upper: RungOnLadder, lower: RungOnLadder, scale: _Scale, name: int, system: System, glyphs: Glyphs
) -> Row:
    """Return the step between two clubs, written where it lies."""
    text = f"{words(upper.carry - lower.carry, 'yd', system)}".replace("-", glyphs.minus)
    left, right = sorted((scale.at(upper.carry), scale.at(lower.carry)))
    room = right - left - 1
    if room >= cells(text) + 4:
        side = (room - cells(text) - 2) // 2
        line = f"{glyphs.across * side} {text} {glyphs.across * (room - cells(text) - 2 - side)}"
        start = left + 1
    else:
        line, start = text, max(0, min(scale.width - cells(text), (left + right) // 2 - cells(text) // 2))
    return row(" " * (name + 1 + start), Ink(line, "dim"))


def _ticks(scale: _Scale, name: int, system: System) -> Row:
    """Return the numbers under the axis."""
    shown = shown_in("yd", system)
    line = [" "] * scale.width
    step = max(1, math.ceil((scale.high - scale.low) / shown.factor / 10 / max(1, scale.width // 8)))
    value = scale.low
    while value <= scale.high + 1e-9:
        text = f"{shown.from_si(value):.0f}"
        start = max(0, min(scale.width - len(text), scale.at(value) - len(text) // 2))
        line[start : start + len(text)] = text
        value += step * 10 * shown.factor
    return row(" " * (name + 1), Ink("".join(line), "rule"), Ink(f" {shown.symbol}", "rule"))
