"""Which pieces go where so that the finished club itself reads its target, each port by its own lever.

`ports.plan` counts a gram the same in every port. A hosel port sits up the shaft, where a gram moves the
reading a twentieth less, and a toe port down it. So the plan is read again as a whole club, and what it
misses is asked for once more, until nothing is gained.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from rules.bench import ports
from rules.bench.balance import mass_per_point
from rules.bench.build import Added, Build, up_shaft
from rules.units import parse

if TYPE_CHECKING:
    from rules.shelf.parts import Head, Piece

WITHIN = 0.5
"""How near to its target a club is built where stock allows, points (house setting)."""
_ENOUGH = 0.1
"""Nearer than this no scale reads, points."""
_TRIES = 4
_GRAIN = 1e-5
"""Needs are told apart to this, as the port search does, kg."""
_STEP = parse("0.25 g", "kg")
_STEPS = 6
"""How far about the need other totals are tried, in steps; levers differ by less than this is worth."""


@dataclass(frozen=True, slots=True)
class Planned:
    """Pieces in ports, and the club that they make."""

    build: Build
    plan: ports.PortPlan
    """Its `short_by` counts a gram the same in every port; `left` is what the scale would say."""
    needed: float
    """Mass that the target asks for at the head's own centre, kg; negative when it is too heavy already."""
    left: float
    """Swing weight of the build less its target, points."""


def plan_mass(
    bare: Build, head: Head, pieces: Iterable[Piece], target: float, towards: ports.Place | None
) -> Planned:
    """Choose pieces for a build with empty ports so that it reads nearest to `target` (points from D0).

    Balance first, then the direction, then few pieces, as `ports.plan` does; None is no direction, which
    moves the centre of mass least to heel or toe. Raises what the bench raises for an absurd need.
    """
    needed = bare.need(target)
    tried = _Tries(bare, head, stock_of(pieces), target, needed)
    found = tried.corrected(towards)
    if abs(found.left) > WITHIN and needed > 0:
        return tried.wider(found, towards)
    return found


@dataclass(frozen=True, slots=True)
class _Tries:
    """One club to be weighted, tried with one need after another."""

    bare: Build
    head: Head
    stock: tuple[ports.PieceStock, ...]
    target: float
    needed: float

    def made(self, ask: float, towards: ports.Place | None) -> Planned:
        """Plan for a need, and read the club that comes of it."""
        plan = _plan(
            round(ask / _GRAIN), self.head.ports, self.stock, towards, round(self.head.mass / _GRAIN)
        )
        build = self.bare.with_added(*added(self.head, plan.plan))
        left = build.reading.points - self.target
        return Planned(build, replace(plan, short_by=self.needed - plan.added), self.needed, left)

    def corrected(self, towards: ports.Place | None) -> Planned:
        """Ask again for what the club misses, as long as that brings it nearer."""
        per_point = mass_per_point(self.bare.head_position)
        ask, best = self.needed, self.made(self.needed, towards)
        for _ in range(_TRIES):
            if abs(best.left) <= _ENOUGH:
                break
            ask -= best.left * per_point
            again = self.made(ask, towards)
            if abs(again.left) >= abs(best.left) - 1e-9:
                break
            best = again
        return best

    def could_move(self, found: Planned, towards: ports.Place | None) -> bool:
        """Say whether another total is to be had at all: neither full nor empty already."""
        far = _STEPS * _STEP
        ask = self.needed + (far if found.left < 0 else -far)
        return not math.isclose(self.made(ask, towards).plan.added, found.plan.added, abs_tol=_GRAIN)

    def wider(self, found: Planned, towards: ports.Place | None) -> Planned:
        """Try other totals and other places for them until one is near enough.

        Places: as wished, spread, and the ports nearest to and farthest from the butt. Where no other
        total is to be had, the same pieces may still read nearer in other ports.
        """
        asks = self._asks() if self.could_move(found, towards) else (self.needed,)
        for ask in asks:
            for wish in (towards, None, *self._along_shaft()):
                again = self.made(ask, wish)
                if abs(again.left) < abs(found.left) - 1e-9:
                    found = again
                if abs(found.left) <= WITHIN:
                    return found
        return found

    def _asks(self) -> Iterator[float]:
        """Yield needs about the need, nearest first."""
        yield self.needed
        for step in range(1, _STEPS + 1):
            yield self.needed - step * _STEP
            yield self.needed + step * _STEP

    def _along_shaft(self) -> tuple[ports.Place, ports.Place]:
        """Return the two directions in which a gram reads most and least."""
        down = ports.Place(math.cos(self.head.lie), -math.sin(self.head.lie), 0.0)
        return down, ports.Place(-down.toeward, -down.upward, 0.0)


@lru_cache(maxsize=512)
def _plan(
    need: int,
    places: tuple[ports.Port, ...],
    stock: tuple[ports.PieceStock, ...],
    towards: ports.Place | None,
    head_mass: int,
) -> ports.PortPlan:
    """Remember plans: most answers change neither need nor head nor stock. Masses in `_GRAIN`."""
    return ports.plan(need * _GRAIN, places, stock, towards, head_mass=head_mass * _GRAIN)


def stock_of(pieces: Iterable[Piece]) -> tuple[ports.PieceStock, ...]:
    """Return the pieces that are there as the bench takes them."""
    return tuple(ports.PieceStock(p.mass, p.count, p.fits) for p in pieces if p.in_stock)


def added(head: Head, masses: Mapping[str, float]) -> list[Added]:
    """Return the mass in each port (kg, by name) where it sits along the shaft."""
    return [
        Added(masses[p.name], up_shaft(p.toeward, p.upward, head.lie), p.name)
        for p in head.ports
        if masses.get(p.name)
    ]
