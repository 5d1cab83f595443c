"""How the ball leaves the face: one blow between a rigid free head and a ball, solved for its impulses.

In the plane of flight, with t up the face, d the depth of the head's centre of mass, h the strike's height
above the line through it and I the inertia concerned:

    [ 1/m + 1/M + h^2/I      -d h/I                 ] [Jn]   [ (1+e) V cos(sigma) ]
    [ -d h/I                 7/(2m) + 1/M + d^2/I   ] [Jt] = [ -(1+et) V sin(sigma) ]

sigma = delivered loft - attack angle. vn = Jn/m, vt = Jt/m, omega = -(5/2) vt/r; launch counts from the
face normal. With d = h = 0 and et = 0 this is the rolling form of C. B. Daish (The Physics of Ball Games,
1972) and A. R. Penner (Am. J. Phys. 69 (2001) 563); its straight-line form is A. Cochran and J. Stobbs (The
Search for the Perfect Swing, 1968). Toward heel or toe the same matrix holds with that offset and that
inertia (R. Cross and A. M. Nathan, Am. J. Phys. 75 (2007) 658; Sports Technology 2 (2009) 7), so a third
impulse Js joins the two.

Not in it: the shaft (it hardly acts in half a millisecond), curvature of the face, products of inertia, and
the spring of the face falling away from its centre (a real thin strike is worse than this says).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from math import atan2, cos, sin

from rules.golf.ball import MASS, RADIUS
from rules.golf.flight import Launch
from rules.problems import Problem

NO_INERTIA = math.inf
"""An inertia that is not known or does not matter: the head does not turn about that axis."""


@dataclass(frozen=True, slots=True)
class Clubhead:
    """A head as a free rigid body, SI. Inertias default to infinite: an off-centre strike then costs
    nothing."""

    mass: float
    """kg, with the weights in its ports."""

    restitution: float = 0.82
    """e, the head's own: thin strong faces 0.82 to 0.83, ordinary ones 0.78 to 0.80 (assumption)."""

    spin_grip: float = 0.2
    """et, restitution along the face; 0 is a ball that just rolls (assumption: 0.2)."""

    cg_depth: float = 0.0
    """m from face to centre of mass, along the face normal."""

    moi_vertical: float = NO_INERTIA
    """kg m2 about the heel-toe axis: it resists a strike high or low."""

    moi_heel_toe: float = NO_INERTIA
    """kg m2 about the upright axis: it resists a strike toward heel or toe."""

    def __post_init__(self) -> None:
        """Refuse what no clubhead is; Problem says which figure and what would be taken."""
        if not 0.05 <= self.mass <= 1.0:
            raise Problem(f"a head of {self.mass * 1000:g} g is outside 50 to 1000 g; check the unit")
        if not 0.0 <= self.restitution <= 1.0:
            raise Problem(
                f"a restitution of {self.restitution:g} is outside 0 to 1; a fairway wood has about 0.82"
            )
        if not -1.0 <= self.spin_grip <= 1.0:
            raise Problem(
                f"a spin grip of {self.spin_grip:g} is outside -1 to 1; 0 is a ball that just rolls"
            )
        if not 0.0 <= self.cg_depth <= 0.1:
            raise Problem(f"a centre of mass {self.cg_depth * 1000:g} mm deep is outside 0 to 100 mm")
        if not (self.moi_vertical > 0.0 and self.moi_heel_toe > 0.0):
            raise Problem("an inertia must be above 0; leave it out when it is not known")


@dataclass(frozen=True, slots=True)
class Blow:
    """A blow in full: the launch, and what leaves the plane of flight."""

    launch: Launch
    """Ball speed, launch angle and backspin."""

    start: float
    """rad of direction off the path of the head; toward the toe is positive."""

    sidespin: float
    """rad/s; positive curves the ball back from the toe side toward the heel side."""


Impulses = tuple[float, float, float]
"""On the ball, N s: along the face normal, up the face, toward the toe."""


def _check(speed: float, spin_loft: float, toe: float, high: float) -> None:
    """Refuse a blow that no golfer strikes; Problem names the figure."""
    if not 0.0 < speed <= 80.0:
        raise Problem(f"a head speed of {speed:g} m/s is outside 0 to 80 m/s (179 mph); check it")
    if not -0.2 <= spin_loft <= 1.4:
        raise Problem(
            f"loft less attack angle is {math.degrees(spin_loft):.1f} deg, outside -11 to 80 deg; check both"
        )
    if not (-0.07 <= toe <= 0.07 and -0.05 <= high <= 0.05):
        raise Problem(
            f"a strike {toe * 1000:g} mm toeward and {high * 1000:g} mm high is off the face; check both"
        )


def strike(
    speed: float, delivered_loft: float, attack: float, head: Clubhead, toe: float = 0.0, high: float = 0.0
) -> Launch:
    """Return how the ball leaves a blow: head speed in m/s, angles in rad, offsets in m.

    `toe` is the distance toward the toe (either sign costs the same speed), `high` the distance up the face
    above the line through the centre of mass. Speed lost to both is combined in one matrix. Against
    published tour rows ball speed is within -3 to +0.4 mph and spin within 0.91 to 1.08 for 5-wood and up.
    Problem when a figure is one that no golfer strikes.
    """
    impulses = _impulses(speed, delivered_loft - attack, head, toe, high, 0.0)
    return _launched(impulses, delivered_loft)


def ball_speed(
    speed: float, delivered_loft: float, attack: float, head: Clubhead, toe: float = 0.0, high: float = 0.0
) -> float:
    """Return the ball speed of `strike` alone, m/s."""
    jn, jt, js = _impulses(speed, delivered_loft - attack, head, toe, high, 0.0)
    return math.hypot(math.hypot(jn, jt), js) / MASS


def blow(
    speed: float,
    delivered_loft: float,
    attack: float,
    head: Clubhead,
    toe: float = 0.0,
    high: float = 0.0,
    face: float = 0.0,
) -> Blow:
    """Return a blow in full: the launch of `strike`, and direction and sidespin besides (gear effect).

    `face` is how far in rad the face, where it is struck, looks toward the toe side of the path.
    """
    jn, jt, js = _impulses(speed, delivered_loft - attack, head, toe, high, face)
    side = atan2(js, math.hypot(jn, jt))
    return Blow(_launched((jn, jt, js), delivered_loft), face + side, 2.5 * js / (MASS * RADIUS))


def _launched(impulses: Impulses, delivered_loft: float) -> Launch:
    """Return the launch that three impulses give a ball."""
    jn, jt, js = impulses
    speed = math.hypot(math.hypot(jn, jt), js) / MASS
    return Launch(speed, delivered_loft + atan2(jt, jn), -2.5 * jt / (MASS * RADIUS))


def _impulses(speed: float, sigma: float, head: Clubhead, toe: float, high: float, face: float) -> Impulses:
    """Return the impulses of a blow by elimination: the two along the face couple to the normal one alone."""
    _check(speed, sigma, toe, high)
    turn_v, turn_s = high / head.moi_vertical, toe / head.moi_heel_toe
    depth, bare = head.cg_depth, 3.5 / MASS + 1.0 / head.mass
    normal = 1.0 / MASS + 1.0 / head.mass + high * turn_v + toe * turn_s
    up, side = bare + depth * depth / head.moi_vertical, bare + depth * depth / head.moi_heel_toe
    link_v, link_s = depth * turn_v, depth * turn_s
    slip = -(1.0 + head.spin_grip) * speed
    along, across = slip * sin(sigma), slip * sin(face)
    push = (1.0 + head.restitution) * speed * cos(sigma) * cos(face)
    jn = (push + link_v * along / up + link_s * across / side) / (
        normal - link_v * link_v / up - link_s * link_s / side
    )
    return jn, (along + link_v * jn) / up, (across + link_s * jn) / side
