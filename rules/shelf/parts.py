"""The parts on a shelf: heads with their ports, shafts, grips and pieces of added mass.

SI throughout (m, kg, rad, kg*m2). Heel and toe stay heel and toe for either hand.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from rules.bench import ports

Kind = Literal["fairway", "hybrid"]
"""The two kinds of club that are hit off the turf below the driver."""
Hand = Literal["right", "left"]
"""The hand a head is made for."""
Node = tuple[float, float]
"""A point of a straight-line table: (loft in rad, length in m)."""

TRIM_STEP = 0.0254 / 8
"""Tip trims are marked on the bench to an eighth of an inch (common practice)."""


def between_nodes(nodes: tuple[Node, ...], at: float) -> float:
    """Read a table of rising nodes by straight lines; flat beyond its ends (never extrapolated)."""
    if at <= nodes[0][0]:
        return nodes[0][1]
    for (x0, y0), (x1, y1) in pairwise(nodes):
        if at <= x1:
            return y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    return nodes[-1][1]


def piece_id(mass: float) -> str:
    """Name a piece by its mass (kg): `1.5 g`."""
    return f"{round(mass * 1000, 3):g} g"


@dataclass(frozen=True, slots=True)
class Port(ports.Port):
    """A port of a catalogued head."""

    assumed: frozenset[str] = frozenset()
    """Fields the cataloguer left out."""


@dataclass(frozen=True, slots=True)
class Head:
    """A club head as it lies in the drawer, its ports empty."""

    id: str
    """Plain lowercase name, unique on the shelf."""
    label: str
    """What a person calls it."""
    kind: Kind
    """Fairway wood or hybrid."""
    hand: Hand
    """The hand it is made for."""
    loft: float
    """Pitch of the face at its centre, soled square (rad)."""
    lie: float
    """Shaft to ground (rad)."""
    face_angle: float
    """Where the face looks when soled (rad): closed positive, open negative, square nought."""
    mass: float
    """Mass with empty ports (kg)."""
    face_height: float
    """Sole to the top of the face at its centre, up the face (m)."""
    cg_up_face: float
    """Where the centre of mass projects on the face, *up the face from the leading edge* (m).

    The same datum as the height at which the face meets the ball (`contact`), so that their
    difference is the lever of a high or low strike.
    """
    cg_depth: float
    """Centre of mass behind the face, along the face normal (m)."""
    cg_toward_toe: float
    """Centre of mass from the shaft axis, toward the toe (m)."""
    moi_heel_toe: float
    """Inertia against twisting by heel and toe strikes, about the vertical through its centre (kg*m2)."""
    moi_vertical: float
    """Inertia against twisting by high and low strikes, about the heel-toe axis (kg*m2)."""
    restitution: float
    """Restitution of ball and face at the face centre (0 to 1)."""
    hosel_length: float
    """Ground to the top of the hosel, along the shaft axis (m)."""
    bore: float
    """Inside diameter of the hosel (m)."""
    insertion: float
    """Depth of shaft in the hosel (m); bottom of bore to ground is hosel length less this."""
    sole_width: float
    """Sole, leading edge to trailing edge at its middle (m)."""
    sole_camber: float
    """Height of the sole's arc, leading edge to trailing edge (m)."""
    offset: float
    """Leading edge behind the front of the hosel (m)."""
    loft_tolerance: float
    """How far a delivered head's loft may be from its stamp (rad, either way)."""
    mass_tolerance: float
    """How far a delivered head's mass may be from this (kg, either way)."""
    count: int | None
    """How many are in the drawer; None when they are not counted."""
    ports: tuple[Port, ...]
    """Where mass can be added."""
    assumed: frozenset[str] = frozenset()
    """Names of the fields that the cataloguer left out and a declared default fills."""

    @property
    def capacity(self) -> float:
        """All the mass its ports hold together (kg)."""
        return math.fsum(port.capacity for port in self.ports)

    @property
    def bore_to_ground(self) -> float:
        """Bottom of the bore to the ground (m): hosel length less insertion depth."""
        return self.hosel_length - self.insertion

    @property
    def in_stock(self) -> bool:
        """Whether at least one is there (or nobody counts)."""
        return self.count is None or self.count > 0


@dataclass(frozen=True, slots=True)
class Shaft:
    """A raw shaft, as weighed and measured before any cut."""

    id: str
    """Plain lowercase name, unique on the shelf."""
    label: str
    """What a person calls it."""
    made_for: Kind
    """Which kind of club it is made for (`for` in the catalogue)."""
    mass: float
    """Mass uncut (kg)."""
    raw_length: float
    """Length uncut (m)."""
    balance: float
    """Balance point, as a share of the length from the butt (0 to 1)."""
    tip: float
    """Outside diameter of the tip (m)."""
    taper: bool
    """True for a taper tip, which is never trimmed at the tip; False for a parallel one."""
    parallel_tip: float
    """Length of the parallel section at the tip (m); nought for a taper tip."""
    flex: str
    """L, A, R, S or X: a starting point, no standard exists."""
    trim: tuple[Node, ...]
    """Tip trim by loft: nodes of (loft, trim), straight lines between."""
    bore_note: str
    """What the bench should know about its tip; may be empty."""
    mass_tolerance: float
    """How far a delivered shaft's mass may be from this (kg, either way)."""
    count: int | None
    """How many are in the rack; None when they are not counted."""
    assumed: frozenset[str] = frozenset()
    """Names of the fields that the cataloguer left out and a declared default fills."""

    def tip_trim(self, loft: float) -> float:
        """Tip trim (m) for a club of this loft (rad), to an eighth of an inch; flat beyond the table."""
        return round(between_nodes(self.trim, loft) / TRIM_STEP) * TRIM_STEP if self.trim else 0.0

    @property
    def in_stock(self) -> bool:
        """Whether at least one is there (or nobody counts)."""
        return self.count is None or self.count > 0


@dataclass(frozen=True, slots=True)
class Grip:
    """A grip, before it is slid on."""

    id: str
    """Plain lowercase name, unique on the shelf."""
    label: str
    """What a person calls it."""
    mass: float
    """Mass (kg)."""
    length: float
    """Length, cap included (m)."""
    balance: float
    """Its own centre of mass from the butt (m)."""
    core: float
    """Inside diameter at the mouth (m); a smaller core on the same butt ends up thicker."""
    size: str
    """undersize, standard, midsize or oversize."""
    count: int | None
    """How many are there; None when they are not counted."""
    assumed: frozenset[str] = frozenset()
    """Names of the fields that the cataloguer left out and a declared default fills."""

    @property
    def in_stock(self) -> bool:
        """Whether at least one is there (or nobody counts)."""
        return self.count is None or self.count > 0


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of mass for a port."""

    mass: float
    """Mass (kg); it is also its name, so no two pieces on a shelf weigh the same."""
    count: int | None
    """How many are in the tray; None when there is no limit."""
    fits: tuple[str, ...]
    """Names of the ports it fits; empty means any port."""
    assumed: frozenset[str] = frozenset()
    """Names of the fields that the cataloguer left out."""

    @property
    def id(self) -> str:
        """Its name: the mass in grams, such as `1.5 g`."""
        return piece_id(self.mass)

    @property
    def in_stock(self) -> bool:
        """Whether at least one is there (or nobody counts)."""
        return self.count is None or self.count > 0

    def goes_in(self, port: str) -> bool:
        """Say whether it fits a port of this name."""
        return not self.fits or port in self.fits
