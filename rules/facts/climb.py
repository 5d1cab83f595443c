"""How many balls get up says how much loft is delivered: clean strikes that stay low lack it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from rules.facts.known import assumed
from rules.facts.usual import speed_ratio, suiting_apex
from rules.golf.delivery import Estimate
from rules.golf.impact import Clubhead
from rules.golf.outcome import Worth, usefulness
from rules.golf.sight import apex_of, weigh
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.learned import Swinging
    from rules.facts.mishits import Believed
    from rules.facts.tried import Tried

_NODE = parse("2 deg", "rad")
_WEAKEST, _STRONGEST = _NODE, 20 * _NODE
_CELLS = 24
"""Cells over which a share of mishits is summed."""
_JUDGED = (
    (-2.8569700, 0.0112574), (-1.3556262, 0.2220759), (0.0, 0.5333333), (1.3556262, 0.2220759),
    (2.8569700, 0.0112574),
)  # fmt: skip
"""Five Gauss-Hermite nodes of a standard normal with their weights (Abramowitz and Stegun, table 25.10)."""

Climb = Callable[[float], float]
"""From delivered less stamped loft, rad, to the share of clean strikes that get up."""


@lru_cache(maxsize=1024)
def _apex(speed: float, node: int, attack: float, head: Clubhead, density: float) -> float:
    """Remember the apex at a node of delivered loft: balls come in one by one and ask for the same again."""
    return apex_of(speed, node * _NODE, attack, head, density)


def climbing(base: RuleBase, club: Tried, swing: Swinging, density: float, eye: float = 1.0) -> Climb:
    """Return how the share of clean strikes that get up follows from delivered less stamped loft.

    Apex of a centred strike, straight between lofts two degrees apart, against the apex that suits the
    speed (`usefulness`); heights are what both laws of flight get right. `eye` scales the height that
    whoever watches calls useful.
    """
    speed = swing.speed.value * speed_ratio(base, club.kind, club.loft)
    wanted = eye * suiting_apex(swing.speed.value)
    useful = Worth(
        0.0, 0.0, 0.0, wanted * assumed(base, "useful-apex-low"), wanted * assumed(base, "useful-apex-full")
    )

    def climb(change: float) -> float:
        place = min(max(club.loft + change, _WEAKEST), _STRONGEST) / _NODE
        node = min(int(place), 19)
        low, high = (_apex(speed, n, swing.attack.value, club.head, density) for n in (node, node + 1))
        return usefulness(low + (place - node) * (high - low), useful)

    return climb


def count_corrected(
    base: RuleBase, tried: Sequence[Tried], swing: Swinging, density: float, believed: Believed
) -> Swinging:
    """Return a swing whose delivered loft is corrected by how many balls off the ground got up.

    A ball gets up when it is not mishit and climbs. How often he mishits is itself uncertain, so each count
    is likely by a binomial averaged over a beta distribution of mishits: balls that fail move the loft only
    as far as mishits leave room. What counts as high enough is a judgement, the same for all balls of a
    trial: the likelihood is averaged over that too. Spreads as in `sight.weigh`, never wider than before.
    """
    counted = [(club, *_count(club)) for club in tried]
    counted = [one for one in counted if one[2]]
    if not counted or swing.change.spread <= 0.0:
        return swing
    eyes = [(math.exp(node * assumed(base, "eye-for-height")), weight) for node, weight in _JUDGED]
    parts = [
        (
            up,
            of,
            believed.cells(club, _CELLS),
            [climbing(base, club, swing, density, eye) for eye, _ in eyes],
        )
        for club, up, of in counted
    ]

    def likelihood(change: float) -> float:
        total = 0.0
        for place, (_, weight) in enumerate(eyes):
            whole = weight
            for up, of, cells, climbs in parts:
                whole *= _likely(up, of, cells, climbs[place](change))
            total += whole
        return total

    after = weigh(swing.change, likelihood)
    return replace(swing, change=Estimate(after.value, min(after.spread, swing.change.spread)))


def _count(club: Tried) -> tuple[int, int]:
    """Return how many of a club's balls off the ground got up, and of how many that was noted."""
    noted = [shot.outcome for shot in club.off_ground if shot.outcome is not None]
    return noted.count("up"), len(noted)


def _likely(up: int, of: int, cells: Sequence[tuple[float, float]], climb: float) -> float:
    """Return how likely a count is, over cells of (share clean, weight)."""
    total = 0.0
    for clean, weight in cells:
        share = min(max(clean * climb, 0.01), 0.99)
        total += weight * share**up * (1.0 - share) ** (of - up)
    return total
