"""How far each club flies, as bars to one scale: what a person sees sooner than he reads."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from interview.views.kiosk.page import Bar
from interview.views.outcome_text.quantities import distance
from interview.views.pictures.ink import Ink, Row, cells, padded, row

if TYPE_CHECKING:
    from interview.views.kiosk.words import Say
    from interview.views.outcome import OutcomeView
    from rules.units import System

_LONGEST, _LEAST = 36, 6
"""Cells of the longest bar: at most, and at least, below which there is room for the words alone."""


def carries(view: OutcomeView, say: Say, units: System) -> tuple[Bar, ...]:
    """Return the ladder of distances: driver, the two clubs, and the longest iron where it is known."""
    gaps = view.gaps
    if gaps is None or not view.clubs:
        return ()
    longer, shorter = view.clubs
    steps = [
        (say("clubs.driver"), gaps.driver, False),
        (f"{say('clubs.longer')}: {longer.label}", gaps.longer, True),
        (f"{say('clubs.shorter')}: {shorter.label}", gaps.shorter, True),
    ]
    if gaps.iron is not None and gaps.iron_told:
        steps.append((say("clubs.iron"), gaps.iron, False))
    farthest = max(far for _, far, _ in steps) or 1.0
    return tuple(Bar(name, far / farthest, distance(far, units, about=True), new) for name, far, new in steps)


def drawn(bars: Sequence[Bar], width: int) -> list[Row]:
    """Draw bars in so many cells; their distances are told however little room there is."""
    names = max((cells(bar.name) for bar in bars), default=0)
    values = max((cells(bar.value) for bar in bars), default=0)
    longest = min(_LONGEST, width - names - values - 3)
    if longest >= _LEAST:
        return [_bar(bar, padded(bar.name, names, right=True), longest) for bar in bars]
    longest = min(_LONGEST, width - values - 2)
    if longest >= _LEAST:
        return [one for bar in bars for one in (row(_named(bar, bar.name)), _bar(bar, "", longest))]
    return [row(_named(bar, bar.name), f" {bar.value}") for bar in bars]


def _bar(bar: Bar, name: str, longest: int) -> Row:
    """Draw one bar with a ball at its end; those of the two clubs are thicker than the rest."""
    line = ("━" if bar.new else "─") * max(1, round(longest * bar.share))
    pieces = (Ink(f"{line}●", "pick" if bar.new else "rule"), Ink(f" {bar.value}"))
    return row(_named(bar, name), " ", *pieces) if name else row(*pieces)


def _named(bar: Bar, name: str) -> Ink:
    return Ink(name, "strong" if bar.new else "dim")
