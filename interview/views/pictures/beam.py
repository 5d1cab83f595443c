"""The balance beam of a finished club: its masses along the shaft, the knife edge, and where it balances."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Row, between, cells, clipped, row, wrapped
from rules.units import swing_weight_name, words

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs
    from rules.units import System


@dataclass(frozen=True, slots=True)
class Weight:
    """One mass on the beam, kg and m from the butt."""

    name: str
    mass: float
    place: float
    length: float = 0.0


@dataclass(frozen=True, slots=True)
class BeamView:
    """A finished club on the beam. SI; swing weights in points from D0."""

    name: str
    length: float
    weights: tuple[Weight, ...]
    """From the butt to the head; what the ports take is one of them."""
    knife: float
    """Where the scale's knife edge stands, m from the butt."""
    balance_point: float
    reading: float
    target: float
    spread: float
    """How far a reading may be from the sum, points."""
    total: float
    inertia: float | None
    system: System
    unknown: str = ""
    """Why nothing can be summed; empty where it can."""


def beam_rows(view: BeamView, width: int, glyphs: Glyphs) -> Picture:
    """Return the beam: the club, the knife edge under it, and its masses in words."""
    reading = f"{swing_weight_name(view.reading)} wanted {swing_weight_name(view.target)}"
    top = between((Ink(view.name, "strong"),), (Ink(reading, "pick"),), width)
    if view.unknown:
        return (row(Ink(view.name, "strong")), row(Ink(clipped(view.unknown, width), "dim")))
    return (top, _club(view, width, glyphs), *_below(view, width, glyphs), *_words(view, width))


def _at(view: BeamView, place: float, width: int) -> int:
    """Return the cell of a place along the club."""
    return max(0, min(width - 1, round(place / max(view.length, 0.01) * (width - 1))))


def _club(view: BeamView, width: int, glyphs: Glyphs) -> Row:
    """Return the club from the side: grip, shaft and head."""
    grip = next((one for one in view.weights if one.name == "grip"), None)
    end = _at(view, grip.place + grip.length / 2, width) if grip else 0
    head = max(0, width - 3)
    line = "".join(
        glyphs.bar_against if at < end else glyphs.bar_for if at >= head else glyphs.across
        for at in range(width)
    )
    return row(Ink(line[:end], "against"), Ink(line[end:head], "rule"), Ink(line[head:], "pick"))


def _below(view: BeamView, width: int, glyphs: Glyphs) -> Picture:
    """Return what stands under the club: the knife edge of the scale, and where the club itself balances."""
    knife = f"{glyphs.pivot} {words(view.knife, 'in', view.system)}, the scale"
    poise = f"{glyphs.poise} {words(view.balance_point, 'in', view.system, decimals=1)}, balances here"
    places = [(_at(view, view.knife, width), knife), (_at(view, view.balance_point, width), poise)]
    starts = [max(0, min(at, width - cells(text))) for at, text in places]
    if starts[0] + cells(knife) < starts[1]:
        gap = " " * (starts[1] - starts[0] - cells(knife))
        return (row(" " * starts[0], knife, gap, Ink(poise, "dim")),)
    return (
        row(" " * starts[0], clipped(knife, width)),
        row(" " * starts[1], Ink(clipped(poise, width), "dim")),
    )


def _words(view: BeamView, width: int) -> tuple[Row, ...]:
    """Return the masses in words."""
    masses = ", ".join(f"{one.name} {words(one.mass, 'g', view.system)}" for one in view.weights)
    whole = [f"total {words(view.total, 'g', view.system)}"]
    if view.inertia is not None:
        whole.append(f"inertia about the butt {words(view.inertia, 'kg*cm2', view.system)}")
    whole.append(f"a reading may be {view.spread:.1f} points out")
    return (*wrapped(masses, width, "plain"), *wrapped(", ".join(whole), width, "dim"))
