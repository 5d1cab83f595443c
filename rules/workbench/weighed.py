"""Parts weighed before assembly, and the screws: the plan put right before anything is glued."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.bench.build import SCALE_TOLERANCE
from rules.bench.ports import shift
from rules.units import parse, words
from rules.workbench.as_built import after_moves
from rules.workbench.checks import Check
from rules.workbench.faults import ImpossibleReading, NothingKnown
from rules.workbench.mass import added
from rules.workbench.moves import Move, moves_to
from rules.workbench.shared import left_after

if TYPE_CHECKING:
    from rules.bench.build import Build
    from rules.bench.ports import PortPlan
    from rules.facts.subject import Reading
    from rules.shelf import Shelf
    from rules.shelf.parts import Head
    from rules.workbench.club import Club

_FARTHEST = parse("25 g", "kg")
"""A part farther off its catalogued mass than this is another part (house value)."""
_GRIP_ALLOWED = parse("2 g", "kg")
"""House value: grips of one sort differ by this."""
_LET_GO = 0.2
"""House value: screws that turn at a fifth less than they were set to have begun to let go."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """What the scale says of parts before assembly, kg; None for what was not weighed."""

    head: float | None = None
    """Bare, its ports empty."""
    raw_shaft: float | None = None
    """Uncut."""
    grip: float | None = None

    @property
    def nothing(self) -> bool:
        """Whether no part was weighed."""
        return self.head is None and self.raw_shaft is None and self.grip is None


@dataclass(frozen=True, slots=True)
class Corrected:
    """A plan put right for the parts that lie on the bench."""

    club: Club
    """The club with the parts as weighed, and the pieces after the moves."""
    moves: tuple[Move, ...]
    """Pieces to leave out or to put in besides."""
    before: float
    """Points off its target with these parts and the pieces first planned."""

    @property
    def build(self) -> Build:
        """The finished club on paper."""
        assert self.club.build is not None
        return self.club.build

    @property
    def pieces(self) -> Mapping[str, tuple[float, ...]]:
        """What each port holds then, heaviest first, kg."""
        assert self.club.plan is not None
        return self.club.plan.pieces

    @property
    def left(self) -> float:
        """Points off its target then."""
        return self.club.left


def weighed(reading: Reading) -> Weighed:
    """Return what was weighed before assembly."""
    return Weighed(reading.head, reading.raw_shaft, reading.grip)


def part_checks(club: Club, reading: Reading) -> tuple[Check, ...]:
    """Return each part against the catalogue, and the screws against what they were set to.

    Raises NothingKnown for a club of unknown parts, and ImpossibleReading for a mass that no such part has.
    """
    build = club.build
    if build is None:
        raise NothingKnown(club.role)
    found = (
        Check("head", build.head.mass, reading.head, build.head.mass_tolerance, "g"),
        Check("raw_shaft", build.shaft.mass, reading.raw_shaft, build.shaft.mass_tolerance, "g"),
        Check("grip", build.grip.mass, reading.grip, _GRIP_ALLOWED, "g"),
    )
    for check in found:
        if abs(check.difference) > _FARTHEST:
            read, planned = (words(v, "g") for v in (check.planned + check.difference, check.planned))
            raise ImpossibleReading(club.role, check.what.replace("_", " "), read, planned)
    if reading.torque is None:
        return found
    return (
        *found, Check("torque", reading.torque, reading.torque_again, _LET_GO * reading.torque, "in*lbf")
    )  # fmt: skip


def corrected(club: Club, parts: Weighed, shelf: Shelf) -> Corrected:
    """Return the plan for the parts as weighed: the fewest pieces changed that bring it back to target.

    `shelf` holds what is left in the tray. Raises NothingKnown for a club of unknown parts, and what the
    bench raises for a mass that no such part has.
    """
    head, plan = club.rung.spec.head, club.plan
    if club.build is None or head is None or plan is None:
        raise NothingKnown(club.role)
    build = _with(club.build, parts)
    before = build.reading.points - club.target
    moves, _ = moves_to(before, shelf.shop.swing_weight_tolerance, build, head, plan, shelf.pieces)
    pieces = after_moves(plan.pieces, moves)
    held = {port: sum(masses) for port, masses in pieces.items()}
    made = build.with_added(*added(head, held))
    needed = build.with_added().need(club.target)
    spec = replace(club.rung.spec, impact_mass=made.head.mass + sum(held.values()))
    return Corrected(
        replace(
            club,
            rung=replace(club.rung, spec=spec),
            build=made,
            reading=made.reading,
            plan=_plan(plan, head, made.head.mass, pieces, needed),
            needed=needed,
            left=made.reading.points - club.target,
        ),
        moves,
        before,
    )


def _plan(
    plan: PortPlan, head: Head, mass: float, pieces: Mapping[str, tuple[float, ...]], needed: float
) -> PortPlan:
    """Return the plan of the ports with other pieces in them; it is no longer proved to be the best."""
    loads = [(port, sum(pieces[port.name])) for port in head.ports]
    held = sum(one for _, one in loads)
    return replace(
        plan, pieces=pieces, added=held, short_by=needed - held, cg_shift=shift(loads, mass), proved=False,
        plan={port.name: one for port, one in loads if one > 0},
    )  # fmt: skip


def as_weighed(
    clubs: Sequence[Club], readings: Mapping[str, Reading], shelf: Shelf
) -> tuple[Corrected | None, ...]:
    """Return each club put right for its parts as weighed; None for one of which no part was, or his own.

    The clubs share a tray: what comes out of the first may go into the second. Raises what `part_checks`
    and `corrected` raise.
    """
    now = list(clubs)
    found: list[Corrected | None] = []
    for place, club in enumerate(clubs):
        reading = readings.get(club.role)
        if reading is None or club.build is None or weighed(reading).nothing:
            found.append(None)
            continue
        part_checks(club, reading)
        one = corrected(club, weighed(reading), left_after(shelf, now))
        now[place] = one.club
        found.append(one)
    return tuple(found)


def _with(build: Build, parts: Weighed) -> Build:
    """Return the build with parts as weighed; a weighed part is known to the scale's own tolerance."""
    head, shaft, grip = build.head, build.shaft, build.grip
    if parts.head is not None:
        head = replace(head, mass=parts.head, mass_tolerance=SCALE_TOLERANCE)
    if parts.raw_shaft is not None:
        shaft = replace(shaft, mass=parts.raw_shaft, mass_tolerance=SCALE_TOLERANCE)
    if parts.grip is not None:
        grip = replace(grip, mass=parts.grip, mass_tolerance=SCALE_TOLERANCE)
    return replace(build, head=head, shaft=shaft, grip=grip)
