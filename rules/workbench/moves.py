"""The least work that brings a finished club to its target: pieces taken out, put in, or changed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from rules.bench.balance import FULCRUM, POINT
from rules.bench.build import up_shaft

if TYPE_CHECKING:
    from rules.bench.build import Build
    from rules.bench.ports import PortPlan
    from rules.shelf.parts import Head, Piece

_ROUND = 1e-9


@dataclass(frozen=True, slots=True)
class Move:
    """One piece that goes in or comes out."""

    port: str
    mass: float
    """kg, positive."""
    out: bool
    points: float
    """What it does to the reading."""


def moves_to(
    left: float, within: float, build: Build, head: Head, plan: PortPlan, tray: Sequence[Piece]
) -> tuple[tuple[Move, ...], float]:
    """Return the fewest moves that bring a reading `left` points over its target within so much of it.

    At most two pieces out and two in. Returns them with the points left after them; where nothing comes
    within, the moves that come nearest. No move is made for a reading that is within already.
    """
    outs = [
        _move(head, build, port, mass, out=True) for port, masses in plan.pieces.items() for mass in masses
    ]
    ins = [
        _move(head, build, port.name, piece.mass, out=False)
        for port in head.ports
        for piece in tray
        if piece.in_stock and piece.goes_in(port.name) and piece.mass <= port.capacity + _ROUND
    ]
    best: tuple[Move, ...] = ()
    rank = _rank(left, within, best)
    for moves in _choices(outs, ins, left):
        after = left + sum(move.points for move in moves)
        here = _rank(after, within, moves)
        if here < rank and _holds(head, plan, moves) and _stocked(tray, moves):
            best, rank = moves, here
    return best, left + sum(move.points for move in best)


def _rank(left: float, within: float, moves: Sequence[Move]) -> tuple[float, int, float]:
    """Rank plans: within the tolerance all are alike but for the work; outside it the nearest first."""
    beyond = max(abs(left) - within, 0.0)
    return round(beyond, 6), len(moves), abs(left)


def _move(head: Head, build: Build, port: str, mass: float, *, out: bool) -> Move:
    """Return what a piece in a port does to the reading when it goes in or comes out."""
    place = next(one for one in head.ports if one.name == port)
    lever = build.head_position - up_shaft(place.toeward, place.upward, head.lie) - FULCRUM
    return Move(port, mass, out, (-mass if out else mass) * lever / POINT)


def _choices(outs: Sequence[Move], ins: Sequence[Move], left: float) -> Iterator[tuple[Move, ...]]:
    """Yield sets of moves, little work first; only pairs that pull the right way are worth two of a sort."""
    too_heavy = left > 0
    yield from ((one,) for one in (outs if too_heavy else ins))
    yield from ((one, other) for one in outs for other in ins)
    if too_heavy:
        yield from combinations(outs, 2)
        yield from ((*two, one) for two in combinations(outs, 2) for one in ins)
    else:
        yield from combinations(ins, 2)
        yield from ((one, *two) for one in outs for two in combinations(ins, 2))


def _holds(head: Head, plan: PortPlan, moves: Sequence[Move]) -> bool:
    """Say whether every port still holds no more than it can."""
    for port in head.ports:
        change = sum(-m.mass if m.out else m.mass for m in moves if m.port == port.name)
        if plan.plan.get(port.name, 0.0) + change > port.capacity + _ROUND:
            return False
    return True


def _stocked(tray: Sequence[Piece], moves: Sequence[Move]) -> bool:
    """Say whether the tray has what goes in; what comes out may go back in elsewhere."""
    for piece in tray:
        wanted = sum(abs(m.mass - piece.mass) < _ROUND for m in moves if not m.out)
        freed = sum(abs(m.mass - piece.mass) < _ROUND for m in moves if m.out)
        if piece.count is not None and wanted > piece.count + freed:
            return False
    return True
