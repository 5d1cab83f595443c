"""One club's balls in figures that a golfer can follow: all balls count, the misses first of all."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING, Literal, NamedTuple

from rules.evidence.counts import Count, count
from rules.evidence.intervals import (
    Figure,
    carry_figure,
    mean,
    mean_figure,
    scatter_figure,
    spread_figure,
)

if TYPE_CHECKING:
    from rules.facts.subject import Kind, Shot
    from rules.facts.tried import Tried

OUTCOMES = ("topped", "thin", "fat", "up")
"""What may become of a ball, in the order of the keys that note it."""
_WORST = 3
"""One ball in so many is among the poorer ones: the worst two of six."""


class Condition(NamedTuple):
    """What a ball was hit from, and whether under a roof."""

    surface: Literal["turf", "mat", "tee"]
    indoors: bool


def condition(shot: Shot) -> Condition:
    """Return what a ball was hit from; where nobody said, it is taken to be turf."""
    return Condition(shot.surface or "turf", shot.indoors)


@dataclass(frozen=True, slots=True)
class Carry:
    """How far balls flew, m. Every ball of which a carry was noted counts, mishit or not."""

    all: Figure
    """Mean of all of them."""
    typical: float
    """Median."""
    poorer: float
    """Mean of the poorest third: what a bad one still does."""
    got_up: Figure | None
    """Mean of those that got up; None where no such ball has a carry."""
    spread: Figure | None
    """Standard deviation of those that got up, of all where that was not noted; None for a single ball."""


@dataclass(frozen=True, slots=True)
class Side:
    """How far balls finished off the line, m."""

    off: Figure
    """Mean distance from the line, either side."""
    mean: float
    """Mean finish, right positive: a steady push or pull shows here."""


@dataclass(frozen=True, slots=True)
class Marks:
    """Where balls met the face, m, from face centre."""

    toe: float
    """Mean, toeward positive."""
    high: float
    """Mean, up the face positive."""
    sd_toe: float | None
    """None for a single mark."""
    sd_high: float | None
    scatter: Figure | None
    """Root of the sum of both variances."""
    number: int


@dataclass(frozen=True, slots=True)
class ClubBalls:
    """One club's balls, summed up."""

    club: str
    kind: Kind
    loft: float | None
    """Static, rad; None where nobody said."""
    owned: bool
    balls: int
    """Balls that the figures are of."""
    teed: int
    """Teed balls that were left out."""
    outcomes: Mapping[str, int]
    """Balls by what became of them; those of which it was not noted under `unsaid`."""
    usable: Count | None
    """Balls that got up, of those noted; None where none was."""
    carry: Carry | None
    side: Side | None
    marks: Marks | None
    conditions: Mapping[Condition, int]
    """Balls by what they were hit from."""
    readings: Mapping[str, float]
    """Means of head speed, ball speed (m/s), launch (rad) and spin (rad/s) over clean strikes, where read."""


def summed_up(club: Tried, mishit_carry: float) -> ClubBalls:
    """Return the figures of one club's balls; `mishit_carry` is the share of a carry that a mishit keeps.

    Teed balls are left out of them where there are others: off a tee almost any club gets up.
    """
    shots = club.off_ground or club.shots
    noted = Counter[str](shot.outcome or "unsaid" for shot in shots)
    said = len(shots) - noted["unsaid"]
    return ClubBalls(
        club=club.name,
        kind=club.kind,
        loft=club.loft if club.loft_told else None,
        owned=club.owned,
        balls=len(shots),
        teed=len(club.shots) - len(shots),
        outcomes={name: noted[name] for name in (*OUTCOMES, "unsaid")},
        usable=count(noted["up"], said) if said else None,
        carry=_carry(shots, mishit_carry),
        side=_side(shots),
        marks=_marks(shots),
        conditions=dict(Counter(map(condition, club.shots))),
        readings=_readings(club.clean),
    )


def _carry(shots: Sequence[Shot], mishit_carry: float) -> Carry | None:
    flown = [shot.carry for shot in shots if shot.carry is not None]
    if not flown:
        return None
    up = [shot.carry for shot in shots if shot.carry is not None and shot.outcome == "up"]
    failed = [s.carry for s in shots if s.carry is not None and s.outcome not in ("up", None)]
    noted = len(up) + len(failed) == len(flown)
    whole = carry_figure(up, failed, mishit_carry) if noted else mean_figure(flown)
    assert whole is not None
    return Carry(whole, median(flown), poorer(flown), mean_figure(up), spread_figure(up if noted else flown))


def poorer(carries: Sequence[float]) -> float:
    """Return the mean of the poorest third of some carries, one ball at least."""
    worst = sorted(carries)[: max(1, len(carries) // _WORST)]
    return mean(worst)


def _side(shots: Sequence[Shot]) -> Side | None:
    sides = [shot.side for shot in shots if shot.side is not None]
    off = mean_figure([abs(side) for side in sides])
    return None if off is None else Side(off, mean(sides))


def marks_of(shots: Iterable[Shot]) -> list[tuple[float, float]]:
    """Return the marks that were read whole, m toward the toe and up the face from its centre."""
    return [(s.toe, s.high) for s in shots if s.toe is not None and s.high is not None]


def _marks(shots: Sequence[Shot]) -> Marks | None:
    marks = marks_of(shots)
    if not marks:
        return None
    toes, highs = [mark[0] for mark in marks], [mark[1] for mark in marks]
    return Marks(mean(toes), mean(highs), _sd(toes), _sd(highs), scatter_figure(marks), len(marks))


def _sd(values: Sequence[float]) -> float | None:
    if len(values) < 2:
        return None
    centre = mean(values)
    return math.sqrt(math.fsum((value - centre) ** 2 for value in values) / (len(values) - 1))


def _readings(shots: Sequence[Shot]) -> dict[str, float]:
    found = {}
    for name in ("head_speed", "ball_speed", "launch", "spin"):
        read = [value for shot in shots if (value := getattr(shot, name)) is not None]
        if read:
            found[name] = mean(read)
    return found
