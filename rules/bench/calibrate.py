"""What a shop's own finished clubs say about its heads, its glue and its ruler.

Three unknowns: how far short of the length mark a head's centre of mass projects (setback), the mass of
ferrule and glue, and what the bench ruler reads short of the official length. Each finished club gives up
to three equations, weighed by how well each can be read:

    total  = head + added + shaft + grip + f
    moment = (head + added)(L + r - s - F) + shaft (x - F) + grip (y - F) + f (L + r - hosel - F)
    length = L + r

with F = 14 in, L the bench ruler's length, and `length` the official one.

Ruler offset and setback move the head alike, so clubs measured by the ruler alone can never tell the one
from the other; what cannot be told is held at its house value, and said.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rules.bench import least_squares
from rules.bench.balance import FULCRUM, HEAVIEST, LONGEST, POINT, points
from rules.bench.build import GLUE_AND_FERRULE, GRIP_CENTRE, SETBACK
from rules.bench.problems import MissingReading, TooFewReadings, require
from rules.units import UNITS

_INCH = UNITS["in"].factor
_GRAM = UNITS["g"].factor

RULER_OFFSET = 0.125 * _INCH
"""Assumption: a bench ruler reads this much less than the official length, m (common practice)."""
_TOTAL_SPREAD = 0.5 * _GRAM
_MOMENT_SPREAD = 0.25 * POINT
_LENGTH_SPREAD = _INCH / 32
_FEWEST = 2
_LONGEST_HOSEL = 6 * _INCH
"""No hosel is longer (house value, as in `cuts`): what is typed longer is a slip."""
_MOST_POINTS = 200
"""Farther from D0 no club reads (house value, as in `balance`)."""


@dataclass(frozen=True, slots=True)
class FinishedClub:
    """One finished club: parts as weighed before assembly, readings after it (SI; None: not read)."""

    name: str
    head: float
    shaft: float
    """Cut shaft, kg."""
    shaft_centre: float
    """Where it balances, m from the butt of the club."""
    grip: float
    grip_centre: float = GRIP_CENTRE
    hosel_length: float = 2.375 * _INCH
    added: float = 0.0
    ruler_length: float | None = None
    """By the bench ruler, m."""
    plane_length: float | None = None
    """Official: sole against a plane of 60 degrees, m."""
    total: float | None = None
    moment: float | None = None
    """About the 14-inch mark, kg*m."""

    def __post_init__(self) -> None:
        for what, mass in (("head", self.head), ("shaft", self.shaft), ("grip", self.grip)):
            require(f"mass of the {what} of '{self.name}'", mass, 0.001, HEAVIEST, "g")
        for what, place in (("shaft", self.shaft_centre), ("grip", self.grip_centre)):
            require(f"balance point of the {what} of '{self.name}'", place, 0, LONGEST, "in")
        require(f"hosel of '{self.name}'", self.hosel_length, 0, _LONGEST_HOSEL, "in")
        require(f"mass added to '{self.name}'", self.added, 0, HEAVIEST, "g")
        if self.total is not None:
            require(f"total of '{self.name}'", self.total, 0.001, HEAVIEST, "g")
        if self.moment is not None:
            from_d0 = points(self.moment)
            require(f"swing weight of '{self.name}' from D0", from_d0, -_MOST_POINTS, _MOST_POINTS, "points")
        for length in (self.ruler_length, self.plane_length):
            if length is not None:
                require(f"length of '{self.name}'", length, 30 * _INCH, 50 * _INCH, "in")
        if self.ruler_length is None and self.plane_length is None:
            raise MissingReading(self.name, "a length")

    def length(self, ruler_offset: float) -> float:
        """Official length, m: by the ruler and what it reads short, else as measured on the plane."""
        if self.ruler_length is not None:
            return self.ruler_length + ruler_offset
        return self.plane_length or 0.0

    def moment_with(self, setback: float, glue: float, ruler_offset: float) -> float:
        """Moment (kg*m) that these unknowns give the club."""
        length = self.length(ruler_offset)
        return (
            (self.head + self.added) * (length - setback - FULCRUM)
            + self.shaft * (self.shaft_centre - FULCRUM)
            + self.grip * (self.grip_centre - FULCRUM)
            + glue * (length - self.hosel_length - FULCRUM)
        )


@dataclass(frozen=True, slots=True)
class Calibration:
    """What was learned (SI); None where these clubs cannot tell."""

    setback: float | None
    glue_and_ferrule: float | None
    ruler_offset: float | None
    residual_points: float
    """Root mean square of what the balance readings still miss, points."""
    misses: tuple[tuple[str, float], ...]
    """Points by which each weighed club reads above the fit."""
    held: tuple[str, ...]
    """A sentence for each unknown that was held at its house value."""
    spreads: tuple[float | None, float | None, float | None]
    """One spread of setback, glue and ruler offset."""


@dataclass(frozen=True, slots=True)
class _Unknown:
    """One unknown, with the value it has in this house until it is learned (SI)."""

    name: str
    house: float
    symbol: str
    spread: float
    """How far the house value may be out; an answer no surer than this was not learned."""
    remedy: str
    """What would tell it."""


_UNKNOWNS = (
    _Unknown("setback", SETBACK, "in", 0.3 * _INCH, "weigh clubs of other head mass"),
    _Unknown(
        "ferrule and glue", GLUE_AND_FERRULE, "g", 1.5 * _GRAM, "weigh whole clubs as well as their parts"
    ),
    _Unknown("ruler offset", RULER_OFFSET, "in", _INCH / 16, "measure some clubs on the 60-degree plane too"),
)
_HOUSE = tuple(unknown.house for unknown in _UNKNOWNS)
_TRIALS = ((0, 1, 2), (0, 1), (0, 2), (0,))
"""Sets of unknowns to learn, the fullest first; the setback is what calibration is for."""


def calibrate(clubs: Sequence[FinishedClub]) -> Calibration:
    """Learn setback, glue and ruler offset from finished clubs by least squares.

    Learns as many as the readings can tell apart, each to within its stated spread. Raises
    TooFewReadings with fewer than two balance readings, or when not even the setback can be told.
    """
    readings = sum(club.moment is not None for club in clubs)
    if readings < _FEWEST:
        raise TooFewReadings(readings, _FEWEST)
    for free in _TRIALS:
        found = _fit(clubs, free)
        if found and all(s <= _UNKNOWNS[i].spread for i, s in zip(free, found.spreads, strict=True)):
            return _report(clubs, free, found)
    raise TooFewReadings(readings, readings + 1)


def _fit(
    clubs: Sequence[FinishedClub], free: tuple[int, ...], house: Sequence[float] = _HOUSE
) -> least_squares.Fit | None:
    """Fit the unknowns that are free, the others at their house values."""
    start = [house[i] for i in free]
    scales = [_UNKNOWNS[i].spread for i in free]
    return least_squares.fit(lambda values: _misfit(clubs, _filled(free, values, house)), start, scales)


def _filled(
    free: tuple[int, ...], values: Sequence[float], house: Sequence[float] = _HOUSE
) -> tuple[float, float, float]:
    """All three unknowns from those that are free."""
    full = list(house)
    for index, value in zip(free, values, strict=True):
        full[index] = value
    return full[0], full[1], full[2]


def _misfit(clubs: Sequence[FinishedClub], unknowns: tuple[float, float, float]) -> list[float]:
    """What every reading misses, each in its own spread."""
    setback, glue, ruler = unknowns
    misses = []
    for club in clubs:
        if club.total is not None:
            parts = club.head + club.added + club.shaft + club.grip + glue
            misses.append((club.total - parts) / _TOTAL_SPREAD)
        if club.moment is not None:
            misses.append((club.moment - club.moment_with(setback, glue, ruler)) / _MOMENT_SPREAD)
        if club.plane_length is not None and club.ruler_length is not None:
            misses.append((club.plane_length - club.ruler_length - ruler) / _LENGTH_SPREAD)
    return misses


def _report(clubs: Sequence[FinishedClub], free: tuple[int, ...], found: least_squares.Fit) -> Calibration:
    """Put the fit into words and points."""
    unknowns = _filled(free, found.values)
    misses = tuple(
        (club.name, points(club.moment) - points(club.moment_with(*unknowns)))
        for club in clubs
        if club.moment is not None
    )
    learned = [unknowns[i] if i in free else None for i in range(3)]
    spread = dict(zip(free, _spreads(clubs, free, found), strict=True))
    return Calibration(
        setback=learned[0],
        glue_and_ferrule=learned[1],
        ruler_offset=learned[2],
        residual_points=math.sqrt(sum(miss * miss for _, miss in misses) / len(misses)),
        misses=misses,
        held=tuple(_held(_UNKNOWNS[i]) for i in range(3) if i not in free),
        spreads=(spread.get(0), spread.get(1), spread.get(2)),
    )


def _spreads(clubs: Sequence[FinishedClub], free: tuple[int, ...], found: least_squares.Fit) -> list[float]:
    """One spread of each free unknown, with what the held ones add by being out by their own."""
    squares = [spread * spread for spread in found.spreads]
    for held in set(range(len(_HOUSE))) - set(free):
        house = [value + _UNKNOWNS[i].spread * (i == held) for i, value in enumerate(_HOUSE)]
        moved = _fit(clubs, free, house)
        if moved is not None:
            changes = zip(moved.values, found.values, strict=True)
            squares = [s + (b - a) ** 2 for s, (a, b) in zip(squares, changes, strict=True)]
    return [math.sqrt(square) for square in squares]


def _held(unknown: _Unknown) -> str:
    """Say that one unknown could not be told, what is used, and what would tell it."""
    value = UNITS[unknown.symbol].from_si(unknown.house)
    return (
        f"These clubs cannot tell the {unknown.name}; {value:.4g} {unknown.symbol} is kept: {unknown.remedy}."
    )
