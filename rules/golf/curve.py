"""Which way an off-centre or open-faced strike goes: where it starts, and how far it curves back.

Small effects, honestly sized. A toe strike turns the head open, which starts the ball toeward, and its gear
effect spins the ball back heelward; a bulged face adds to the start. Seen from above a right-hander's toe
side is right of the target, a left-hander's left; which word that becomes is for whoever talks to the
golfer.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.golf.coefficients import LAWS, Law
from rules.golf.flight import Launch, air_hold, first_step, fly, states
from rules.golf.impact import Blow, Clubhead, blow


@dataclass(frozen=True, slots=True)
class Curve:
    """Where a ball goes sideways; toward the toe side is positive."""

    start: float
    """rad off the path at which it starts."""

    side: float
    """m off the path at which it lands: where it starts and how it bends together."""


def toe_curve(
    speed: float,
    delivered: tuple[float, float],
    head: Clubhead,
    toe: float,
    density: float,
    bulge: float = math.inf,
    law: Law = "first",
) -> Curve:
    """Return where a strike `toe` m toward the toe goes, head speed in m/s, delivered (loft, attack) in
    rad.

    `bulge` is the radius in m of the face's curvature from heel to toe; without it the face is flat. The
    path is straight at the target and the face square to it at its centre.
    """
    loft, attack = delivered
    return curve(blow(speed, loft, attack, head, toe, 0.0, toe / bulge), density, law)


def curve(struck: Blow, density: float, law: Law = "first") -> Curve:
    """Return where a blow's ball goes sideways, m and rad.

    The spin axis leans, at right angles to the launch, and then keeps its place in space: sideways az = -k
    V CL sin(tilt) (vx cos a + vy sin a) - k V CD vz along the flight in the plane, a the launch (trapezium
    rule). Good for tilts up to about 20 degrees; beyond, the flight would fall shorter than it is given.
    """
    launch = struck.launch
    tilt = math.atan2(struck.sidespin, launch.spin) if launch.spin > 0.0 else 0.0
    flight = fly(launch, density, law)
    bend = _bend(launch, tilt, density, law, flight.time) if flight.time > 0.0 else 0.0
    return Curve(struck.start, flight.carry * math.sin(struck.start) + bend)


def _bend(launch: Launch, tilt: float, density: float, law: Law, time: float) -> float:
    """Integrate the sideways drift of a leaning spin over a flight of so many s, m."""
    k, h = air_hold(density), first_step(launch)
    lean, flat, steep = math.sin(tilt), math.cos(launch.angle), math.sin(launch.angle)
    z = vz = before = 0.0
    function = LAWS[law].function
    for i, (_, _, vx, vy, spin) in enumerate(states(launch, density, law, time)):
        speed = math.hypot(vx, vy)
        drag, lift = function(speed, spin)
        push, slow = -k * speed * lift * lean * (vx * flat + vy * steep), k * speed * drag
        step = min(h, time - (i - 1) * h) if i else 0.0
        faster = (vz + step / 2 * (before + push)) / (1 + step / 2 * slow)
        now = push - slow * faster
        z += step * vz + step * step * (2 * before + now) / 6
        vz, before = faster, now
    return z
