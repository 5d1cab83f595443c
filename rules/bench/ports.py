"""Which port takes how much: exact, in the pieces that the shop has.

The order of wishes is fixed: the balance error first, then the direction that the miss asks for, then
the fewest pieces. Places are given from the head's centre of mass: toward the toe, up, and back from the
face. The shift of the centre of mass is the mass-weighted mean of the places.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from rules.bench import port_search
from rules.bench.port_task import Found, Piece, Task
from rules.bench.problems import DuplicatePort, UnknownPlace, require
from rules.units import UNITS

_MM = UNITS["mm"].factor
_GRAIN = 1e-5
"""Masses are searched in hundredths of a gram, kg."""
_MICRON = 1e-6
"""Places are searched in micrometres, m."""


@dataclass(frozen=True, slots=True)
class Place:
    """A place, or a shift, from the head's centre of mass (m)."""

    toeward: float = 0.0
    upward: float = 0.0
    backward: float = 0.0


PLACES: Mapping[str, Place] = {
    "heel": Place(-30 * _MM, -10 * _MM, 0.0),
    "toe": Place(30 * _MM, -10 * _MM, 0.0),
    "rear": Place(0.0, -8 * _MM, 30 * _MM),
    "front": Place(0.0, -12 * _MM, -12 * _MM),
    "hosel": Place(-38 * _MM, 18 * _MM, -4 * _MM),
}
"""Assumption: where a port of this name sits when its head's own measure is not known.

Backward counts away from the face, so the rear port is positive and the front port negative.
"""


@dataclass(frozen=True, slots=True)
class Port:
    """A place on the head that takes pieces of mass; it is measured from the empty head's centre of mass."""

    name: str
    """The head's own name for the place: rear, front, sole, hosel, heel, toe."""
    capacity: float
    """The most mass it holds (kg), all pieces together."""
    toeward: float
    """Distance toward the toe (m); heel side is negative."""
    upward: float
    """Distance up, away from the ground (m)."""
    backward: float
    """Distance back, away from the face (m); in front of the centre is negative."""

    @classmethod
    def named(cls, name: str, capacity: float) -> Port:
        """Return a port at the usual place of its name; UnknownPlace for any other name."""
        place = PLACES.get(name)
        if place is None:
            raise UnknownPlace(name, tuple(PLACES))
        return cls(name, capacity, place.toeward, place.upward, place.backward)


@dataclass(frozen=True, slots=True)
class PieceStock:
    """Pieces of one mass (kg): how many there are (None: as many as wanted) and the ports they fit."""

    mass: float
    count: int | None = None
    fits: tuple[str, ...] = ()
    """Names of ports; empty means every port."""


@dataclass(frozen=True, slots=True)
class PortPlan:
    """What goes where (SI)."""

    pieces: Mapping[str, tuple[float, ...]]
    """Masses in each port, heaviest first, kg; every port of the head is named."""
    added: float
    """kg."""
    short_by: float
    """Mass wanted less mass added, kg; negative when it comes out too heavy."""
    cg_shift: Place
    """How far the head's centre of mass moves, m."""
    proved: bool
    """Whether nothing better exists; False only when the search was cut short."""
    plan: Mapping[str, float] = field(default_factory=dict)
    """Mass in each port that takes any, kg."""


def plan(
    need: float,
    ports: Sequence[Port],
    stock: Sequence[PieceStock],
    direction: Place | None = None,
    *,
    head_mass: float,
) -> PortPlan:
    """Place pieces in ports so that they come nearest to `need` (kg).

    Among equally near plans the one whose shift of the centre of mass lies farthest along `direction`
    wins (a vector of weights, of any length); without a direction, the one that moves it least to heel
    or toe. Then the fewest pieces, the lighter plan, mass in the earlier port. A need of nought or less
    gives an empty plan. Masses are searched to 0.01 g. Raises OutOfRange and DuplicatePort.
    """
    _check(need, ports, stock, head_mass)
    wish = direction or Place()
    sideways_only = not (wish.toeward or wish.upward or wish.backward)
    task = Task(
        need=round(need / _GRAIN),
        head=round(head_mass / _GRAIN),
        capacities=tuple(int(port.capacity / _GRAIN + 1e-6) for port in ports),
        values=tuple(_value(port, wish, sideways_only) for port in ports),
        stock=tuple(_piece(one, ports) for one in stock),
        centred=sideways_only,
    )
    found = port_search.solve(task)
    return _read_back(need, ports, found, head_mass)


def shift(loads: Sequence[tuple[Port, float]], head_mass: float) -> Place:
    """Shift (m) of the centre of mass of a head (kg) when these ports take these masses (kg)."""
    total = head_mass + sum(mass for _, mass in loads)
    return Place(
        sum(mass * port.toeward for port, mass in loads) / total,
        sum(mass * port.upward for port, mass in loads) / total,
        sum(mass * port.backward for port, mass in loads) / total,
    )


def _check(need: float, ports: Sequence[Port], stock: Sequence[PieceStock], head_mass: float) -> None:
    """Refuse what no head or stock can be."""
    require("mass to add", need, -0.2, 0.2, "g")
    require("head mass", head_mass, 0.05, 0.5, "g")
    names: set[str] = set()
    for port in ports:
        if port.name in names:
            raise DuplicatePort(port.name)
        names.add(port.name)
        require(f"capacity of port '{port.name}'", port.capacity, 0, 0.1, "g")
        for far in (port.toeward, port.upward, port.backward):
            require(f"place of port '{port.name}'", far, -0.15, 0.15, "mm")
    for one in stock:
        require("mass of a piece", one.mass, 1e-4, 0.1, "g")
        require("count of a piece", one.count or 0, 0, 10_000, "")


def _value(port: Port, wish: Place, sideways_only: bool) -> int:
    """Worth of a port per mass, in whole micrometres: along the wish, or out to the toe without one."""
    if sideways_only:
        return round(port.toeward / _MICRON)
    along = port.toeward * wish.toeward + port.upward * wish.upward + port.backward * wish.backward
    return round(along / _MICRON)


def _piece(one: PieceStock, ports: Sequence[Port]) -> Piece:
    """Turn one line of stock into what the search counts in."""
    fits = tuple(not one.fits or port.name in one.fits for port in ports)
    return Piece(round(one.mass / _GRAIN), one.count, fits)


def _read_back(need: float, ports: Sequence[Port], found: Found, head_mass: float) -> PortPlan:
    """Turn what the search found into kilograms and metres."""
    pieces = {
        port.name: tuple(mass * _GRAIN for mass in masses)
        for port, masses in zip(ports, found.pieces, strict=True)
    }
    loads = [(port, sum(masses) * _GRAIN) for port, masses in zip(ports, found.pieces, strict=True)]
    added = sum(mass for _, mass in loads)
    return PortPlan(
        pieces=pieces,
        added=added,
        short_by=need - added,
        cg_shift=shift(loads, head_mass),
        proved=found.proved,
        plan={port.name: mass for port, mass in loads if mass > 0},
    )
