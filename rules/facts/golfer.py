"""All the facts of one golfer, from his answers and his shots."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from rules.facts.asked import asked as asked_facts
from rules.facts.asked import shares
from rules.facts.balls import Balls, hit
from rules.facts.delivery import attack, delivered_loft_change
from rules.facts.following import driver_facts, following
from rules.facts.known import Known, assumed, half_range, views, waiting
from rules.facts.lies import Lies, lies
from rules.facts.speed import driver_head, iron_head, speed_facts
from rules.facts.tried import tried_clubs
from rules.golf.air import density
from rules.golf.flight import Flight, fly
from rules.golf.impact import strike as impact
from rules.golf.strike import StrikePattern

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.views import View
    from rules.facts.subject import Kind, Subject
    from rules.golf.outcome import Outcomes
    from rules.shelf import Shelf

_HUMIDITY = 0.5
"""Relative humidity; it moves a carry by under a yard, so it is not asked."""
SPOKEN_ON = (
    "driver_head_speed", "attack", "delivered_loft_change",
    "strike_mean_toe", "strike_mean_high", "strike_sd_toe", "strike_sd_high",
)  # fmt: skip
"""Numbers of swing and strike on which balls have the last word."""
FOR_CAUTIONS = frozenset(("claimed_excess", "driver_loft_wanted", "driver_loft_short"))
"""Facts that take dozens of flights; the house's own rules read them in cautions alone."""


@dataclass(frozen=True, slots=True)
class Golfer:
    """One golfer: facts as they stand, as views for the engine, and as numbers for the flights."""

    known: Mapping[str, Known]
    views: Mapping[str, View]
    lies: Lies
    mishits: Mapping[Kind, Outcomes]
    pattern: StrikePattern
    density: float
    """Air density, kg/m3."""
    flight_waits: frozenset[str]
    """Open questions that could still move a flight."""
    strike_waits: frozenset[str]
    """Open questions that could still move strikes and mishits."""
    driver: Flight
    """The driver's centred flight."""
    iron: Known | None
    """Carry of the longest iron really used, m; None when neither its loft nor its carry is known."""
    balls: Balls
    """What the balls of a trial said, beside what was believed."""

    def number(self, id: str) -> float:
        """Return a numeric fact's best value in SI."""
        return self.known[id].number

    def word(self, id: str) -> str:
        """Return a choice fact's best word."""
        return self.known[id].word


def golfer(
    base: RuleBase, subject: Subject, shelf: Shelf | None = None,
    *, shift: Mapping[str, float] | None = None, cautions: bool = True,
) -> Golfer:  # fmt: skip
    """Return everything known of the golfer. No rung, no rule of the trade is read here.

    Of a shelf only the heads are read that he has hit, where one is given. A `shift` moves numbers by so
    much (SI), those that balls speak on once they have spoken: how the spread of facts is tried out. Without
    `cautions` the facts are left out that take dozens of flights and only cautions read (`FOR_CAUTIONS`).
    """
    known, move = asked_facts(base, subject.answers), Shifting(base, shift or {})
    known |= move.all(known)
    air = density(known["temperature"].number, _HUMIDITY, known["altitude"].number)
    air_waits = known["temperature"].waits | known["altitude"].waits
    split = {id: shares(base, subject.answers, id) for id in ("lies", "purpose")}
    lie_shares, lies_known = split["lies"]
    met = lies(base, lie_shares, known["turf"].word)
    known |= _swing_facts(base, known, air, move, claims=cautions)
    balls = hit(base, known, tried_clubs(base, subject, shelf), air, met)
    known |= balls.facts
    known |= move.all({id: known[id] for id in SPOKEN_ON})
    known |= following(base, known, split, subject.owned)
    known |= driver_facts(base, known, air) if cautions else {}
    flown = waiting((known["driver_head_speed"], known["attack"], known["delivered_loft_change"])) | air_waits
    return Golfer(
        known=known,
        views=views(base, known),
        lies=met,
        mishits=balls.mishits,
        pattern=_pattern(balls.strike.pattern, known) if shift else balls.strike.pattern,
        density=air,
        flight_waits=flown,
        strike_waits=waiting(
            (known["strike_sd_toe"], known["contact"], known["skill"], lies_known, known["turf"])
        ),
        driver=_driver_flight(base, known, air),
        iron=_iron(base, known, air, move),
        balls=balls,
    )


def _swing_facts(
    base: RuleBase, asked: Mapping[str, Known], air: float, move: Shifting, *, claims: bool
) -> dict[str, Known]:
    """Return skill, head speeds, blow and delivered loft, as they stand before any ball has spoken."""
    skill = move("skill", _skill(base, asked))
    known = {**asked, "skill": skill, **speed_facts(base, {**asked, "skill": skill}, air, claims=claims)}
    known["attack"] = attack(base, known)
    known["delivered_loft_change"] = delivered_loft_change(base, known, skill, known["driver_head_speed"])
    return known


class Shifting:
    """Moves numbers by so much, each within its declared range."""

    def __init__(self, base: RuleBase, by: Mapping[str, float]) -> None:
        self._base, self._by = base, by

    def __call__(self, id: str, known: Known) -> Known:
        """Return a fact moved, or as it is."""
        by = self._by.get(id)
        if by is None or known.value is None:
            return known
        low, high = self._base.facts[id].range
        return known._replace(value=min(high, max(low, known.number + by)))

    def all(self, known: Mapping[str, Known]) -> dict[str, Known]:
        """Return those of several facts that are moved."""
        return {id: self(id, known[id]) for id in self._by if id in known}


def _pattern(pattern: StrikePattern, known: Mapping[str, Known]) -> StrikePattern:
    """Return the strikes as facts that were moved have them."""
    return replace(
        pattern,
        mean_toe=known["strike_mean_toe"].number,
        mean_high=known["strike_mean_high"].number,
        sd_toe=known["strike_sd_toe"].number,
        sd_high=known["strike_sd_high"].number,
    )


def _skill(base: RuleBase, known: Mapping[str, Known]) -> Known:
    """Return handicap, else usual score less 72 (common practice), else the usual handicap."""
    handicap, score = known["handicap"], known["typical_score"]
    if handicap.value is not None:
        return handicap
    if score.value is not None:
        return Known(min(54.0, max(-8.0, score.number - 72)), "derived", score.spread, handicap.waits)
    usual = assumed(base, "usual-handicap")
    return Known(usual, "assumed", half_range(base, "usual-handicap"), handicap.waits | score.waits)


_fly = lru_cache(maxsize=512)(fly)
"""Flights of driver and iron, remembered: most answers leave them alone."""


def _driver_flight(base: RuleBase, known: Mapping[str, Known], air: float) -> Flight:
    """Fly the driver's centred strike off a level blow at the loft it delivers."""
    speed = known["driver_head_speed"].number
    loft = known["driver_loft"].number + assumed(base, "driver-delivered-loft")
    return _fly(impact(speed, loft, 0.0, driver_head(base)), air)


def _iron(base: RuleBase, known: Mapping[str, Known], air: float, move: Shifting) -> Known | None:
    """Return the carry of the longest iron really used: as told, else flown from its loft."""
    carry, loft = known["longest_iron_carry"], known["longest_iron_loft"]
    if carry.value is not None:
        return carry
    if loft.how == "assumed":
        return None
    speed = known["driver_head_speed"]
    blow = assumed(base, "attack-brush")
    head_speed = speed.number * assumed(base, "speed-ratio-long-iron")
    flight = _fly(
        impact(head_speed, loft.number + assumed(base, "iron-delivered-loft"), blow, iron_head(base)), air
    )
    flown = Known(flight.carry, "derived", 0.06 * flight.carry, speed.waits | loft.waits)
    return move("longest_iron_carry", flown)
