"""Balance of a club: masses along the shaft, and what the 14-inch scale makes of them.

Positions run from the butt (the end of the grip cap) toward the head. The scale reads the moment
about a point 14 in from the butt: `sum of mass * (position - 14 in)`. Its lettering starts at
A0 = 161.00 oz*in, with 1.75 oz*in a point and ten points a letter, so that D0 = 213.50 oz*in
(table of the 14-inch scale in The Modern Guide to Golf Clubfitting, ch. 13; its author, J. Summitt,
is named from memory). No dependable conversion to the older 12-inch scale is known, and none is offered.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from rules.bench.problems import HeadTooNearFulcrum, InertiaOutOfReach, NoParts, TargetOutOfReach, require
from rules.units import UNITS

_INCH = UNITS["in"].factor
_OZ_IN = UNITS["oz*in"].factor

FULCRUM = 14 * _INCH
"""Where the scale's knife edge stands, m from the butt."""
POINT = 1.75 * _OZ_IN
"""Moment of one point, kg*m."""
D0 = 213.5 * _OZ_IN
"""Moment that reads D0, kg*m."""
LONGEST = 80 * _INCH
"""No part of a club lies farther from the butt than this, m."""
HEAVIEST = 2.0
"""No part of a club weighs more than this, kg."""


@dataclass(frozen=True, slots=True)
class Part:
    """One mass on the club: its centre at `position` from the butt, spread over `length` (SI)."""

    mass: float
    position: float
    length: float = 0.0
    name: str = ""

    def __post_init__(self) -> None:
        if not (
            0 <= self.mass <= HEAVIEST and -_INCH <= self.position <= LONGEST and 0 <= self.length <= LONGEST
        ):
            self._refuse()

    def _refuse(self) -> None:
        """Say which of the three is wrong."""
        called = self.name or "part"
        require(f"mass of the {called}", self.mass, 0, HEAVIEST, "g")
        require(f"place of the {called}", self.position, -_INCH, LONGEST, "in")
        require(f"length of the {called}", self.length, 0, LONGEST, "in")

    @property
    def moment(self) -> float:
        """Moment about the 14-inch mark, kg*m."""
        return self.mass * (self.position - FULCRUM)

    @property
    def inertia(self) -> float:
        """Inertia about the butt, kg*m2: m x^2, plus m L^2 / 12 for what is spread evenly over L."""
        return self.mass * (self.position * self.position + self.length * self.length / 12)


@dataclass(frozen=True, slots=True)
class Balance:
    """What scale, knife edge and pendulum say of a whole club (SI)."""

    total: float
    """Mass, kg."""
    moment: float
    """About the 14-inch mark, kg*m."""
    inertia: float | None = None
    """About the butt, kg*m2; None when only the whole club was weighed."""

    @property
    def points(self) -> float:
        """Swing weight in points from D0, exact."""
        return points(self.moment)

    @property
    def balance_point(self) -> float:
        """Where the club balances, m from the butt."""
        return FULCRUM + self.moment / self.total


def points(moment: float) -> float:
    """Swing weight in points from D0 of a moment (kg*m) about the 14-inch mark."""
    return (moment - D0) / POINT


def moment(points_from_d0: float) -> float:
    """Moment (kg*m) about the 14-inch mark of a swing weight in points from D0."""
    return D0 + points_from_d0 * POINT


def balance(parts: Iterable[Part]) -> Balance:
    """Add up the parts of a club; NoParts when they weigh nothing."""
    total = turning = inertia = 0.0
    for part in parts:
        total += part.mass
        turning += part.moment
        inertia += part.inertia
    if total <= 0:
        raise NoParts
    return Balance(total, turning, inertia)


def finished(total: float, balance_point: float) -> Balance:
    """Balance of a whole club from its mass (kg) and balance point (m from the butt); inertia unknown."""
    require("mass of the club", total, 0.001, HEAVIEST, "g")
    require("balance point", balance_point, 0, LONGEST, "in")
    return Balance(total, total * (balance_point - FULCRUM))


def mass_per_point(position: float) -> float:
    """Mass (kg) that moves the reading by one point at a place (m from the butt).

    `1.75 oz*in / (x - 14 in)`, which is 49.61 g*in / (x - 14 in): 1.6 g at 45 in, 1.77 g at 42 in.
    Inside 14 in mass lowers the reading, and the result is negative; at 14 in exactly there is none.
    """
    if abs(position - FULCRUM) < 1e-9:
        raise HeadTooNearFulcrum(position)
    return POINT / (position - FULCRUM)


def head_mass_for(target_points: float, others: Sequence[Part], position: float) -> float:
    """Head mass (kg) at `position` that makes the club read `target_points` from D0.

    Raises TargetOutOfReach when the other parts already read more, HeadTooNearFulcrum when the head
    would sit inside 14 in, OutOfRange when it would weigh more than any head.
    """
    require("target in points from D0", target_points, -200, 200, "points")
    if position <= FULCRUM:
        raise HeadTooNearFulcrum(position)
    without = sum(part.moment for part in others)
    mass = (moment(target_points) - without) / (position - FULCRUM)
    if mass < 0:
        raise TargetOutOfReach(target_points, points(without))
    return require("head mass that this target wants", mass, 0, HEAVIEST, "g")


def head_mass_for_inertia(target: float, others: Sequence[Part], position: float) -> float:
    """Head mass (kg) at `position` that gives the club this inertia (kg*m2) about the butt."""
    require("target inertia", target, 0, 10, "kg*cm2")
    require("place of the head", position, _INCH, LONGEST, "in")
    without = sum(part.inertia for part in others)
    mass = (target - without) / (position * position)
    if mass < 0:
        raise InertiaOutOfReach(target, without)
    return require("head mass that this inertia wants", mass, 0, HEAVIEST, "g")
