"""A finished club on scale and gauge: what its readings correct in the plan, and what they flag.

The plan is put right for the length that was read first. What the scale then says beyond it is mass:
how much, and about where it sits. Fewest pieces out or in bring the club back to its target.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.bench.balance import FULCRUM, Balance
from rules.bench.problems import BenchProblem
from rules.units import parse
from rules.workbench.checks import Check, checks, measured
from rules.workbench.faults import NothingKnown
from rules.workbench.moves import Move, moves_to

if TYPE_CHECKING:
    from rules.bench.build import Build
    from rules.facts.subject import Reading
    from rules.shelf import Shelf
    from rules.workbench.club import Club

_TOLD = parse("1 g", "kg")
"""Two readings of the scale; less mass than this tells of nothing."""
_NEAR = parse("5 in", "m")
"""How near to a part's own place the excess must sit to be laid to that part (house value)."""


@dataclass(frozen=True, slots=True)
class Excess:
    """Mass that the finished club has over its plan (negative: lacks)."""

    mass: float
    """kg."""
    position: float | None
    """About where it sits, m from the butt; None when only the total was read."""
    part: str
    """head, shaft or grip, whichever sits there; empty when it cannot be told."""


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """A finished club against its plan, and what puts it right."""

    role: str
    checks: tuple[Check, ...]
    read: Balance | None
    """What scale and knife edge say; None when they do not say the moment."""
    left: float | None
    """Swing weight read less the target, points."""
    excess: Excess | None
    """None where the masses agree, or were not read."""
    moves: tuple[Move, ...]
    """Pieces out or in; empty where nothing is to be done, or nothing would help."""
    after: float | None
    """Points off its target once the moves are made."""
    pieces: Mapping[str, tuple[float, ...]]
    """What each port holds then, heaviest first, kg."""
    within: float
    """How near to its target the shop builds, points."""

    @property
    def out(self) -> tuple[Check, ...]:
        """The figures that are out of what is allowed."""
        return tuple(check for check in self.checks if check.verdict == "out")

    @property
    def on_target(self) -> bool | None:
        """Whether it will read its target once the moves are made; None while nobody read it."""
        return None if self.after is None else abs(self.after) <= self.within + 1e-9

    def check(self, what: str) -> Check:
        """Return one figure."""
        return next(check for check in self.checks if check.what == what)


def as_built(club: Club, reading: Reading, shelf: Shelf) -> AsBuilt:
    """Hold a finished club's readings against its plan; whatever was not read is left out.

    `shelf` holds what is left in the tray once both clubs have taken their pieces; its shop says how near
    it builds. Raises NothingKnown for a club of unknown parts, ImpossibleReading and ReadingsDisagree for
    readings that cannot be, and what the bench raises for a length that cannot be built.
    """
    head, plan = club.rung.spec.head, club.plan
    if club.build is None or head is None or plan is None:
        raise NothingKnown(club.role)
    read = measured(club, club.build, reading)
    found = checks(club, club.build, reading, read, shelf.shop)
    within = shelf.shop.swing_weight_tolerance
    left = None if read is None else read.points - club.target
    moves: tuple[Move, ...] = ()
    after = left
    build = _at_length(club.build, reading)
    if left is not None:
        moves, after = moves_to(left, within, build, head, plan, shelf.pieces)
    return AsBuilt(
        role=club.role,
        checks=found,
        read=read,
        left=left,
        excess=excess(club.build, reading, read),
        moves=moves,
        after=after,
        pieces=after_moves(plan.pieces, moves),
        within=within,
    )


def _at_length(build: Build, reading: Reading) -> Build:
    """Return the plan at the length that was read; the planned one where the bench could not build it."""
    if reading.length is None:
        return build
    try:
        return replace(build, length=reading.length)
    except BenchProblem:
        return build


def excess(planned: Build, reading: Reading, read: Balance | None) -> Excess | None:
    """Return the mass found beyond the plan at the length read, and where its moment puts it."""
    if reading.total is None:
        return None
    build = _at_length(planned, reading)
    mass = reading.total - build.reading.total
    if abs(mass) <= _TOLD:
        return None
    if read is None:
        return Excess(mass, None, "")
    position = FULCRUM + (read.moment - build.reading.moment) / mass
    return Excess(mass, position, _part_at(build, position))


def _part_at(build: Build, position: float) -> str:
    """Return the part that sits where the excess does; empty when none is near."""
    places = {"head": build.head_position, "shaft": build.cut_shaft.position, "grip": build.grip.centre}
    name = min(places, key=lambda part: abs(places[part] - position))
    return name if abs(places[name] - position) <= _NEAR else ""


def after_moves(
    pieces: Mapping[str, tuple[float, ...]], moves: tuple[Move, ...]
) -> dict[str, tuple[float, ...]]:
    """Return what each port holds once the moves are made."""
    held = {port: list(masses) for port, masses in pieces.items()}
    for move in moves:
        if move.out:
            held[move.port].remove(min(held[move.port], key=lambda mass: abs(mass - move.mass)))
        else:
            held[move.port].append(move.mass)
    return {port: tuple(sorted(masses, reverse=True)) for port, masses in held.items()}
