"""What comes of a swing: topped, thin, fat or clean; and what carry to expect over all of them.

A rigid head flatters a thin strike, so balls topped, thinned or hit fat off turf are outcomes of their own,
with a share each and a carry each; they are not tails of the strike scatter.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from rules.golf.flight import Flight, Launch
from rules.golf.impact import Clubhead, ball_speed, strike
from rules.golf.quadrature import Strike
from rules.problems import Problem

Flier = Callable[[Launch], Flight]
"""What flies a launch in the air of the day: `flight.fly` with its air given, or `CarrySurface.fly`."""


@dataclass(frozen=True, slots=True)
class Outcomes:
    """Shares of swings that are topped, thin or fat; the rest are clean."""

    topped: float
    thin: float
    fat: float

    def __post_init__(self) -> None:
        """Refuse shares that are none."""
        parts = (self.topped, self.thin, self.fat)
        if not (all(0.0 <= part <= 1.0 for part in parts) and math.fsum(parts) <= 1.0 + 1e-12):
            raise Problem(
                "shares of topped, thin and fat must each be 0 to 100 % and add up to no more than 100 %"
            )

    @property
    def clean(self) -> float:
        """Share of swings that meet the ball as the strike pattern says."""
        return max(0.0, 1.0 - math.fsum((self.topped, self.thin, self.fat)))


def over_lies(parts: Sequence[tuple[float, Outcomes]]) -> Outcomes:
    """Return the outcomes over all lies, each weighed by how often he meets it; Problem when none weighs
    anything."""
    total = math.fsum(share for share, _ in parts)
    if not total > 0.0:
        raise Problem("at least one lie needs a share above 0")
    return Outcomes(
        math.fsum(share * one.topped for share, one in parts) / total,
        math.fsum(share * one.thin for share, one in parts) / total,
        math.fsum(share * one.fat for share, one in parts) / total,
    )


@dataclass(frozen=True, slots=True)
class Worth:
    """What outcomes are worth, as parameters: assumptions of the knowledge base."""

    topped: float
    """Carry of a topped ball, as a share of the centred one."""

    thin: float
    """Carry of a thin ball, likewise."""

    fat: float
    """Carry of a fat ball, likewise."""

    useless_apex: float
    """m: a clean ball that climbs no higher than this is of no use."""

    useful_apex: float
    """m: one that climbs this high is of full use; between the two, use rises in a straight line."""


@dataclass(frozen=True, slots=True)
class Play:
    """What a club does for a golfer over his lies and strikes."""

    expected: float
    """m of carry over all outcomes."""

    clean: float
    """m of carry over clean strikes."""

    launch: Launch
    """How the ball leaves a strike on the line through the centre of mass."""

    centred: Flight
    """Its flight."""

    usable_share: float
    """Share of swings that are clean and get up."""


def play(
    speed: float,
    delivered: tuple[float, float],
    head: Clubhead,
    strikes: Sequence[Strike],
    outcomes: Outcomes,
    worth: Worth,
    flier: Flier,
) -> Play:
    """Return what a head does at a speed in m/s, delivered at (loft, attack) rad, over strikes and
    outcomes.

    Expected carry = clean share x sum of (weight x carry) over the strikes + each mishit's share x its
    worth x the centred carry. Toe and heel strikes of one size fly alike in the plane, so a symmetric six
    is three flights.
    """
    loft, attack = delivered
    launch = strike(speed, loft, attack, head)
    centred = flier(launch)
    flown: dict[tuple[float, float], Flight] = {}
    carry = useful = 0.0
    for toe, high, weight in strikes:
        key = (abs(toe), high)
        flight = flown.get(key)
        if flight is None:
            flight = flown[key] = flier(strike(speed, loft, attack, head, *key))
        carry += weight * flight.carry
        useful += weight * usefulness(flight.apex, worth)
    poor = outcomes.topped * worth.topped + outcomes.thin * worth.thin + outcomes.fat * worth.fat
    clean = outcomes.clean
    return Play(clean * carry + poor * centred.carry, carry, launch, centred, clean * useful)


def usefulness(apex: float, worth: Worth) -> float:
    """Return how useful an apex in m is, 0 to 1: a ramp, so that no shot falls off a cliff."""
    low, high = worth.useless_apex, worth.useful_apex
    if high <= low:
        return 1.0 if apex >= high else 0.0
    return min(max((apex - low) / (high - low), 0.0), 1.0)


def speed_kept(delivered: tuple[float, float], head: Clubhead, strikes: Sequence[Strike]) -> float:
    """Return the ball speed over the strikes as a share of a centred one's: impact alone, no flight.

    What decides a face height: the loss over all lies, not an average height. Independent of head speed.
    """
    loft, attack = delivered
    speeds = [one.weight * ball_speed(1.0, loft, attack, head, one.toe, one.high) for one in strikes]
    return math.fsum(speeds) / ball_speed(1.0, loft, attack, head)
