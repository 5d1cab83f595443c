"""What a golfer's balls say of his speed, his attack angle and the loft he delivers; weighed against belief.

Three kinds of evidence, in this order: head speeds; ball speed, launch and spin of clean strikes (least
squares through the impact) or, where no speed was measured, how far they carried; and how many balls got
up at all. Each club corrects what the next one is read with, clubs by name, so that the same balls give
the same figures whatever the order of the file. An open question stays open: balls correct a value, they
answer nobody's question.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.facts.climb import climbing, count_corrected
from rules.facts.known import Known, assumed, half_range
from rules.facts.usual import speed_ratio
from rules.facts.weighed import Weighed, combined, drawn, mean_of, told_by_balls
from rules.golf.delivery import Delivery, Estimate, Seen, learn_delivery
from rules.golf.speed import Swing, speed_for_carry
from rules.problems import Problem

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.mishits import Believed
    from rules.facts.tried import Tried

_SPEED, _ATTACK, _LOFT = "driver_head_speed", "attack", "delivered_loft_change"
_STEP = 4.572
"""m (5 yd) over which the way back from a carry to a speed is taken to be straight."""


@dataclass(frozen=True, slots=True)
class Swinging:
    """What the road stands on of a swing: driver head speed, attack angle, delivered less stamped loft."""

    speed: Estimate
    attack: Estimate
    change: Estimate


@dataclass(frozen=True, slots=True)
class Learned:
    """A swing after its balls, with how it came about."""

    facts: Mapping[str, Known]
    """The three facts and where they come from."""
    weighed: tuple[Weighed, ...]
    """Belief and balls side by side, for those of the three that balls spoke to."""
    deliveries: Mapping[str, Delivery]
    """By club, what its launches come from; a misfit well above 2 says that readings contradict."""
    climbs: Mapping[str, float]
    """By club, the share of clean strikes that get up at the loft now believed."""


def learned(
    base: RuleBase, known: Mapping[str, Known], tried: Sequence[Tried], density: float, believed: Believed
) -> Learned:
    """Return speed, attack and delivered loft corrected by the balls of a trial.

    `known` holds the three as the answers have them, `believed` the mishits expected of each club (thin
    balls may be the loft's doing or the strike's: both are weighed). Raises nothing: what cannot be read
    through physics (a carry that no speed gives) is left out.
    """
    before = Swinging(*(Estimate(known[id].number, known[id].spread) for id in (_SPEED, _ATTACK, _LOFT)))
    swing = before
    deliveries: dict[str, Delivery] = {}
    for club in tried:
        swing = _head_speeds(base, club, swing)
    for club in tried:
        found = _launches(base, club, swing)
        if found is not None:
            swing, deliveries[club.name] = found
        else:
            swing = _carries(base, club, swing, density)
    launched = swing
    swing = count_corrected(base, tried, swing, density, believed)
    launched_balls = _balls(tried, "ball_speed", "launch", "spin")
    spoke = {
        _SPEED: max(_balls(tried, "head_speed", "ball_speed", "carry"), _read(tried, "head_speed")),
        _ATTACK: launched_balls,
        _LOFT: max(launched_balls, _read(tried, "outcome")),
    }
    pairs = zip((_SPEED, _ATTACK, _LOFT), _parts(before), _parts(swing), strict=True)
    weighed = tuple(
        Weighed(id, old, told_by_balls(old, new), new, spoke[id]) for id, old, new in pairs if old != new
    )
    climbs = {club.name: climbing(base, club, launched, density)(swing.change.value) for club in tried}
    return Learned(_facts(base, known, weighed), weighed, deliveries, climbs)


def _parts(swing: Swinging) -> tuple[Estimate, Estimate, Estimate]:
    return swing.speed, swing.attack, swing.change


def _balls(tried: Sequence[Tried], *readings: str) -> int:
    """Return how many clean strikes have any of some readings."""
    shots = [shot for club in tried for shot in club.clean]
    return sum(any(getattr(shot, name) is not None for name in readings) for shot in shots)


def _read(tried: Sequence[Tried], reading: str) -> int:
    """Return how many balls off the ground have a reading."""
    return sum(getattr(shot, reading) is not None for club in tried for shot in club.off_ground)


def _facts(base: RuleBase, known: Mapping[str, Known], weighed: Sequence[Weighed]) -> dict[str, Known]:
    """Return the corrected facts; each waits on what it waited on before."""
    found: dict[str, Known] = {}
    for one in weighed:
        low, high = base.facts[one.fact].range
        value = min(high, max(low, one.after.value))
        found[one.fact] = Known(value, "shots", one.after.spread, known[one.fact].waits)
        if one.fact == _SPEED and (known["speed_route"].word == "assumed" or (one.weight or 0.0) > 0.5):
            found["speed_route"] = Known("shots", waits=known["speed_route"].waits)
    moved = "shots" if _LOFT in found else "answers"
    return {**found, "delivered_from": Known(moved, waits=known[_LOFT].waits)}


def _club_speed(base: RuleBase, club: Tried, swing: Swinging) -> tuple[Estimate, float]:
    """Return the head speed to expect of a club, m/s, and its ratio to the driver's."""
    ratio = speed_ratio(base, club.kind, club.loft)
    own = half_range(base, "speed-ratio-3-wood") / 2 * swing.speed.value
    return Estimate(ratio * swing.speed.value, math.hypot(ratio * swing.speed.spread, own)), ratio


def _head_speeds(base: RuleBase, club: Tried, swing: Swinging) -> Swinging:
    """Correct the speed by head speeds read on a club."""
    read = [shot.head_speed for shot in club.off_ground if shot.head_speed is not None]
    if not read:
        return swing
    expected, ratio = _club_speed(base, club, swing)
    seen = mean_of(read, assumed(base, "head-speed-scatter"), assumed(base, "head-speed-reading"))
    after = combined(expected, seen)
    return replace(swing, speed=drawn(swing.speed, expected, after, ratio))


def _seen(base: RuleBase, club: Tried) -> Seen:
    """Return the mean launch of a club's clean strikes, each reading with its spread."""
    found: dict[str, Estimate | None] = {}
    for name, words in (("ball_speed", "ball-speed"), ("launch", "launch"), ("spin", "spin")):
        read = [value for shot in club.clean if (value := getattr(shot, name)) is not None]
        scatter, error = f"{words}-scatter", f"{words}-error"
        found[name] = mean_of(read, assumed(base, scatter), assumed(base, error)) if read else None
    return Seen(**found)


def _launches(base: RuleBase, club: Tried, swing: Swinging) -> tuple[Swinging, Delivery] | None:
    """Correct a swing by the launches of a club; None where none was measured.

    The head's restitution takes up what strikes off the centre cost: it is shown and goes no further, since
    another head has its own.
    """
    seen = _seen(base, club)
    if seen.ball_speed is None and seen.launch is None and seen.spin is None:
        return None
    speed, ratio = _club_speed(base, club, swing)
    loft = Estimate(club.loft + swing.change.value, math.hypot(swing.change.spread, club.loft_spread))
    bounce = Estimate(club.head.restitution, assumed(base, "restitution-spread"))
    found = learn_delivery(seen, Delivery(speed, loft, swing.attack, bounce), club.head)
    return Swinging(
        drawn(swing.speed, speed, found.speed, ratio),
        found.attack,
        drawn(swing.change, loft, found.loft),
    ), found


def _carries(base: RuleBase, club: Tried, swing: Swinging, density: float) -> Swinging:
    """Correct the speed by how far clean strikes carried outdoors, where no speed was read."""
    flown = [shot.carry for shot in club.clean if shot.carry and not shot.indoors]
    if len(flown) < 2 or any(shot.head_speed for shot in club.off_ground):
        return swing
    carry = mean_of(flown, assumed(base, "carry-scatter"), assumed(base, "carry-error"))
    centred = carry.value / assumed(base, "carry-of-up-balls")
    delivered = Swing(club.loft + swing.change.value, swing.attack.value, club.head)
    try:
        speed = speed_for_carry(centred, delivered, density)
        slope = (speed_for_carry(centred + _STEP, delivered, density) - speed) / _STEP
    except Problem:
        return swing
    expected, ratio = _club_speed(base, club, swing)
    after = combined(expected, Estimate(speed, abs(slope) * carry.spread))
    return replace(swing, speed=drawn(swing.speed, expected, after, ratio))
