"""Drag and lift of a spinning golf ball: published laws, in one form that a flight can read fast.

Each law is a function and a row of `LAWS`, at the foot of this file; whatever shows a band between laws,
names them or tries them goes by that table. A law is cut into cells of speed and spin; within a cell a
coefficient is `c0 + c1 V + spin (c2 + c3 V)`. That *is* the first law (Bearman & Harvey's table, linear
between nodes) and a fine-meshed copy of the second (Naruo's polynomials; the mesh is out by at most 0.001 in
CD or CL where golf balls fly). Outside a law's range its edge value is used, and flights are flagged as
clipped.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path

from rules.golf.ball import RADIUS

Law = str
"""A law's name: a key of `LAWS`."""

Pair = tuple[float, float]
"""Drag coefficient and lift coefficient."""

Function = Callable[[float, float], Pair]
"""CD and CL from m/s and rad/s; it clips outside its own range."""

Span = tuple[float, float]
"""Least and most."""

Cell = tuple[float, float, float, float, float, float, float, float]
"""c0, c1, c2, c3 of drag, then of lift; speed in m/s, spin in rad/s."""

Row = list[Cell]
"""The cells of one band of spin, indexed by whole tenths of a metre a second."""

RPM = 2 * math.pi / 60
"""One revolution a minute, rad/s."""

FIRST_SPEEDS = (13.7, 88.1)
"""m/s between which the first law was measured."""

FIRST_SPINS = (2000 * RPM, 6000 * RPM)
"""rad/s between which the first law was measured."""

SECOND_SPIN_FACTORS = (0.03, 1.13)
"""Spin factors S = r omega / V between which the second law was measured."""

FASTEST = 120.0
"""m/s: the tables end here; no golf ball has been hit faster."""

SPIN_STEP = 200 * RPM
"""rad/s: the height of a cell in spin."""

_TENTHS = int(FASTEST * 10)
_FOLDER = Path(__file__).parent


@cache
def _table(name: str) -> tuple[list[float], list[list[float]]]:
    """Read one of Bearman & Harvey's tables: the speeds of its columns, and its rows from 2000 rpm up."""
    lines = (_FOLDER / name).read_text(encoding="utf-8").splitlines()
    numbers = [line.split(",") for line in lines if line and not line.startswith("#")]
    speeds = [float(text) for text in numbers[0][1:]]
    return speeds, [[float(text) for text in row[1:]] for row in numbers[1:]]


def _column(speeds: list[float], speed: float) -> int:
    """Return the index of the column at or left of a speed, so that a right neighbour always exists."""
    return max(0, min(sum(node <= speed for node in speeds) - 1, len(speeds) - 2))


def bearman_harvey(speed: float, spin: float) -> Pair:
    """Return CD and CL by the first law, from m/s and rad/s.

    P. W. Bearman and J. K. Harvey, "Golf ball aerodynamics", Aeronautical Quarterly 27 (1976) 112-122,
    hexagonal-dimple ball, read off Figs 7-8. Linear between nodes; clipped outside 2000 to 6000 rpm and
    13.7 to 88.1 m/s.
    """
    speeds, drags = _table("ball_drag_coefficients.csv")
    _, lifts = _table("ball_lift_coefficients.csv")
    v = min(max(speed, FIRST_SPEEDS[0]), FIRST_SPEEDS[1])
    w = (min(max(spin, FIRST_SPINS[0]), FIRST_SPINS[1]) - FIRST_SPINS[0]) / SPIN_STEP
    j = _column(speeds, v)
    i = min(int(w), len(drags) - 2)
    x, y = (v - speeds[j]) / (speeds[j + 1] - speeds[j]), w - i
    return _bilinear(drags, i, j, x, y), _bilinear(lifts, i, j, x, y)


def _bilinear(table: list[list[float]], i: int, j: int, x: float, y: float) -> float:
    """Read a table between four nodes, `x` along the row and `y` down the column, each 0 to 1."""
    above = table[i][j] * (1 - x) + table[i][j + 1] * x
    below = table[i + 1][j] * (1 - x) + table[i + 1][j + 1] * x
    return above * (1 - y) + below * y


def naruo(speed: float, spin: float) -> Pair:
    """Return CD and CL by the second law, from m/s and rad/s, through the spin factor S = r omega / V.

    T. Naruo, T. Mizota and M. Shimozono, Trans. JSME B 70 (2004) 2371. Clipped outside S = 0.03 to 1.13.
    """
    low, high = SECOND_SPIN_FACTORS
    s = min(max(RADIUS * spin / speed, low), high)
    drag = (((0.7510 * s - 1.760) * s + 1.098) * s + 0.2148) * s + 0.2049
    lift = (((-0.2158 * s + 1.006) * s - 1.644) * s + 1.250) * s + 0.0616
    return drag, lift


def _cell(function: Function, v0: float, v1: float, w0: float, w1: float) -> Cell:
    """Fit `c0 + c1 V + spin (c2 + c3 V)` through the four corners of a cell, drag then lift."""
    corners = [function(v, w) for v, w in ((v0, w0), (v1, w0), (v0, w1), (v1, w1))]
    found: list[float] = []
    for which in (0, 1):
        f00, f10, f01, f11 = (corner[which] for corner in corners)
        cross = (f11 - f10 - f01 + f00) / ((v1 - v0) * (w1 - w0))
        along = (f10 - f00) / (v1 - v0)
        across = (f01 - f00) / (w1 - w0)
        found += [
            f00 - along * v0 - across * w0 + cross * v0 * w0,
            along - cross * w0,
            across - cross * v0,
            cross,
        ]
    return (found[0], found[1], found[2], found[3], found[4], found[5], found[6], found[7])


def _printed_nodes() -> list[int]:
    """Return the columns of Bearman & Harvey's tables: between them the first law is a straight line."""
    speeds, _ = _table("ball_drag_coefficients.csv")
    return [0, *(round(v * 10) for v in speeds), _TENTHS]


def _fine_nodes() -> list[int]:
    """Return borders fine enough for a smooth law: finest where a small step of speed turns most."""
    return [0, 50, *range(55, 200, 5), *range(200, 400, 10), *range(400, _TENTHS + 1, 20)]


_ANY: Span = (-math.inf, math.inf)


@dataclass(frozen=True, slots=True)
class FlightLaw:
    """A published law of drag and lift: a function, where it was measured, and how far it may be believed."""

    title: str
    """Who and when, as one cites it in a sentence."""
    function: Function
    carry_bias: float
    """m by which it carries too far on average, on the published tour rows for fairway woods and hybrids that
    `tests/published/test_golf_flight.py` holds (25 degC, 50 %), untuned; recomputed there."""
    carry_rms: float
    """m: its root-mean-square error in carry on the same rows."""
    speeds: Span = _ANY
    """m/s between which it was measured."""
    spins: Span = _ANY
    """rad/s between which it was measured."""
    spin_factors: Span = _ANY
    """Spin factors S = r omega / V between which it was measured."""
    nodes: Callable[[], list[int]] = _fine_nodes
    """Borders of its cells in whole tenths of a m/s, from 0 to the fastest."""
    bands: tuple[int, int] = (0, 60)
    """Lowest and highest band of spin (times 200 rpm) of its cells; beyond, the coefficients stand still."""

    def strays(self, fast: float, spin: float, slow: float, left: float) -> bool:
        """Tell whether a flight left the measured range: launched at `fast` and `spin`, least speed `slow`,
        spin at landing `left` (m/s, rad/s)."""
        if not (self.speeds[0] <= slow and fast <= self.speeds[1]):
            return True
        if not (self.spins[0] <= left and spin <= self.spins[1]):
            return True
        least, most = self.spin_factors
        return RADIUS * spin < least * fast or RADIUS * left > most * slow


class SpinRows(dict[int, Row]):
    """A law's cells, by band of spin (from `band` to `band + 1` times 200 rpm); a row is built when asked
    for.

    Bands below and above what the law covers are its edge bands: there the coefficients stand still.
    """

    def __init__(self, law: FlightLaw) -> None:
        self.law = law

    def __missing__(self, band: int) -> Row:
        """Build the row of a band and keep it."""
        low, high = self.law.bands
        inside = min(max(band, low), high)
        row = self[inside] if inside != band else self._build(band)
        self[band] = row
        return row

    def _build(self, band: int) -> Row:
        """Fit every cell of a band."""
        function = self.law.function
        row: Row = []
        for left, right in pairwise(self.law.nodes()):
            v0, v1 = max(left, 1) / 10, right / 10
            cell = _cell(function, v0, v1, band * SPIN_STEP, (band + 1) * SPIN_STEP)
            row += [cell] * (right - left)
        return row


_YARD = 0.9144

LAWS: dict[Law, FlightLaw] = {
    "first": FlightLaw(
        "Bearman & Harvey 1976", bearman_harvey, carry_bias=3.9 * _YARD, carry_rms=5.7 * _YARD,
        speeds=FIRST_SPEEDS, spins=FIRST_SPINS, nodes=_printed_nodes, bands=(9, 30),
    ),
    "second": FlightLaw(
        "Naruo and others 2004", naruo, carry_bias=10.8 * _YARD, carry_rms=11.4 * _YARD,
        spin_factors=SECOND_SPIN_FACTORS,
    ),
}  # fmt: skip
"""Every law by its name. The first decides; the others show how far it may be out."""

ROWS: dict[Law, SpinRows] = {name: SpinRows(law) for name, law in LAWS.items()}
"""The cells of each law, shared by every flight."""


def rivals(law: Law = "first") -> tuple[Law, ...]:
    """Return the names of the other laws."""
    return tuple(name for name in LAWS if name != law)
