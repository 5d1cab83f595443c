"""A club put together on paper: parts, cuts and added mass to what the scale will read."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

from rules.bench.balance import FULCRUM, POINT, Balance, Part, balance, head_mass_for
from rules.bench.cuts import CAP, Cuts, bottom_to_ground, check_tip, cut_length, cuts
from rules.bench.problems import require
from rules.bench.rules_of_golf import check_length
from rules.bench.shaft import piece
from rules.units import UNITS

_INCH = UNITS["in"].factor
_GRAM = UNITS["g"].factor

SETBACK = 0.6 * _INCH
"""Assumption: how far short of the length mark a wood head's centre of mass projects on the shaft, m.

Range 0 to 1.4 in; bench accounts differ, and a shop calibrates it from its own finished clubs.
"""
GLUE_AND_FERRULE = 4 * _GRAM
"""Assumption: ferrule and epoxy, kg (common practice 3 to 5 g)."""
GRIP_CENTRE = 4 * _INCH
"""Where a grip balances, m from the butt (common practice)."""
LENGTH_TOLERANCE = _INCH / 16
"""A bench ruler's playing length, m (common practice)."""
SCALE_TOLERANCE = 0.5 * _GRAM
"""A part weighed on the bench scale, kg (house value)."""


@dataclass(frozen=True, slots=True)
class Head:
    """A head: mass, where its centre of mass falls on the shaft, and how it takes the shaft (SI)."""

    mass: float
    setback: float = SETBACK
    """How far short of the length mark its centre of mass projects on the shaft, m."""
    hosel_length: float = 2.375 * _INCH
    """Ground to top of hosel, m."""
    insertion: float = 1.125 * _INCH
    """How deep the shaft goes in, m."""
    mass_tolerance: float = SCALE_TOLERANCE
    """2 to 3 g as delivered, half a gram once weighed, kg."""
    setback_tolerance: float = 0.0
    """How far the setback may be out, m; up to 0.8 in before a shop has calibrated it."""

    def __post_init__(self) -> None:
        require("head mass", self.mass, 0, 0.5, "g")
        require("setback", self.setback, -1 * _INCH, 3 * _INCH, "in")

    @property
    def bottom_to_ground(self) -> float:
        """Bottom of bore to ground, m."""
        return bottom_to_ground(self.hosel_length, self.insertion)


@dataclass(frozen=True, slots=True)
class Shaft:
    """A raw shaft and its tip trim (SI)."""

    mass: float
    raw_length: float
    balance: float = 0.5
    """Balance point as a share of its raw length from the butt (0.35 to 0.65)."""
    tip_trim: float = 0.0
    parallel_tip: float | None = None
    """Length of the parallel tip, m; None when unknown."""
    mass_tolerance: float = SCALE_TOLERANCE


@dataclass(frozen=True, slots=True)
class Grip:
    """A grip: mass (kg) and balance point (m from the butt)."""

    mass: float
    centre: float = GRIP_CENTRE
    mass_tolerance: float = SCALE_TOLERANCE


@dataclass(frozen=True, slots=True)
class Added:
    """Mass added at the head (kg), sitting `up_shaft` (m) nearer the butt than the head's centre of mass."""

    mass: float
    up_shaft: float = 0.0
    name: str = "added"


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How far the finished club may be from the sum, from the parts' own tolerances (one spread)."""

    points: float
    total: float
    """kg."""


@dataclass(frozen=True)
class Build:
    """A club of a playing length (m) from its parts; everything else follows.

    Building raises OutOfRange, BeyondTheRules, ShaftTooShort or TipTrimTooLong.
    """

    length: float
    head: Head
    shaft: Shaft
    grip: Grip
    added: tuple[Added, ...] = ()
    glue_and_ferrule: float = GLUE_AND_FERRULE
    cap: float = CAP
    length_tolerance: float = LENGTH_TOLERANCE

    def __post_init__(self) -> None:
        check_length(self.length)
        if self.shaft.parallel_tip is not None:
            check_tip(self.shaft.parallel_tip, self.shaft.tip_trim, self.head.insertion)
        self.parts  # noqa: B018  # refuses what cannot be built now rather than when it is read

    @cached_property
    def cuts(self) -> Cuts:
        """Tip and butt cuts, and the finished shaft's length."""
        wanted = cut_length(self.length, self.head.bottom_to_ground, self.cap)
        return cuts(self.shaft.raw_length, self.shaft.tip_trim, wanted)

    @cached_property
    def cut_shaft(self) -> Part:
        """Return the shaft as it sits in the club."""
        raw, cut = self.shaft, self.cuts
        left = piece(raw.mass, raw.raw_length, raw.balance, cut.butt, raw.raw_length - cut.tip)
        return Part(left.mass, left.centre - cut.butt + self.cap, cut.length, "shaft")

    @property
    def head_position(self) -> float:
        """Where the head's centre of mass falls on the shaft, m from the butt."""
        return self.length - self.head.setback

    @cached_property
    def without_head(self) -> tuple[Part, ...]:
        """Every part but head and added mass."""
        top_of_hosel = self.length - self.head.hosel_length
        return (
            self.cut_shaft,
            Part(self.grip.mass, self.grip.centre, name="grip"),
            Part(self.glue_and_ferrule, top_of_hosel, name="ferrule and glue"),
        )

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        """Every mass of the club."""
        at = self.head_position
        head = Part(self.head.mass, at, name="head")
        more = (Part(one.mass, at - one.up_shaft, name=one.name) for one in self.added)
        return (*self.without_head, head, *more)

    @cached_property
    def reading(self) -> Balance:
        """What scale, knife edge and pendulum should say of the finished club."""
        return balance(self.parts)

    def head_mass_for(self, target_points: float) -> float:
        """Mass (kg) that the head, ports and all, needs for a swing weight in points from D0."""
        return head_mass_for(target_points, self.without_head, self.head_position)

    def need(self, target_points: float) -> float:
        """Mass (kg) still to add at the head's centre for a swing weight; negative when it is too heavy."""
        short = target_points - self.reading.points
        return short * POINT / (self.head_position - FULCRUM)

    def with_added(self, *added: Added) -> Build:
        """Return the same club with this mass added at the head, in place of what was added before."""
        return replace(self, added=added)

    @cached_property
    def tolerance(self) -> Tolerance:
        """One spread of reading and total: the parts' own tolerances, taken as independent."""
        head, shaft, grip = self.head, self.shaft, self.grip
        heavy = head.mass + sum(one.mass for one in self.added)
        turns = (
            head.mass_tolerance * (self.head_position - FULCRUM),
            heavy * math.hypot(self.length_tolerance, head.setback_tolerance),
            shaft.mass_tolerance * (self.cut_shaft.position - FULCRUM),
            grip.mass_tolerance * (grip.centre - FULCRUM),
        )
        masses = (head.mass_tolerance, shaft.mass_tolerance, grip.mass_tolerance)
        return Tolerance(math.hypot(*turns) / POINT, math.hypot(*masses))


def up_shaft(toeward: float, upward: float, lie: float) -> float:
    """Distance (m) along the shaft toward the butt of a place given from the head's centre of mass.

    The shaft leans from the heel at `lie` (rad) to the ground, so a place higher or nearer the heel lies
    nearer the butt: `upward sin(lie) - toeward cos(lie)`.
    """
    return upward * math.sin(lie) - toeward * math.cos(lie)
