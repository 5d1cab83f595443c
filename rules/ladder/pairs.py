"""Pairs of rungs and the facts of each: gaps, usable shares, make-up, and what is his own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.engine.views import View
from rules.facts.known import Known, view
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.golfer import Golfer
    from rules.ladder.rung import Rung

_INCH = parse("1 in", "m")
_LEAST_STEP = 0.02
"""Two rungs nearer in loft than this (rad, a little over a degree) are one place on the ladder."""


@dataclass(frozen=True, slots=True)
class Pair:
    """Two rungs, the stronger first, with their views for the engine."""

    id: str
    longer: Rung
    shorter: Rung
    views: Mapping[str, View]
    waits: Mapping[str, frozenset[str]]
    """Open questions behind its facts, by fact."""


def order(rungs: Sequence[Rung]) -> list[Rung]:
    """Return rungs from strong to weak; of equal lofts the fairway wood first, new before his own."""
    return sorted(rungs, key=lambda r: (r.spec.loft, r.kind, r.state != "new", r.id))


def pairs(base: RuleBase, golfer: Golfer, rungs: Sequence[Rung]) -> list[Pair]:
    """Return every pair of places on the ladder that the shop and the bag allow.

    Two versions of one club he owns make no pair, nor do two rungs of practically one loft and type.
    """
    ladder = order(rungs)
    best = max((rung.flown.expected for rung in ladder), default=1.0)
    made = []
    for index, longer in enumerate(ladder):
        for shorter in ladder[index + 1 :]:
            if (
                longer.owned is not None
                and shorter.owned is not None
                and longer.owned.name == shorter.owned.name
            ):
                continue
            if longer.kind == shorter.kind and shorter.spec.loft - longer.spec.loft < _LEAST_STEP:
                continue
            made.append(_pair(base, golfer, longer, shorter, best))
    return made


def _types(longer: Rung, shorter: Rung) -> str:
    """Return what a pair is made of."""
    if longer.kind == shorter.kind:
        return "two_fairway_woods" if longer.kind == "fairway" else "two_hybrids"
    return "wood_and_hybrid" if longer.kind == "fairway" else "hybrid_above_wood"


def _pair(base: RuleBase, golfer: Golfer, longer: Rung, shorter: Rung, best: float) -> Pair:
    """Return one pair with its facts, read from flights already flown."""
    facts: dict[str, Known] = {}
    for role, rung in (("longer", longer), ("shorter", shorter)):
        facts |= _role_facts(golfer, role, rung, best)
    facts |= _gap_facts(golfer, longer, shorter)
    waits = golfer.flight_waits | golfer.strike_waits
    usable = (longer.flown.usable + shorter.flown.usable) / 2
    facts["usable_both"] = Known(usable, waits=waits)
    facts["pair_types"] = Known(_types(longer, shorter))
    facts["new_clubs"] = Known(float((longer.state == "new") + (shorter.state == "new")))
    facts["loft_step"] = Known(max(0.0, shorter.spec.loft - longer.spec.loft))
    waited = {id: known.waits for id, known in facts.items() if known.waits}
    return Pair(f"{longer.id}+{shorter.id}", longer, shorter, _views(base, facts), waited)


def _views(base: RuleBase, facts: Mapping[str, Known]) -> dict[str, View]:
    """Turn a pair's facts into views, numbers held within their declared range."""
    made = {}
    for id, known in facts.items():
        fact = base.facts[id]
        if fact.kind == "number" and known.value is not None:
            low, high = fact.range
            held = min(high, max(low, known.number))
            known = Known(held, known.how, known.spread, known.waits, known.closed)
        made[id] = view(fact, known)
    return made


def _role_facts(golfer: Golfer, role: str, rung: Rung, best: float) -> dict[str, Known]:
    """Return the facts of one of the two clubs."""
    flown, waits = rung.flown, golfer.flight_waits
    struck = waits | golfer.strike_waits
    liked = (rung.owned.liked or "so_so") if rung.owned else "not_owned"
    sole = rung.spec.head.sole_width if rung.spec.head else None
    return {
        f"{role}_kind": Known(rung.kind),
        f"{role}_loft": Known(rung.spec.loft),
        f"{role}_carry": Known(flown.centred, waits=waits),
        f"{role}_expected": Known(flown.expected, waits=struck),
        f"{role}_expected_lost": Known(1 - flown.expected / best, waits=struck),
        f"{role}_usable": Known(flown.usable, waits=struck),
        f"{role}_height_share": Known(flown.height_share, waits=waits),
        f"{role}_owned": Known(rung.state),
        f"{role}_liked": Known(liked),
        f"{role}_sole_width": Known(sole, closed=sole is None),
        f"{role}_cut": Known(rung.cut),
        f"{role}_overlong": Known(_overlong(rung)),
    }


def _overlong(rung: Rung) -> float:
    """Return how much longer his own club is, left as it is, than the rules would build it, m."""
    if rung.state != "as_it_is":
        return 0.0
    pinned = sum(line.adjust for line in rung.decisions["length"].lines if line.kind == "pinned")
    return max(0.0, pinned / 1000 * _INCH)


def _gap_facts(golfer: Golfer, longer: Rung, shorter: Rung) -> dict[str, Known]:
    """Return the gaps from driver to longest iron; where an end is unknown its gap is absent."""
    top, upper, lower = golfer.driver.carry, longer.flown.centred, shorter.flown.centred
    waits = golfer.flight_waits
    driver_waits = waits | golfer.known["driver_loft"].waits
    steps = [top - upper, upper - lower]
    facts = {
        "pair_gap": Known(upper - lower, waits=waits),
        "pair_gap_share": Known((upper - lower) / upper, waits=waits),
        "pair_expected_gain": Known(
            (longer.flown.expected - shorter.flown.expected) / longer.flown.expected,
            waits=waits | golfer.strike_waits,
        ),
        "driver_gap": Known(top - upper, waits=driver_waits),
        "driver_gap_share": Known((top - upper) / top, waits=driver_waits),
    }
    iron = golfer.iron
    iron_waits = golfer.known["longest_iron_carry"].waits | golfer.known["longest_iron_loft"].waits
    if iron is None:
        gone = Known(None, "assumed", waits=iron_waits, closed=True)
        facts |= {"iron_gap": gone, "iron_gap_share": gone}
    else:
        both = waits | iron.waits
        facts["iron_gap"] = Known(lower - iron.number, waits=both)
        facts["iron_gap_share"] = Known((lower - iron.number) / lower, waits=both)
        steps.append(lower - iron.number)
    facts["gap_unevenness"] = Known((max(steps) - min(steps)) / top, waits=driver_waits | iron_waits)
    return facts
