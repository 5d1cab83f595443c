"""Driver head speed by the narrowest route there is, and claims held against what physics allows."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from rules.facts.known import NOTHING, Known, assumed, half_range
from rules.golf.impact import Clubhead
from rules.golf.speed import Swing, carry_ceiling, speed_for_carry
from rules.problems import Problem
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase

DIRECT = ("driver_speed", "fairway_speed")
"""Routes that are a head speed themselves; either is enough."""
DISTANCES = ("driver_carry", "seven_iron_carry", "fairway_carry")
"""Routes through a carry: claims until measured, and through physics at that."""
_PHYSICS_SPREAD = parse("3 mph", "m/s")
"""What the way back from a carry to a head speed adds to its spread (assumption)."""
_STEP = parse("5 yd", "m")
_SEVEN_IRON_LOFT = parse("32 deg", "rad")
_FAIRWAY_LOFT = parse("16 deg", "rad")


@dataclass(frozen=True, slots=True)
class Route:
    """One way to the driver's head speed: where it comes from, its value and its spread, m/s."""

    name: str
    speed: float
    spread: float


def driver_head(base: RuleBase) -> Clubhead:
    """Return the driver's head as far as a planar impact cares; its figures are assumptions."""
    return Clubhead(
        assumed(base, "driver-mass"), assumed(base, "driver-restitution"), assumed(base, "spin-grip")
    )


def iron_head(base: RuleBase) -> Clubhead:
    """Return an iron's head as far as a planar impact cares; its figures are assumptions."""
    return Clubhead(assumed(base, "iron-mass"), assumed(base, "iron-restitution"), assumed(base, "spin-grip"))


def _swing(base: RuleBase, asked: Mapping[str, Known], id: str) -> tuple[Swing, float]:
    """Return how the club of a carry is delivered, and its head speed as a share of the driver's."""
    attack = assumed(base, "attack-brush")
    if id == "driver_carry":
        loft = asked["driver_loft"].number + assumed(base, "driver-delivered-loft")
        return Swing(loft, 0.0, driver_head(base)), 1.0
    if id == "seven_iron_carry":
        loft = _SEVEN_IRON_LOFT + assumed(base, "iron-delivered-loft")
        return Swing(loft, attack, iron_head(base)), assumed(base, "speed-ratio-7-iron")
    return Swing(_FAIRWAY_LOFT, attack, _fairway_head(base)), assumed(base, "speed-ratio-3-wood")


def _from_carry(
    base: RuleBase, asked: Mapping[str, Known], id: str, density: float
) -> tuple[float, float] | None:
    """Return driver head speed and its spread from one carry, or None where no head speed reaches it."""
    told, (swing, ratio) = asked[id], _swing(base, asked, id)
    try:
        speed = _speed_for(told.number, swing, density)
        slope = _speed_for(told.number + _STEP, swing, density) - speed
    except Problem:
        return None
    return speed / ratio, math.hypot(slope / _STEP * told.spread / ratio, _PHYSICS_SPREAD)


@lru_cache(maxsize=512)
def _speed_for(carry: float, swing: Swing, density: float) -> float:
    """Remember the way back from a carry: it takes a dozen flights and answers come back often."""
    return speed_for_carry(carry, swing, density)


@lru_cache(maxsize=512)
def _ceiling(speed: float, density: float) -> float:
    """Remember the farthest carry of a head speed: it takes some forty flights."""
    return carry_ceiling(speed, density)


def _fairway_head(base: RuleBase) -> Clubhead:
    """Return a usual fairway-wood head for the way back from a carry."""
    return Clubhead(parse("212 g", "kg"), 0.81, assumed(base, "spin-grip"))


def routes(base: RuleBase, asked: Mapping[str, Known], density: float) -> tuple[Route, ...]:
    """Return every route that somebody's answer opens, narrowest first."""
    found = []
    if asked["driver_speed"].value is not None:
        found.append(Route("driver_speed", asked["driver_speed"].number, asked["driver_speed"].spread))
    if asked["fairway_speed"].value is not None:
        told, ratio = asked["fairway_speed"], assumed(base, "speed-ratio-3-wood")
        own = told.number / ratio * half_range(base, "speed-ratio-3-wood") / ratio / 2
        found.append(Route("fairway_speed", told.number / ratio, math.hypot(told.spread / ratio, own)))
    for id in DISTANCES:
        if asked[id].value is not None and (way := _from_carry(base, asked, id, density)) is not None:
            found.append(Route(id, *way))
    return tuple(sorted(found, key=lambda route: route.spread))


def speed_facts(
    base: RuleBase, asked: Mapping[str, Known], density: float, *, claims: bool = True
) -> dict[str, Known]:
    """Return driver head speed, where it comes from, and how far routes and (if wanted) claims disagree.

    A head speed that was told is enough: nothing further is waited for. After distances alone, the
    driver's head speed would still say more.
    """
    found = routes(base, asked, density)
    low, high = base.facts["driver_head_speed"].range
    open_routes = frozenset().union(*(asked[id].waits for id in (*DIRECT, *DISTANCES)))
    if not found:
        usual = assumed(base, "usual-driver-speed")
        best = Route("assumed", usual, half_range(base, "usual-driver-speed"))
        waits, how = open_routes, "assumed"
    else:
        best = found[0]
        direct = any(route.name in DIRECT for route in found)
        waits = NOTHING if direct else open_routes & {"driver_speed"}
        how = asked[best.name].how if best.name in DIRECT else "derived"
    apart = max(
        (abs(a.speed - b.speed) / math.hypot(a.spread, b.spread) for a in found for b in found), default=0.0
    )
    speed = Known(min(high, max(low, best.speed)), how, best.spread, waits)  # type: ignore[arg-type]
    facts = {
        "driver_head_speed": speed,
        "speed_route": Known(best.name, waits=waits),
        "speed_disagreement": Known(min(50.0, apart), waits=NOTHING),
    }
    return {**facts, "claimed_excess": _claim(base, asked, density)} if claims else facts


def _claim(base: RuleBase, asked: Mapping[str, Known], density: float) -> Known:
    """Return how far the claimed drive exceeds a perfect strike at the head speed that was told, m.

    Nothing is claimed too far while no head speed was told: then there is nothing to hold it against.
    """
    carry = asked["driver_carry"]
    told = asked["driver_speed"]
    if carry.value is None or told.value is None:
        return Known(0.0, waits=carry.waits | told.waits)
    ceiling = _ceiling(told.number, density)
    most = base.facts["claimed_excess"].range[1]
    return Known(min(most, max(0.0, carry.number - ceiling)))
