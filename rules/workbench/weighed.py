"""Parts weighed before assembly: the plan put right before anything is glued."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.bench.build import SCALE_TOLERANCE
from rules.workbench.as_built import after_moves
from rules.workbench.faults import NothingKnown
from rules.workbench.mass import added
from rules.workbench.moves import Move, moves_to

if TYPE_CHECKING:
    from collections.abc import Mapping

    from rules.bench.build import Build
    from rules.shelf import Shelf
    from rules.workbench.club import Club


@dataclass(frozen=True, slots=True)
class Weighed:
    """What the scale says of parts before assembly, kg; None for what was not weighed."""

    head: float | None = None
    """Bare, its ports empty."""
    raw_shaft: float | None = None
    """Uncut."""
    grip: float | None = None


@dataclass(frozen=True, slots=True)
class Corrected:
    """A plan put right for the parts that lie on the bench."""

    build: Build
    """With the parts as weighed, and the pieces after the moves."""
    moves: tuple[Move, ...]
    """Pieces to leave out or to put in besides."""
    pieces: Mapping[str, tuple[float, ...]]
    left: float
    """Points off its target then."""


def corrected(club: Club, weighed: Weighed, shelf: Shelf) -> Corrected:
    """Return the plan for the parts as weighed: the fewest pieces changed that bring it back to target.

    `shelf` holds what is left in the tray. Raises NothingKnown for a club of unknown parts, and what the
    bench raises for a mass that no such part has.
    """
    head, plan = club.rung.spec.head, club.plan
    if club.build is None or head is None or plan is None:
        raise NothingKnown(club.role)
    build = _with(club.build, weighed)
    left = build.reading.points - club.target
    within = shelf.shop.swing_weight_tolerance
    moves, after = moves_to(left, within, build, head, plan, shelf.pieces)
    pieces = after_moves(plan.pieces, moves)
    made = build.with_added(*added(head, {port: sum(masses) for port, masses in pieces.items()}))
    return Corrected(made, moves, pieces, after)


def _with(build: Build, weighed: Weighed) -> Build:
    """Return the build with parts as weighed; a weighed part is known to the scale's own tolerance."""
    head, shaft, grip = build.head, build.shaft, build.grip
    if weighed.head is not None:
        head = replace(head, mass=weighed.head, mass_tolerance=SCALE_TOLERANCE)
    if weighed.raw_shaft is not None:
        shaft = replace(shaft, mass=weighed.raw_shaft, mass_tolerance=SCALE_TOLERANCE)
    if weighed.grip is not None:
        grip = replace(grip, mass=weighed.grip, mass_tolerance=SCALE_TOLERANCE)
    return replace(build, head=head, shaft=shaft, grip=grip)
