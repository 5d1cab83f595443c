"""How a struck ball flies: a plane, still air, flat ground; carry, apex, descent and time.

    ax = -k V (CD vx + CL vy),  ay = -k V (CD vy - CL vx) - g,  k = rho A / (2 m)
    d(omega)/dt = -2.0e-5 V omega / r                 (Smits & Smith 1994)

Several laws for CD and CL are offered (`coefficients.LAWS`). None is tuned, and their faults are known; they
stand in that table because whoever shows a number must state them too.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from math import atan2, cos, sin, sqrt
from typing import NamedTuple

from rules.golf.ball import AREA, GRAVITY, MASS, RADIUS
from rules.golf.coefficients import LAWS, ROWS, SPIN_STEP, Law, Row
from rules.problems import Problem

SPIN_DECAY = 2.0e-5
"""Share of spin lost for each radius of path flown (Smits & Smith 1994, in Science and Golf II)."""

STEP = 0.3
"""s: the time step; with a cubic through the last one carry is within 0.05 yd of a far finer solution."""

_MPH = 0.44704
"""m/s in a mile an hour, exactly (international yard and pound, 1959)."""
_SHORTEST_STEP = 0.02
_DECAY = SPIN_DECAY / RADIUS
_BANDS = 1.0 / SPIN_STEP


@dataclass(frozen=True, slots=True)
class Launch:
    """How the ball leaves the face."""

    speed: float
    """m/s, above 0 and up to 110."""

    angle: float
    """rad above the horizon; at or below it the ball is taken to run along the ground."""

    spin: float
    """rad/s of backspin; topspin is negative."""

    def __post_init__(self) -> None:
        """Refuse what no golf ball does; Problem says which figure and what would be taken."""
        if not 0.0 < self.speed <= 110.0:
            raise Problem(
                f"a ball speed of {self.speed:g} m/s ({self.speed / _MPH:.4g} mph) cannot be; it is above 0"
                " and at most 110 m/s (246 mph); check it"
            )
        if not -1.5 <= self.angle <= 1.5:
            raise Problem(f"a launch of {math.degrees(self.angle):g} deg is outside -86 to 86 deg; check it")
        if not -2000.0 <= self.spin <= 2000.0:
            raise Problem(
                f"a spin of {self.spin * 30 / math.pi:g} rpm is outside 19,000 either way; check it"
            )


class Flight(NamedTuple):
    """Where the ball goes, from a launch at ground level to ground level."""

    carry: float
    """m to where it lands."""

    apex: float
    """m above the ground at the highest point."""

    descent: float
    """rad below the horizon at landing. For comparing clubs only: about 6 degrees too flat."""

    time: float
    """s in the air."""

    clipped: bool
    """True when the flight left the range in which the law was measured, and edge values were used."""


GROUNDED = Flight(0.0, 0.0, 0.0, 0.0, False)
"""The flight of a ball that never leaves the ground."""

Stride = tuple[float, float, float, float, float]
"""What one time step brings: dx, dy, new vx, new vy, length of path."""

State = tuple[float, float, float, float, float]
"""A ball in the air: x, y in m, vx, vy in m/s, spin in rad/s."""


def _stride(row: Row, spin: float, vx: float, vy: float, k: float, h: float) -> Stride:
    """Advance one step by classical fourth-order Runge-Kutta, reading one band of spin throughout.

    Everything is written out in line: this is the product's innermost loop.
    """
    half = 0.5 * h
    v1 = sqrt(vx * vx + vy * vy)
    c0, c1, c2, c3, l0, l1, l2, l3 = row[int(v1 * 10)]
    drag = k * v1 * (c0 + c1 * v1 + spin * (c2 + c3 * v1))
    lift = k * v1 * (l0 + l1 * v1 + spin * (l2 + l3 * v1))
    ax1, ay1 = -drag * vx - lift * vy, lift * vx - drag * vy - GRAVITY
    ux, uy = vx + half * ax1, vy + half * ay1
    v2 = sqrt(ux * ux + uy * uy)
    mid = spin * (1.0 - _DECAY * half * v1)
    c0, c1, c2, c3, l0, l1, l2, l3 = row[int(v2 * 10)]
    drag = k * v2 * (c0 + c1 * v2 + mid * (c2 + c3 * v2))
    lift = k * v2 * (l0 + l1 * v2 + mid * (l2 + l3 * v2))
    ax2, ay2 = -drag * ux - lift * uy, lift * ux - drag * uy - GRAVITY
    px, py = vx + half * ax2, vy + half * ay2
    v3 = sqrt(px * px + py * py)
    c0, c1, c2, c3, l0, l1, l2, l3 = row[int(v3 * 10)]
    drag = k * v3 * (c0 + c1 * v3 + mid * (c2 + c3 * v3))
    lift = k * v3 * (l0 + l1 * v3 + mid * (l2 + l3 * v3))
    ax3, ay3 = -drag * px - lift * py, lift * px - drag * py - GRAVITY
    qx, qy = vx + h * ax3, vy + h * ay3
    v4 = sqrt(qx * qx + qy * qy)
    end = spin * (1.0 - _DECAY * h * v3)
    c0, c1, c2, c3, l0, l1, l2, l3 = row[int(v4 * 10)]
    drag = k * v4 * (c0 + c1 * v4 + end * (c2 + c3 * v4))
    lift = k * v4 * (l0 + l1 * v4 + end * (l2 + l3 * v4))
    sixth = h / 6.0
    return (
        sixth * (vx + 2.0 * (ux + px) + qx),
        sixth * (vy + 2.0 * (uy + py) + qy),
        vx + sixth * (ax1 + 2.0 * (ax2 + ax3) - drag * qx - lift * qy),
        vy + sixth * (ay1 + 2.0 * (ay2 + ay3) + lift * qx - drag * qy - GRAVITY),
        sixth * (v1 + 2.0 * (v2 + v3) + v4),
    )


def _hermite(s: float, start: float, slope0: float, end: float, slope1: float) -> float:
    """Read the cubic through two points with two slopes (each times the step) at a share `s` of the step."""
    bend, twist = 3.0 * (end - start) - 2.0 * slope0 - slope1, 2.0 * (start - end) + slope0 + slope1
    return start + s * (slope0 + s * (bend + s * twist))


def _landing(start: float, slope0: float, end: float, slope1: float) -> float:
    """Return the share of the last step at which the cubic through it meets the ground (Newton from its
    end)."""
    bend, twist = 3.0 * (end - start) - 2.0 * slope0 - slope1, 2.0 * (start - end) + slope0 + slope1
    s = 1.0
    for _ in range(8):
        height = start + s * (slope0 + s * (bend + s * twist))
        move = height / (slope0 + s * (2.0 * bend + 3.0 * s * twist))
        s -= move
        if -1e-9 < move < 1e-9:
            break
    return s


def _summit(height: float, rise0: float, rise1: float, end: float) -> float:
    """Return the top of the cubic through a step that starts rising and ends falling (slopes times the
    step)."""
    bend, twist = 3.0 * (end - height) - 2.0 * rise0 - rise1, 2.0 * (height - end) + rise0 + rise1
    root = sqrt(max(bend * bend - 3.0 * twist * rise0, 0.0))
    s = rise0 / (root - bend) if root > bend else 1.0
    return height + s * (rise0 + s * (bend + s * twist))


def air_hold(density: float) -> float:
    """Return k = rho A / (2 m), 1/m, of the air's hold on the ball; Problem for what is no air."""
    if not 0.3 <= density <= 2.0:
        raise Problem(f"an air density of {density:g} kg/m3 is outside 0.3 to 2; sea level has about 1.2")
    return density * AREA / (2.0 * MASS)


def _step(rise: float) -> float:
    """Return the time step, s, for a ball rising at so many m/s: several to a flight, however low."""
    return min(STEP, max(0.5 * rise / GRAVITY, _SHORTEST_STEP))


def first_step(launch: Launch) -> float:
    """Return the time step, s, in which a launch is flown."""
    return _step(launch.speed * sin(launch.angle))


def fly(launch: Launch, density: float, law: Law = "first") -> Flight:
    """Fly a ball in still air of a density in kg/m3; a ball launched at or below level has no flight.

    Fixed steps of classical Runge-Kutta, landing by the cubic through the last step. How far each law misses
    published tour rows stands in `coefficients.LAWS`. Descent is about 6 degrees too flat by any. Below about
    75 mph of head speed the descent falls under Re 8e4, where published data disagree. Outside a law's range
    its edge values are used and the flight is flagged.
    """
    vx, vy = launch.speed * cos(launch.angle), launch.speed * sin(launch.angle)
    if vy <= 0.0:
        return GROUNDED
    k, h, rows = air_hold(density), _step(vy), ROWS[law]
    x = y = apex = 0.0
    spin, slowest, steps = launch.spin, launch.speed, 0
    while True:
        dx, dy, wx, wy, path = _stride(rows[int(spin * _BANDS)], spin, vx, vy, k, h)
        spin -= spin * _DECAY * path * (1.0 - 0.5 * _DECAY * path)
        if vy > 0.0 >= wy:
            apex = _summit(y, h * vy, h * wy, y + dy)
        if path < slowest * h:
            slowest = path / h
        if y + dy < 0.0:
            break
        x, y, vx, vy, steps = x + dx, y + dy, wx, wy, steps + 1
    s = _landing(y, h * vy, y + dy, h * wy)
    fall, run = vy + s * (wy - vy), vx + s * (wx - vx)
    carry = _hermite(s, x, h * vx, x + dx, h * wx)
    clipped = LAWS[law].strays(launch.speed, launch.spin, slowest, spin)
    return Flight(carry, apex, atan2(-fall, run), (steps + s) * h, clipped)


def trajectory(launch: Launch, density: float, law: Law = "first", n: int = 60) -> list[tuple[float, float]]:
    """Return `n` points (x, y) in m along a flight, evenly spaced in time, from launch to landing.

    Points lie on the cubics through the time steps, so a picture is smooth however many are asked for. A ball
    that never leaves the ground gives its starting point `n` times.
    """
    flight = fly(launch, density, law)
    if flight.time == 0.0:
        return [(0.0, 0.0)] * n
    nodes = states(launch, density, law, flight.time)
    h = first_step(launch)
    points = []
    for i in range(n):
        share = flight.time * i / max(n - 1, 1) / h
        j = min(int(share), len(nodes) - 2)
        (x0, y0, u0, w0, _), (x1, y1, u1, w1, _) = nodes[j], nodes[j + 1]
        s = share - j
        points.append((_hermite(s, x0, h * u0, x1, h * u1), max(_hermite(s, y0, h * w0, y1, h * w1), 0.0)))
    return points


def states(launch: Launch, density: float, law: Law, time: float) -> list[State]:
    """Return the state of a ball at every time step, until `time` in s is reached or just passed."""
    vx, vy = launch.speed * cos(launch.angle), launch.speed * sin(launch.angle)
    k, h, rows = air_hold(density), _step(vy), ROWS[law]
    x, y, spin = 0.0, 0.0, launch.spin
    found = [(x, y, vx, vy, spin)]
    while (len(found) - 1) * h < time:
        dx, dy, vx, vy, path = _stride(rows[int(spin * _BANDS)], spin, vx, vy, k, h)
        spin -= spin * _DECAY * path * (1.0 - 0.5 * _DECAY * path)
        x, y = x + dx, y + dy
        found.append((x, y, vx, vy, spin))
    return found
