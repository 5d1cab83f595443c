"""Delivered loft from what is seen without instruments: how high balls fly, and how many get up at all."""

from __future__ import annotations

import math
from collections.abc import Callable

from rules.golf.coefficients import Law
from rules.golf.delivery import Estimate
from rules.golf.flight import fly
from rules.golf.impact import Clubhead, strike
from rules.problems import Problem

LOFTS = (math.radians(2.0), math.radians(40.0))
"""rad of delivered loft between which a height of flight is turned back into a loft."""

_NODES = 41
_REACH = 4.0


def apex_of(
    speed: float, loft: float, attack: float, head: Clubhead, density: float, law: Law = "first"
) -> float:
    """Return the apex in m of a centred strike: m/s, rad, rad. Apex is what both laws get right."""
    return fly(strike(speed, loft, attack, head), density, law).apex


def loft_for_apex(
    apex: float, speed: float, attack: float, head: Clubhead, density: float, law: Law = "first"
) -> float:
    """Return the delivered loft in rad at which a centred strike climbs to `apex` m, by bisection.

    Apex rises with loft from 2 to 40 degrees. Problem for an apex that no such loft gives at this speed.
    """
    low, high = LOFTS
    if (
        not apex_of(speed, low, attack, head, density, law)
        <= apex
        <= apex_of(speed, high, attack, head, density, law)
    ):
        raise Problem(f"no loft from 2 to 40 deg sends a ball {apex:.0f} m high at this speed; check both")
    while high - low > 1e-5:
        middle = (low + high) / 2
        if apex_of(speed, middle, attack, head, density, law) < apex:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def weigh(prior: Estimate, likelihood: Callable[[float], float]) -> Estimate:
    """Return a prior estimate weighed by how likely each value makes what was seen (Bayes on a fixed grid).

    41 values to four spreads either side, so that the same evidence gives the same bits. Evidence that no
    value makes likely leaves the prior as it was.
    """
    steps = [_REACH * (2 * i / (_NODES - 1) - 1) for i in range(_NODES)]
    values = [prior.value + step * prior.spread for step in steps]
    weights = [
        math.exp(-step * step / 2) * likelihood(value) for step, value in zip(steps, values, strict=True)
    ]
    total = math.fsum(weights)
    if not total > 0.0:
        return prior
    mean = math.fsum(w * v for w, v in zip(weights, values, strict=True)) / total
    variance = math.fsum(w * (v - mean) ** 2 for w, v in zip(weights, values, strict=True)) / total
    return Estimate(mean, math.sqrt(variance))
