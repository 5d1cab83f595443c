"""Pairs of rungs and the facts of each: gaps, usable shares, make-up, and what is his own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from rules.facts.known import NOTHING, Known, assumed

if TYPE_CHECKING:
    from rules.facts.golfer import Golfer
    from rules.ladder.judge import Judge, Seen
    from rules.ladder.rung import Rung

_LEAST_STEP = 0.02
"""Two rungs nearer in loft than this (rad, a little over a degree) are one place on the ladder."""


@dataclass(frozen=True, slots=True)
class Pair:
    """Two rungs, the stronger first, with their views for the engine."""

    id: str
    longer: Rung
    shorter: Rung
    views: Seen
    waits: Mapping[str, frozenset[str]]
    """Open questions behind its facts, by fact."""


def order(rungs: Sequence[Rung]) -> list[Rung]:
    """Return rungs from strong to weak; of equal lofts the fairway wood first, new before his own."""
    return sorted(rungs, key=lambda r: (r.spec.loft, r.kind, r.state != "new", r.id))


def pairs(judge: Judge, rungs: Sequence[Rung]) -> list[Pair]:
    """Return every pair of places on the ladder that the shop and the bag allow.

    Two versions of one club he owns make no pair, nor do two rungs of practically one loft and type.
    """
    ladder = order(rungs)
    facts = _Facts(judge, max((rung.flown.expected for rung in ladder), default=1.0))
    longer = [facts.of("longer", rung) for rung in ladder]
    shorter = [facts.of("shorter", rung) for rung in ladder]
    made = []
    for i, upper in enumerate(ladder):
        for j in range(i + 1, len(ladder)):
            lower = ladder[j]
            if _can_pair(upper, lower):
                views = {**longer[i], **shorter[j], **facts.between(upper, lower)}
                made.append(Pair(f"{upper.id}+{lower.id}", upper, lower, views, facts.waits))
    return made


def race(judge: Judge, rungs: Sequence[Rung]) -> tuple[list[tuple[Rung, Rung]], list[int | None]]:
    """Return every pair with its points on best values alone (None where ruled out): for quick roads."""
    ladder = order(rungs)
    facts = _Facts(judge, max((rung.flown.expected for rung in ladder), default=1.0))
    adding = judge.base.joined("pairing", judge.seen, facts.ids, judge.unsaid)
    longer = [adding.part(facts.of("longer", rung)) for rung in ladder]
    shorter = [adding.part(facts.of("shorter", rung)) for rung in ladder]
    met: list[tuple[Rung, Rung]] = []
    points: list[int | None] = []
    for i, upper in enumerate(ladder):
        for j in range(i + 1, len(ladder)):
            lower = ladder[j]
            if _can_pair(upper, lower):
                met.append((upper, lower))
                points.append(
                    adding.points((longer[i], shorter[j], adding.part(facts.between(upper, lower))))
                )
    return met, points


def _can_pair(longer: Rung, shorter: Rung) -> bool:
    """Say whether two rungs are two clubs: not two versions of one, nor one type and practically one loft."""
    if longer.owned is not None and shorter.owned is not None and longer.owned.name == shorter.owned.name:
        return False
    return longer.kind != shorter.kind or shorter.spec.loft - longer.spec.loft >= _LEAST_STEP


def _types(longer: Rung, shorter: Rung) -> str:
    """Return what a pair is made of."""
    if longer.kind == shorter.kind:
        return "two_fairway_woods" if longer.kind == "fairway" else "two_hybrids"
    return "wood_and_hybrid" if longer.kind == "fairway" else "hybrid_above_wood"


_OF_A_CLUB = {
    "carry": "flight", "expected": "strike", "expected_lost": "strike", "usable": "strike",
    "height_share": "flight", "loft": "", "cut": "", "overlong": "",
}  # fmt: skip
"""Numbers of one of the two clubs, and the open questions that could still move them."""
_WORDS = ("kind", "owned", "liked", "sole_width")
"""What else is known of one of the two clubs."""
_ROLES = ("longer", "shorter")
_BETWEEN = {
    "pair_gap": "flight", "pair_gap_share": "flight", "pair_expected_gain": "strike", "driver_gap": "driver",
    "driver_gap_share": "driver", "iron_gap": "iron", "iron_gap_share": "iron", "gap_unevenness": "both",
    "usable_both": "strike", "new_clubs": "", "loft_step": "", "longer_loft_short": "airborne",
    "longer_strong": "skill",
}  # fmt: skip
"""Numbers of the pair, likewise."""


class _Facts:
    """Makes the facts of pairs from flights already flown; what all pairs share is worked out once."""

    def __init__(self, judge: Judge, best: float) -> None:
        self.judge, self.best = judge, best
        kinds = {f"{role}_{id}": of for role in _ROLES for id, of in _OF_A_CLUB.items()}
        behind = _waits(judge.golfer)
        waits = {id: behind[of] for id, of in {**kinds, **_BETWEEN}.items()}
        self.waits = {id: questions for id, questions in waits.items() if questions}
        """Open questions behind the facts, by fact: the same for all pairs."""
        self.stamp = judge.stamps("pairing", waits)
        self.ids = (*waits, "pair_types", *(f"{role}_{id}" for role in _ROLES for id in _WORDS))
        """Every fact of a pair."""
        self.types = {
            types: judge.views({"pair_types": Known(types)})
            for types in ("two_fairway_woods", "two_hybrids", "wood_and_hybrid", "hybrid_above_wood")
        }
        self.turf_loft, self.failing = assumed(judge.base, "turf-loft"), _failing(judge)
        self.mild_loft, self.erring = assumed(judge.base, "mild-loft"), _erring(judge)
        gone = Known(None, "assumed", waits=behind["iron told"], closed=True)
        self.no_iron = judge.views({"iron_gap": gone, "iron_gap_share": gone})

    def of(self, role: str, rung: Rung) -> dict[str, Any]:
        """Return the facts of one of the two clubs."""
        flown = rung.flown
        liked = (rung.owned.liked or "so_so") if rung.owned else "not_owned"
        sole = rung.spec.head.sole_width if rung.spec.head else None
        numbers = {
            "carry": flown.centred,
            "expected": flown.expected,
            "expected_lost": 1 - flown.expected / self.best,
            "usable": flown.usable,
            "height_share": flown.height_share,
            "loft": rung.spec.loft,
            "cut": rung.cut,
            "overlong": rung.overlong,
        }
        rest = {
            f"{role}_kind": Known(rung.kind),
            f"{role}_owned": Known(rung.state),
            f"{role}_liked": Known(liked),
            f"{role}_sole_width": Known(sole, closed=sole is None),
        }
        named = {f"{role}_{id}": number for id, number in numbers.items()}
        return {**self.stamp(named), **self.judge.views(rest)}

    def between(self, longer: Rung, shorter: Rung) -> dict[str, Any]:
        """Return the facts of the pair: the gaps from driver to longest iron, and its make-up.

        Where an end is unknown its gap is absent.
        """
        golfer = self.judge.golfer
        top, upper, lower = golfer.driver.carry, longer.flown.centred, shorter.flown.centred
        far, near = longer.flown.expected, shorter.flown.expected
        steps = [top - upper, upper - lower]
        numbers = {
            "pair_gap": upper - lower,
            "pair_gap_share": (upper - lower) / upper,
            "pair_expected_gain": (far - near) / far,
            "driver_gap": top - upper,
            "driver_gap_share": (top - upper) / top,
            "usable_both": (longer.flown.usable + shorter.flown.usable) / 2,
            "new_clubs": float((longer.state == "new") + (shorter.state == "new")),
            "loft_step": max(0.0, shorter.spec.loft - longer.spec.loft),
            "longer_loft_short": self.failing * max(0.0, self.turf_loft - longer.spec.loft),
            "longer_strong": self.erring * max(0.0, self.mild_loft - longer.spec.loft),
        }
        absent = self.no_iron
        if golfer.iron is not None:
            iron, absent = golfer.iron.number, {}
            numbers["iron_gap"] = lower - iron
            numbers["iron_gap_share"] = (lower - iron) / lower
            steps.append(lower - iron)
        numbers["gap_unevenness"] = (max(steps) - min(steps)) / top
        return {**self.stamp(numbers), **absent, **self.types[_types(longer, shorter)]}


def _failing(judge: Judge) -> float:
    """Return how far the count of balls that get up falls short of enough, 0 to 1; 0 if nobody counted."""
    counted = judge.golfer.known["airborne_of_six"]
    if counted.value is None:
        return 0.0
    return min(1.0, max(0.0, assumed(judge.base, "airborne-enough") - counted.number))


def _erring(judge: Judge) -> float:
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
