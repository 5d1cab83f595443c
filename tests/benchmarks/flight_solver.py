"""One flight against a general solver of differential equations, in one run: how far apart, how fast.

Peer: scipy.integrate.solve_ivp (RK45), which Turfpair does not ship. Its right-hand side here reads the
same cells (first law) or the polynomials outright (second law), so that it is not slowed by a table search
of ours.
"""

from __future__ import annotations

import math
import random
import time
from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from rules.golf.ball import AREA, GRAVITY, MASS, RADIUS
from rules.golf.coefficients import LAWS, ROWS, RPM, SPIN_STEP, Law, Pair
from rules.golf.flight import SPIN_DECAY, Launch, fly

DENSITY = 1.177
YARD = 0.9144


def launches(n: int) -> list[Launch]:
    dice = random.Random(1976)
    return [
        Launch(dice.uniform(38, 75), math.radians(dice.uniform(6, 20)), dice.uniform(2100, 6000) * RPM)
        for _ in range(n)
    ]


def first_law(speed: float, spin: float) -> Pair:
    c0, c1, c2, c3, l0, l1, l2, l3 = ROWS["first"][int(spin / SPIN_STEP)][int(speed * 10)]
    return c0 + c1 * speed + spin * (c2 + c3 * speed), l0 + l1 * speed + spin * (l2 + l3 * speed)


def solved(launch: Launch, law: Law, *, rtol: float, max_step: float = math.inf) -> float:
    """Carry in m by the general solver, landing found by its own event search."""
    k = DENSITY * AREA / (2 * MASS)
    read = first_law if law == "first" else LAWS[law].function

    def slopes(_: float, state: NDArray[np.float64]) -> Sequence[float]:
        _x, _y, vx, vy, spin = state.tolist()
        speed = math.sqrt(vx * vx + vy * vy)
        drag, lift = read(speed, spin)
        pull = k * speed
        return (
            vx,
            vy,
            -pull * (drag * vx + lift * vy),
            -pull * (drag * vy - lift * vx) - GRAVITY,
            -SPIN_DECAY * speed * spin / RADIUS,
        )

    def ground(_: float, state: NDArray[np.float64]) -> float:
        return float(state[1])

    ground.terminal = True  # type: ignore[attr-defined]  # how scipy is told that the event ends the flight
    ground.direction = -1  # type: ignore[attr-defined]
    start = [
        0.0,
        0.0,
        launch.speed * math.cos(launch.angle),
        launch.speed * math.sin(launch.angle),
        launch.spin,
    ]
    found = solve_ivp(slopes, (0.0, 20.0), start, rtol=rtol, atol=1e-9, events=ground, max_step=max_step)
    assert found.y_events is not None
    return float(found.y_events[0][0][0])


def best_time(job: Callable[[], object], rounds: int) -> float:
    times = []
    for _ in range(rounds):
        start = time.process_time()
        job()
        times.append(time.process_time() - start)
    return min(times)


def farthest_off(law: Law) -> float:
    """The most, yd, by which a carry differs from a fine solution, over forty launches."""
    return max(
        abs(fly(launch, DENSITY, law).carry - solved(launch, law, rtol=1e-9, max_step=0.05)) / YARD
        for launch in launches(40)
    )


def seconds(law: Law) -> tuple[float, float]:
    """Seconds that one flight takes, ours and the general solver's: the best of several rounds."""
    balls = launches(12)
    for launch in balls:
        fly(launch, DENSITY, law)
    ours = best_time(lambda: [fly(launch, DENSITY, law) for launch in balls], 9)
    theirs = best_time(lambda: [solved(launch, law, rtol=1e-6) for launch in balls], 3)
    return ours / len(balls), theirs / len(balls)
