"""What the interview expected of a tried club off turf: how far its balls carry, how many get up."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.facts.known import assumed
from rules.facts.lies import lies
from rules.facts.mishits import TRIAL_LIE, Believed
from rules.golf.delivery import Estimate
from rules.ladder.flown import flown
from rules.ladder.rung import Flown, Spec
from rules.ladder.start import usual_length
from rules.problems import Problem

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.golfer import Golfer
    from rules.facts.tried import Tried
    from rules.house import House

_MOVES = ("driver_head_speed", "attack", "delivered_loft_change")
"""What an expected carry hangs on most; each is moved by its own spread."""


@dataclass(frozen=True, slots=True)
class Expected:
    """What was expected of one club before a ball was hit."""

    carry: Estimate
    """m, over all balls, mishits and all."""
    centred: float
    """m, of a centred strike."""
    usable: Estimate
    """Share of balls that get up."""


def expected(house: House, golfer: Golfer, club: Tried) -> Expected | None:
    """Return what a golfer was expected to do with a club off usual turf; None where physics has no answer.

    `golfer` is as his answers have him. Spreads come from those of head speed, attack and delivered loft,
    each moved by itself, and from the law of flight.
    """
    base = house.base
    here = replace(golfer, lies=lies(base, {TRIAL_LIE: 1.0}, golfer.word("turf")))
    believed = Believed(base, golfer.known, golfer.number("skill"))
    here = replace(here, mishits={**golfer.mishits, club.kind: believed.usual(club.kind)})
    spec = _spec(house, club)
    try:
        best = flown(base, here, club.kind, spec)
        moved = [_moved(base, here, club, spec, id) for id in _MOVES]
    except Problem:
        return None
    carry = math.hypot(*(one.expected - best.expected for one in moved), assumed(base, "carry-error"))
    usable = math.hypot(*(one.usable - best.usable for one in moved), _share_spread(best.usable))
    return Expected(Estimate(best.expected, carry), best.centred, Estimate(best.usable, usable))


def _share_spread(share: float) -> float:
    """Return the spread of a share that is worth six balls, as the answers are."""
    return math.sqrt(share * (1.0 - share) / 7.0)


def _moved(base: RuleBase, golfer: Golfer, club: Tried, spec: Spec, id: str) -> Flown:
    """Fly a club with one of its golfer's figures higher by its spread, within what is possible."""
    one = golfer.known[id]
    high = base.facts[id].range[1]
    known = {**golfer.known, id: one._replace(value=min(high, one.number + one.spread))}
    return flown(base, replace(golfer, known=known), club.kind, spec)


def _spec(house: House, club: Tried) -> Spec:
    """Return what is known of a tried club as a rung would have it."""
    head = next((one for one in house.shelf.heads if one.id == club.head_id), None)
    length = club.length or usual_length(house.base, club.kind, club.loft)
    return Spec(club.loft, length, 0.0, 0.0, 0.0, head, None, None, 0.0, None, club.head.mass)
