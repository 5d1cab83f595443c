"""Every mass of a club and where it sits, every port and what it holds, every figure with its spread."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.bench.build import up_shaft
from rules.workbench.spreads import spreads

if TYPE_CHECKING:
    from rules.bench.build import Build
    from rules.shelf.parts import Head
    from rules.workbench import Club


@dataclass(frozen=True, slots=True)
class PartRow:
    """One mass of the club."""

    name: str
    """head, shaft, grip, ferrule and glue, or the name of a port."""
    mass: float
    """kg."""
    position: float
    """m from the butt."""


@dataclass(frozen=True, slots=True)
class PortRow:
    """One port of the head: its place, its room, and what goes into it (SI)."""

    name: str
    capacity: float
    toeward: float
    upward: float
    backward: float
    pieces: tuple[float, ...]
    """Heaviest first, kg; empty where nothing goes in."""
    position: float
    """Along the shaft, m from the butt."""

    @property
    def mass(self) -> float:
        """All its pieces, kg."""
        return sum(self.pieces)


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of the finished club, by the sum, with one spread carried from the parts (SI, points)."""

    what: str
    """swing_weight, total, balance_point or inertia."""
    value: float
    spread: float
    symbol: str


def part_rows(build: Build) -> tuple[PartRow, ...]:
    """Return head, shaft, grip, ferrule and glue, then what each port takes."""
    count = len(build.without_head)
    rest, head, added = build.parts[:count], build.parts[count], build.parts[count + 1 :]
    return tuple(PartRow(part.name, part.mass, part.position) for part in (head, *rest, *added))


def port_rows(head: Head, club: Club) -> tuple[PortRow, ...]:
    """Return every port of a head in its own order, empty ones too."""
    build, plan = club.build, club.plan
    assert build is not None
    assert plan is not None
    return tuple(
        PortRow(
            port.name, port.capacity, port.toeward, port.upward, port.backward,
            plan.pieces.get(port.name, ()),
            build.head_position - up_shaft(port.toeward, port.upward, head.lie),
        )
        for port in head.ports
    )  # fmt: skip


def figures(build: Build) -> tuple[Figure, ...]:
    """Return what scale, knife edge and pendulum should say, each with its spread."""
    read, about = build.reading, spreads(build)
    return (
        Figure("swing_weight", read.points, about.points, "points"),
        Figure("total", read.total, about.total, "g"),
        Figure("balance_point", read.balance_point, about.balance_point, "in"),
        Figure("inertia", read.inertia or 0.0, about.inertia, "kg*cm2"),
    )
