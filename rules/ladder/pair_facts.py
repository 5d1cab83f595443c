"""The facts of a pair of rungs, from flights already flown: gaps, usable shares, make-up, what is his own.

What only one of the two clubs decides is worked out once for the club, and not for every pair it is in.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain
from typing import TYPE_CHECKING, Any

from rules.facts.known import NOTHING, Known, assumed

if TYPE_CHECKING:
    from rules.facts.golfer import Golfer
    from rules.facts.subject import Kind
    from rules.ladder.deciding import Deciding
    from rules.ladder.rung import Rung

_OF_A_CLUB = {
    "carry": "flight", "expected": "strike", "expected_lost": "strike", "usable": "strike",
    "height_share": "flight", "loft": "", "cut": "", "overlong": "",
}  # fmt: skip
"""Numbers of one of the two clubs, and the open questions that could still move them."""
_WORDS = ("kind", "owned", "liked", "sole_width")
"""What else is known of one of the two clubs."""
READS = ("airborne_of_six", "skill")
"""Facts of the golfer that the numbers are worked out from; besides them driver, iron and flights."""
_ROLES = ("longer", "shorter")
_BETWEEN = {
    "pair_gap": "flight", "pair_gap_share": "flight", "pair_expected_gain": "strike", "driver_gap": "driver",
    "driver_gap_share": "driver", "iron_gap": "iron", "iron_gap_share": "iron", "gap_unevenness": "both",
    "usable_both": "strike", "new_clubs": "", "loft_step": "", "longer_loft_short": "airborne",
    "longer_strong": "skill",
}  # fmt: skip
"""Numbers of the pair, and of the gaps to the driver and to the longest iron, likewise."""
_TO_DRIVER = ("driver_gap", "driver_gap_share", "longer_loft_short", "longer_strong")
"""Of these, what the longer club alone decides."""
_TO_IRON = ("iron_gap", "iron_gap_share")
"""What the shorter one alone does."""
_SORTS = {
    "longer": (*(f"longer_{id}" for id in _OF_A_CLUB), *_TO_DRIVER),
    "shorter": (*(f"shorter_{id}" for id in _OF_A_CLUB), *_TO_IRON),
    "between": tuple(id for id in _BETWEEN if id not in (*_TO_DRIVER, *_TO_IRON)),
}
"""The numbers by what they hang on: one of the two clubs, or both."""
BY_PART = {role: (*_SORTS[role], *(f"{role}_{id}" for id in _WORDS)) for role in _ROLES} | {
    "types": ("pair_types",)
}
"""All facts that are known as soon as one club is, or what the pair is made of."""


class PairFacts:
    """Makes the facts of the pairs of one ladder, as a judge reads them."""

    def __init__(self, judge: Deciding, rungs: Sequence[Rung]) -> None:
        self.judge = judge
        self.best = max((rung.flown.expected for rung in rungs), default=1.0)
        """The farthest carry to expect of any rung, m."""
        kinds = {f"{role}_{id}": of for role in _ROLES for id, of in _OF_A_CLUB.items()}
        behind = _waits(judge.golfer)
        waits = {id: behind[of] for id, of in {**kinds, **_BETWEEN}.items()}
        self.waits = {id: questions for id, questions in waits.items() if questions}
        """Open questions behind the facts, by fact: the same for all pairs."""
        self._behind = waits
        self.turf_loft, self.failing = assumed(judge.base, "turf-loft"), _failing(judge)
        self.mild_loft, self.erring = assumed(judge.base, "mild-loft"), _erring(judge)
        self.sorts = _SORTS
        """The numbers by what they hang on, in the order in which they are given."""
        if judge.golfer.iron is None:
            self.sorts = {**_SORTS, "shorter": tuple(id for id in _SORTS["shorter"] if id not in _TO_IRON)}
        words = (f"{role}_{id}" for role in _ROLES for id in _WORDS)
        self.ids = (*chain.from_iterable(self.sorts.values()), "pair_types", *words)
        """Every fact that the pairs hold; without an iron the gap to it is absent, and not only unread."""

    def longer(self, rung: Rung) -> tuple[float, ...]:
        """Return the numbers of a rung as the longer club of a pair, the gap to the driver included."""
        top, carry, loft = self.judge.golfer.driver.carry, rung.flown.centred, rung.spec.loft
        gap = top - carry
        short, strong = max(0.0, self.turf_loft - loft), max(0.0, self.mild_loft - loft)
        return (*self._club(rung), gap, gap / top, self.failing * short, self.erring * strong)

    def shorter(self, rung: Rung) -> tuple[float, ...]:
        """Return the numbers of the shorter club, the gap to the longest iron included where one is known."""
        iron, carry = self.judge.golfer.iron, rung.flown.centred
        if iron is None:
            return self._club(rung)
        gap = carry - iron.number
        return (*self._club(rung), gap, gap / carry)

    def _club(self, rung: Rung) -> tuple[float, ...]:
        """Return the numbers of one of the two clubs."""
        flown = rung.flown
        return (
            flown.centred, flown.expected, 1 - flown.expected / self.best, flown.usable, flown.height_share,
            rung.spec.loft, rung.cut, rung.overlong,
        )  # fmt: skip

    def between(self, longer: Rung, shorter: Rung) -> tuple[float, ...]:
        """Return the numbers that hang on both clubs."""
        golfer, one, other = self.judge.golfer, longer.flown, shorter.flown
        top, upper, lower = golfer.driver.carry, one.centred, other.centred
        gap = upper - lower
        steps = (top - upper, gap) if golfer.iron is None else (top - upper, gap, lower - golfer.iron.number)
        return (
            gap, gap / upper, (one.expected - other.expected) / one.expected,
            (max(steps) - min(steps)) / top, (one.usable + other.usable) / 2,
            float((longer.state == "new") + (shorter.state == "new")),
            max(0.0, shorter.spec.loft - longer.spec.loft),
        )  # fmt: skip

    @staticmethod
    def told(rung: Rung) -> tuple[str, str, str, float | None]:
        """Return what else is known of a rung: kind, state, liking, and the width of its sole, m."""
        sole = rung.spec.head.sole_width if rung.spec.head else None
        return rung.kind, rung.state, (rung.owned.liked or "so_so") if rung.owned else "not_owned", sole

    def words(self, role: str, kind: str, state: str, liked: str, sole: float | None) -> dict[str, Any]:
        """Return what else is known of one of the two clubs, as the judge reads it."""
        return self.judge.views({
            f"{role}_kind": Known(kind),
            f"{role}_owned": Known(state),
            f"{role}_liked": Known(liked),
            f"{role}_sole_width": Known(sole, closed=sole is None),
        })  # fmt: skip

    def types(self, types: str) -> dict[str, Any]:
        """Return the make-up of a pair, as the judge reads it."""
        return self.judge.views({"pair_types": Known(types)})

    def all(self, longer: Rung, shorter: Rung) -> dict[str, Any]:
        """Return every fact of a pair, as the judge reads it. Where no iron is known its gap is absent."""
        found = self.types(types_of(longer.kind, shorter.kind))
        found |= {**self.words("longer", *self.told(longer)), **self.words("shorter", *self.told(shorter))}
        if self.judge.golfer.iron is None:
            gone = Known(None, "assumed", waits=self._behind["iron_gap"], closed=True)
            found |= self.judge.views(dict.fromkeys(_TO_IRON, gone))
        numbers = (self.longer(longer), self.shorter(shorter), self.between(longer, shorter))
        for ids, values in zip(self.sorts.values(), numbers, strict=True):
            stood = zip(ids, values, strict=True)
            found |= self.judge.views({id: self._stood(id, value) for id, value in stood})
        return found

    def _stood(self, id: str, value: float) -> Known:
        """Return a derived number as it stands, within its declared range."""
        low, high = self.judge.base.facts[id].range
        return Known(min(high, max(low, value)), waits=self._behind[id])


def types_of(longer: Kind, shorter: Kind) -> str:
    """Return what a pair of two kinds of club is made of."""
    if longer == shorter:
        return "two_fairway_woods" if longer == "fairway" else "two_hybrids"
    return "wood_and_hybrid" if longer == "fairway" else "hybrid_above_wood"


def _failing(judge: Deciding) -> float:
    """Return how far the count of balls that get up falls short of enough, 0 to 1; 0 if nobody counted."""
    counted = judge.golfer.known["airborne_of_six"]
    if counted.value is None:
        return 0.0
    return min(1.0, max(0.0, assumed(judge.base, "airborne-enough") - counted.number))


def _erring(judge: Deciding) -> float:
    """Return how much misses count against strong lofts: 0 for a fine player, 1 for a middling one."""
    fine, middling = assumed(judge.base, "fine-standard"), assumed(judge.base, "middling-standard")
    return min(1.25, max(0.0, (judge.golfer.number("skill") - fine) / (middling - fine)))


def _waits(golfer: Golfer) -> dict[str, frozenset[str]]:
    """Return the open questions behind each kind of number."""
    flight, known = golfer.flight_waits, golfer.known
    driver = flight | known["driver_loft"].waits
    told = known["longest_iron_carry"].waits | known["longest_iron_loft"].waits
    return {
        "": NOTHING,
        "flight": flight,
        "strike": flight | golfer.strike_waits,
        "driver": driver,
        "iron told": told,
        "iron": flight | golfer.iron.waits if golfer.iron else told,
        "both": driver | told,
        "airborne": known["airborne_of_six"].waits,
        "skill": known["skill"].waits,
    }
