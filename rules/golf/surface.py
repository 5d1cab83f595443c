"""A surface of carries over speed, launch and spin, filled only where it is asked: for sampling.

Thousands of draws of an uncertain golfer fall in a small region of (speed, angle, spin). The surface flies
the nodes of a coarse grid once and reads any launch off the parabola around its nearest node, in under a
microsecond or two; on draws like those its root-mean-square error in carry is under 0.1 yd.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from rules.golf.coefficients import RPM, Law
from rules.golf.flight import Flight, Launch, fly

SPEED_STEP = 4.0
"""m/s between nodes."""

ANGLE_STEP = math.radians(1.5)
"""rad between nodes."""

SPIN_STEP = 400 * RPM
"""rad/s between nodes: bands of the first law's table are 200 rpm high, so borders fall on nodes."""

LOWEST_ANGLE = 3
"""Nodes of launch below which a flight is computed outright: under 3.75 degrees carry drops off a cliff."""

Parabola = tuple[float, float, float, float, float, float, float, float, float, float]
"""Value, three slopes, three bends, three twists around a node, in steps."""

Patch = tuple[Parabola, Parabola, Parabola, Parabola, bool]
"""Parabolas for carry, apex, descent and time, and whether the node's flight was clipped."""

_V = 1.0 / SPEED_STEP
_A = 1.0 / ANGLE_STEP
_W = 1.0 / SPIN_STEP
_STRIDE = 4096


def _read(p: Parabola, x: float, y: float, z: float) -> float:
    """Read a parabola at an offset from its node, in steps."""
    f, fx, fy, fz, fxx, fyy, fzz, fxy, fxz, fyz = p
    return f + x * (fx + x * fxx + y * fxy + z * fxz) + y * (fy + y * fyy + z * fyz) + z * (fz + z * fzz)


class CarrySurface:
    """Carry, apex, descent and time over launches, in air of one density and by one law.

    Pure in effect: what it returns depends on the launch alone, never on what was asked before. Launches
    below 3.75 degrees, below 6 m/s or above 102 m/s are flown outright.
    """

    def __init__(self, density: float, law: Law = "first") -> None:
        self.density = density
        self.law = law
        self._nodes: dict[int, Flight] = {}
        self._patches: dict[int, Patch | None] = {}

    @property
    def flights(self) -> int:
        """How many nodes have been flown so far."""
        return len(self._nodes)

    def carry(self, speed: float, angle: float, spin: float) -> float:
        """Return the carry in m for a launch in m/s, rad and rad/s."""
        x, y, z = speed * _V, angle * _A, spin * _W
        i, j, k = int(x + 0.5), int(y + 0.5), round(z)
        key = (i * _STRIDE + j) * _STRIDE + k
        patch = self._patches.get(key) or self._patch(i, j, k)
        if patch is None:
            return fly(Launch(speed, angle, spin), self.density, self.law).carry
        f, fx, fy, fz, fxx, fyy, fzz, fxy, fxz, fyz = patch[0]
        x, y, z = x - i, y - j, z - k
        return f + x * (fx + x * fxx + y * fxy + z * fxz) + y * (fy + y * fyy + z * fyz) + z * (fz + z * fzz)

    def fly(self, launch: Launch) -> Flight:
        """Return the whole flight of a launch, as `flight.fly` would but read off the surface."""
        x, y, z = launch.speed * _V, launch.angle * _A, launch.spin * _W
        i, j, k = int(x + 0.5), int(y + 0.5), round(z)
        patch = self._patches.get((i * _STRIDE + j) * _STRIDE + k) or self._patch(i, j, k)
        if patch is None:
            return fly(launch, self.density, self.law)
        x, y, z = x - i, y - j, z - k
        carry, apex, descent, time, clipped = patch
        return Flight(
            _read(carry, x, y, z),
            _read(apex, x, y, z),
            _read(descent, x, y, z),
            _read(time, x, y, z),
            clipped,
        )

    def _patch(self, i: int, j: int, k: int) -> Patch | None:
        """Build and keep the parabolas around a node; None where launches are flown outright."""
        key = (i * _STRIDE + j) * _STRIDE + k
        if key not in self._patches:
            inside = 2 <= i <= 25 and LOWEST_ANGLE <= j <= 55 and abs(k) < 45
            self._patches[key] = self._fit(i, j, k) if inside else None
        return self._patches[key]

    def _fit(self, i: int, j: int, k: int) -> Patch:
        """Fit a parabola in each quantity through a node and twelve neighbours."""
        node = self._node
        near = [node(i + di, j + dj, k + dk) for di, dj, dk in _NEAR]
        carry, apex, descent, time, _ = zip(*near, strict=True)
        return _parabola(carry), _parabola(apex), _parabola(descent), _parabola(time), near[0].clipped

    def _node(self, i: int, j: int, k: int) -> Flight:
        """Fly a node of the grid, once."""
        key = (i * _STRIDE + j) * _STRIDE + k
        flight = self._nodes.get(key)
        if flight is None:
            launch = Launch(i * SPEED_STEP, j * ANGLE_STEP, k * SPIN_STEP)
            flight = self._nodes[key] = fly(launch, self.density, self.law)
        return flight


_NEAR = (
    (0, 0, 0),
    (1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1),
    (1, 1, 0), (-1, -1, 0), (1, 0, 1), (-1, 0, -1), (0, 1, 1), (0, -1, -1),
)  # fmt: skip
"""A node, its neighbours along the axes, and those across corners."""


def _parabola(near: Sequence[float]) -> Parabola:
    """Fit value, slopes, bends and twists to the node, its six neighbours along axes and six across
    corners."""
    f, xp, xm, yp, ym, zp, zm, xyp, xym, xzp, xzm, yzp, yzm = near
    return (
        f,
        (xp - xm) / 2,
        (yp - ym) / 2,
        (zp - zm) / 2,
        (xp + xm) / 2 - f,
        (yp + ym) / 2 - f,
        (zp + zm) / 2 - f,
        (xyp + xym + 2 * f - xp - xm - yp - ym) / 2,
        (xzp + xzm + 2 * f - xp - xm - zp - zm) / 2,
        (yzp + yzm + 2 * f - yp - ym - zp - zm) / 2,
    )
