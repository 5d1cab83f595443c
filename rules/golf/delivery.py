"""What a golfer delivers, drawn from what was measured of his shots.

Delivered loft is the largest unknown of the whole calculation: two degrees move every speed threshold by 9
to 12 mph. Good players deliver less than the stamped loft, many amateurs add to it. So it starts as an
assumption with a wide spread and is corrected by whatever is seen: launch, spin and ball speed here (least
squares through the impact), height of flight and the count of airborne shots in `sight.py`.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from rules.golf.impact import Clubhead, strike
from rules.problems import Problem


@dataclass(frozen=True, slots=True)
class Estimate:
    """A value and its standard deviation, in one SI unit; a spread of 0 holds the value fast."""

    value: float
    spread: float


@dataclass(frozen=True, slots=True)
class Seen:
    """What was measured, as means over shots; None for what was not. The spread is of the *mean*."""

    ball_speed: Estimate | None = None
    """m/s."""

    launch: Estimate | None = None
    """rad."""

    spin: Estimate | None = None
    """rad/s of backspin."""


@dataclass(frozen=True, slots=True)
class Delivery:
    """What is delivered to the ball: as believed before, or as it comes out after the measurements."""

    speed: Estimate
    """m/s of head speed."""

    loft: Estimate
    """rad of delivered loft."""

    attack: Estimate
    """rad, up positive."""

    restitution: Estimate
    """e of the head as it was struck."""

    misfit: float = 0.0
    """Root mean square of what is left unexplained, in spreads; well above 2 says that something is wrong."""


_NAMES = ("speed", "loft", "attack", "restitution")
_LIMITS = ((1.0, 80.0), (0.0, 1.2), (-0.2, 0.15), (0.2, 1.0))

Vector = list[float]
Matrix = list[list[float]]


def learn_delivery(seen: Seen, prior: Delivery, head: Clubhead) -> Delivery:
    """Return the delivery that best explains what was seen, given what was believed and its spreads.

    Least squares over (model - seen)/spread and (value - prior)/spread by Gauss-Newton on the impact of a
    centred strike; spreads of the result are those of the linear problem at the solution. With nothing seen
    the prior comes back. Strikes off the centre lower ball speed and so pass for restitution, not for loft.
    Problem for a measured spread of 0 or less.
    """
    measured = _measured(seen)
    free = [i for i, name in enumerate(_NAMES) if _part(prior, name).spread > 0.0]
    if not measured or not free:
        return prior
    centre = [_part(prior, name).value for name in _NAMES]
    spreads = [_part(prior, name).spread for name in _NAMES]

    def residuals(steps: Vector) -> Vector:
        values = _moved(centre, spreads, free, steps)
        launch = strike(values[0], values[1], values[2], replace(head, restitution=values[3]))
        model = (launch.speed, launch.angle, launch.spin)
        return steps + [(model[which] - one.value) / one.spread for which, one in measured]

    steps, normal = _gauss_newton(residuals, len(free))
    left = residuals(steps)
    found = _moved(centre, spreads, free, steps)
    shrink = _inverse_diagonal(normal)
    after = {i: math.sqrt(shrink[k]) * spreads[i] for k, i in enumerate(free)}
    parts = [Estimate(found[i], after.get(i, 0.0)) for i in range(4)]
    misfit = math.sqrt(math.fsum(r * r for r in left) / len(measured))
    return Delivery(parts[0], parts[1], parts[2], parts[3], misfit)


def _part(delivery: Delivery, name: str) -> Estimate:
    """Read one of the four estimates of a delivery."""
    part: Estimate = getattr(delivery, name)
    return part


def _measured(seen: Seen) -> list[tuple[int, Estimate]]:
    """List what was measured, by its place in a launch; Problem for a spread that is none."""
    found = [(i, one) for i, one in enumerate((seen.ball_speed, seen.launch, seen.spin)) if one is not None]
    if any(not one.spread > 0.0 for _, one in found):
        raise Problem("a measured launch needs a spread above 0; give how far such readings scatter")
    return found


def _moved(centre: Vector, spreads: Vector, free: list[int], steps: Vector) -> Vector:
    """Return the four values after steps (in spreads) from the prior, kept where the impact holds."""
    values = list(centre)
    for i, step in zip(free, steps, strict=True):
        low, high = _LIMITS[i]
        values[i] = min(max(centre[i] + step * spreads[i], low), high)
    return values


def _gauss_newton(residuals: Callable[[Vector], Vector], n: int) -> tuple[Vector, Matrix]:
    """Minimise the sum of squared residuals from nought; return the steps and the normal matrix there."""
    steps = [0.0] * n
    normal: Matrix = []
    for _ in range(12):
        left = residuals(steps)
        slopes = [_slope(residuals, steps, k) for k in range(n)]
        normal = [[math.fsum(a * b for a, b in zip(p, q, strict=True)) for q in slopes] for p in slopes]
        pull = [-math.fsum(a * b for a, b in zip(p, left, strict=True)) for p in slopes]
        move = _solve(normal, pull)
        steps = [a + b for a, b in zip(steps, move, strict=True)]
        if max(map(abs, move)) < 1e-9:
            break
    return steps, normal


def _slope(residuals: Callable[[Vector], Vector], steps: Vector, k: int) -> Vector:
    """Return how residuals change with one step, by central difference."""
    ahead, behind = list(steps), list(steps)
    ahead[k] += 1e-4
    behind[k] -= 1e-4
    return [(a - b) / 2e-4 for a, b in zip(residuals(ahead), residuals(behind), strict=True)]


def _solve(matrix: Matrix, right: Vector) -> Vector:
    """Solve a small symmetric positive system by elimination (priors keep its pivots at 1 or above)."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    n = len(rows)
    for i in range(n):
        for j in range(i + 1, n):
            factor = rows[j][i] / rows[i][i]
            rows[j] = [a - factor * b for a, b in zip(rows[j], rows[i], strict=True)]
    found = [0.0] * n
    for i in reversed(range(n)):
        found[i] = (rows[i][n] - math.fsum(rows[i][j] * found[j] for j in range(i + 1, n))) / rows[i][i]
    return found


def _inverse_diagonal(matrix: Matrix) -> Vector:
    """Return the diagonal of a small matrix's inverse: the variances of a least-squares solution."""
    n = len(matrix)
    return [_solve(matrix, [float(i == k) for i in range(n)])[k] for k in range(n)]
