"""Gauss-Newton against scipy, and its honesty about what cannot be told."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence

import numpy as np
import pytest
from scipy.optimize import least_squares

from rules.bench.least_squares import fit, invert

Vector = np.ndarray[tuple[int], np.dtype[np.float64]]


def _for_scipy(misfit: Callable[[Sequence[float]], list[float]]) -> Callable[[Vector], list[float]]:
    def of_vector(values: Vector, /) -> list[float]:
        return misfit([float(value) for value in values])

    return of_vector


def noisy_line(seed: int) -> tuple[list[float], list[float]]:
    rng = random.Random(seed)
    xs = [rng.uniform(-2, 3) for _ in range(12)]
    return xs, [1.5 - 0.7 * x + rng.gauss(0, 0.1) for x in xs]


@pytest.mark.parametrize("seed", range(3))
def test_a_line_as_scipy_fits_it(seed: int) -> None:
    xs, ys = noisy_line(seed)

    def misfit(p: Sequence[float]) -> list[float]:
        return [y - p[0] - p[1] * x for x, y in zip(xs, ys, strict=True)]

    ours = fit(misfit, [0, 0], [1, 1])
    theirs = least_squares(_for_scipy(misfit), [0, 0])
    assert ours is not None
    assert ours.values == pytest.approx(list(theirs.x), abs=1e-7)
    slopes = np.array([[-1.0, -x] for x in xs])
    spread = np.sqrt(np.diag(np.linalg.inv(slopes.T @ slopes)))
    assert ours.spreads == pytest.approx(list(spread), rel=1e-5)


def test_a_bent_curve_as_scipy_fits_it() -> None:
    xs, _ = noisy_line(7)
    ys = [2.0 * math.exp(-0.3 * x) for x in xs]

    def misfit(p: Sequence[float]) -> list[float]:
        return [y - p[0] * math.exp(p[1] * x) for x, y in zip(xs, ys, strict=True)]

    ours = fit(misfit, [1.5, -0.2], [1, 0.1])
    assert ours is not None
    assert ours.values == pytest.approx((2.0, -0.3), abs=1e-8)
    theirs = least_squares(_for_scipy(misfit), [1.5, -0.2])
    assert ours.values == pytest.approx(list(theirs.x), abs=1e-6)


def test_what_cannot_be_told_apart_gives_none() -> None:
    assert fit(lambda p: [p[0] + p[1] - 1, 2 * p[0] + 2 * p[1] - 2], [0, 0], [1, 1]) is None
    assert fit(lambda p: [p[0] - 1], [0, 0], [1, 1]) is None


def test_an_inverse_is_an_inverse() -> None:
    for matrix in ([[4.0, 1.0], [1.0, 3e6]], [[2.0, 0.3, 0.1], [0.3, 1.0, 0.2], [0.1, 0.2, 5.0]]):
        inverse = invert(matrix)
        assert inverse is not None
        assert np.allclose(np.array(matrix) @ np.array(inverse), np.eye(len(matrix)))
    assert invert([[1.0, 2.0], [2.0, 4.0]]) is None
    assert invert([[0.0]]) is None
