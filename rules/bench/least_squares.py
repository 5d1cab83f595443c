"""Least squares by Gauss-Newton, for a handful of unknowns.

`minimise sum r_i(x)^2`; each step solves `(J'J) dx = -J'r` in unknowns scaled to be of order one. Meant for
problems that are linear or nearly so, with at most a dozen unknowns; there is no line search.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

Residuals = Callable[[Sequence[float]], list[float]]
Matrix = list[list[float]]

_STEPS = 20
_SMALLEST_PIVOT = 1e-9


@dataclass(frozen=True, slots=True)
class Fit:
    """Values that fit best, and one spread of each if every residual has a spread of one."""

    values: tuple[float, ...]
    spreads: tuple[float, ...]


def fit(residuals: Residuals, start: Sequence[float], scales: Sequence[float]) -> Fit | None:
    """Fit values from a start; `scales` are sizes of step that matter in each.

    Residuals should be divided by their own spreads. Returns None when the readings cannot tell the
    unknowns apart (fewer readings than unknowns included) or when the steps do not settle.
    """
    values = list(start)
    for _ in range(_STEPS):
        slopes = _slopes(residuals, values, scales)
        normal = _normal(slopes)
        inverse = invert(normal)
        if inverse is None:
            return None
        left = residuals(values)
        pull = [sum(s * r for s, r in zip(column, left, strict=True)) for column in slopes]
        steps = [-sum(a * p for a, p in zip(row, pull, strict=True)) for row in inverse]
        values = [v + step * scale for v, step, scale in zip(values, steps, scales, strict=True)]
        if max(map(abs, steps)) < 1e-10:
            spreads = [math.sqrt(inverse[i][i]) * scales[i] for i in range(len(values))]
            return Fit(tuple(values), tuple(spreads))
    return None


def _slopes(residuals: Residuals, values: Sequence[float], scales: Sequence[float]) -> Matrix:
    """Columns of the Jacobian in scaled unknowns, by central differences (exact for what is bilinear)."""
    columns = []
    for index, scale in enumerate(scales):
        step = 1e-3 * scale
        up = residuals([v + step * (i == index) for i, v in enumerate(values)])
        down = residuals([v - step * (i == index) for i, v in enumerate(values)])
        columns.append([(a - b) / 2e-3 for a, b in zip(up, down, strict=True)])
    return columns


def _normal(columns: Matrix) -> Matrix:
    """Products of every pair of columns."""
    return [[sum(x * y for x, y in zip(a, b, strict=True)) for b in columns] for a in columns]


def invert(matrix: Matrix) -> Matrix | None:
    """Inverse of a symmetric positive matrix, or None when it is singular to nine digits."""
    size = len(matrix)
    if any(matrix[i][i] <= 0 for i in range(size)):
        return None
    root = [math.sqrt(matrix[i][i]) for i in range(size)]
    work = [
        [matrix[i][j] / (root[i] * root[j]) for j in range(size)] + [float(i == j) for j in range(size)]
        for i in range(size)
    ]
    for i in range(size):
        if work[i][i] < _SMALLEST_PIVOT:
            return None
        work[i] = [value / work[i][i] for value in work[i]]
        for k in range(size):
            if k != i:
                factor = work[k][i]
                work[k] = [a - factor * b for a, b in zip(work[k], work[i], strict=True)]
    return [[work[i][size + j] / (root[i] * root[j]) for j in range(size)] for i in range(size)]
