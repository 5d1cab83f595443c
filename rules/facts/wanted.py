"""What the golfer asks of a shaft and a grip, and what his bag comes to: facts that rules start from."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from typing import TYPE_CHECKING

from rules.facts.known import Known, assumed, waiting
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase

FLEXES = ("L", "A", "R", "S", "X")
"""Flex letters, softest first; no standard ties them to a stiffness (common practice)."""
_BETWEEN = ("flex-l-to-a", "flex-a-to-r", "flex-r-to-s", "flex-s-to-x")
"""Assumptions: driver head speeds between the letters, the middle of two rival charts."""
_EASY, _STRONG = parse("70 mph", "m/s"), parse("110 mph", "m/s")
"""Driver head speeds at which shaft masses are given."""
_HARDER = {"smooth": -1, "medium": 0, "abrupt": 1}
"""How hard the club is started down."""


def flex_wanted(base: RuleBase, speed: float, tempo: str) -> float:
    """Return the flex that speed (m/s) and start down ask for, a place between letters: 0 is L, 4 is X.

    Straight lines between the assumed speeds, so that no mile an hour makes a cliff; an abrupt start down
    asks for a little more, a smooth one for a little less. Age is not asked.
    """
    speeds = [assumed(base, id) for id in _BETWEEN]
    step = (speeds[-1] - speeds[0]) / 3
    place = 0.5 + (speed - speeds[0]) / step
    for index, (low, high) in enumerate(itertools.pairwise(speeds)):
        if low <= speed <= high:
            place = index + 0.5 + (speed - low) / (high - low)
    return min(4.0, max(0.0, place + _HARDER[tempo] * assumed(base, "flex-for-start-down")))


def _shaft_mass(base: RuleBase, speed: float, tempo: str) -> float:
    """Return the fairway-wood shaft mass from speed (m/s) and start down alone, kg.

    A straight line between the assumed masses at 70 and 110 mph, a fifth beyond either, and some grams
    either way by tempo.
    """
    share = min(1.2, max(-0.2, (speed - _EASY) / (_STRONG - _EASY)))
    easy, strong = assumed(base, "shaft-mass-easy"), assumed(base, "shaft-mass-strong")
    return easy + share * (strong - easy) + _HARDER[tempo] * assumed(base, "shaft-mass-for-start-down")


def wanted_facts(base: RuleBase, known: Mapping[str, Known]) -> dict[str, Known]:
    """Return shaft mass wanted, lead of one confidence over the other, and clubs after the fitting."""
    speed, tempo, driver_shaft = known["driver_head_speed"], known["tempo"], known["driver_shaft_mass"]
    mass = _shaft_mass(base, speed.number, tempo.word)
    if driver_shaft.value is not None:
        mass = (mass + driver_shaft.number + assumed(base, "shaft-over-driver")) / 2
    hybrid, fairway = known["confidence_hybrid"], known["confidence_fairway"]
    return {
        "shaft_mass_wanted": Known(mass, waits=waiting((speed, tempo, driver_shaft))),
        "confidence_lead": Known(hybrid.number - fairway.number, waits=waiting((hybrid, fairway))),
        "clubs_after": _clubs_after(known),
    }


def _clubs_after(known: Mapping[str, Known]) -> Known:
    """Return the clubs in the bag once these two are in; unknown while nobody said how many there are."""
    now, leaving = known["clubs_in_bag"], known["clubs_leaving"]
    if now.value is None:
        return Known(None, "assumed", waits=now.waits, closed=True)
    out = leaving.number if leaving.value is not None else 2.0
    return Known(max(0.0, now.number + 2 - out), waits=leaving.waits)
