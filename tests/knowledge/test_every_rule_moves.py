"""Padding is worse than absence: each rule, taken out, changes what some sample golfer hears.

A rule moves a golfer when a pick, an amount, or points or margin (by a fifth of a point or more) of one of
his decisions change without it; a caution or advice, when he is told it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest

from rules.engine import Amount, Candidate, Choice
from rules.engine.views import known
from rules.facts.subject import Subject
from rules.fitting import House, Outcome, fit

_MATERIAL = 200
"""Thousandths of a point."""
UNSOLD = {"deep-sleeve-is-advised-against", "sleeved-tip-warns"}
"""The demo shop stocks no thin-tipped hybrid shaft, which its own check calls a fault: asked below."""

Signature = dict[str, tuple[object, int, int]]


def _of(decision: Choice | Amount) -> tuple[object, int, int]:
    if isinstance(decision, Amount):
        return decision.pick, 0, 0
    pick = decision.pick
    return (pick.candidate.id, pick.points, decision.margin or 0) if pick else (None, 0, 0)


def _signature(outcome: Outcome) -> Signature:
    assert outcome.pairing is not None
    found = {"pairing": _of(outcome.pairing)}
    for club in outcome.clubs:
        found |= {f"{club.role}.{id}": _of(made) for id, made in club.rung.decisions.items()}
        if club.direction:
            found[f"{club.role}.ports"] = _of(club.direction)
    return found


def _differ(one: Signature, other: Signature) -> bool:
    if one.keys() != other.keys():
        return True
    return any(
        a[0] != b[0] or abs(a[1] - b[1]) >= _MATERIAL or abs(a[2] - b[2]) >= _MATERIAL
        for a, b in ((one[id], other[id]) for id in one)
    )


def _likely(rule: str, outcomes: Mapping[str, Outcome]) -> list[str]:
    """Order the samples: those whose own ledgers name the rule first."""

    def named(outcome: Outcome) -> bool:
        ledgers = [outcome.pairing, *(d for club in outcome.clubs for d in club.rung.decisions.values())]
        ledgers += [club.direction for club in outcome.clubs]
        lines = [
            line
            for made in ledgers
            if made is not None
            for line in (made.lines if isinstance(made, Amount) else made.pick.lines if made.pick else ())
        ]
        return any(line.rule is not None and line.rule.id == rule for line in lines)

    return sorted(outcomes, key=lambda id: not named(outcomes[id]))


def test_every_rule_moves_some_golfer(
    house: House, sample_subjects: Mapping[str, Subject], sample_outcomes: Mapping[str, Outcome]
) -> None:
    before = {id: _signature(outcome) for id, outcome in sample_outcomes.items()}
    told = {notice.rule.id for outcome in sample_outcomes.values() for notice in outcome.notices}
    still = set()
    for id, rule in house.base.rules.items():
        if rule.effect.kind in ("caution", "advise"):
            moved = id in told
        else:
            without = replace(house, base=house.base.without(id))
            moved = any(
                _differ(before[who], _signature(fit(without, sample_subjects[who])))
                for who in _likely(id, sample_outcomes)
            )
        if not moved:
            still.add(id)
    assert still == UNSOLD


@pytest.mark.parametrize(
    ("fit_word", "points"), [("straight_fit", 0), ("thin_sleeve", -1000), ("deep_sleeve", -8000)]
)
def test_a_thin_tip_in_a_thick_bore_stands_far_behind(house: House, fit_word: str, points: int) -> None:
    # Case of the trade A11, common practice: 0.335 in 0.370 is advised against; 0.335 in 0.350 is shimmed.
    shaft = Candidate("shaft", {"tip_fit": known(fit_word)})
    choice = house.base.choose("shaft", {}, [shaft])
    assert choice.pick is not None
    assert choice.pick.points == points


def test_a_thick_tip_is_ruled_out_of_a_thin_bore(house: House) -> None:
    choice = house.base.choose("shaft", {}, [Candidate("shaft", {"tip_fit": known("no_fit")})])
    assert choice.pick is None
    assert [line.rule.id for line in choice.standings[0].ruled_out if line.rule] == ["tip-that-does-not-fit"]


def test_a_sleeved_tip_is_warned_of_at_the_bench(house: House) -> None:
    told = {n.rule.id: n for n in house.base.notices("bench", {"bench_tip_fit": known("deep_sleeve")})}
    assert "full-depth" in told["sleeved-tip-warns"].text()
    assert "wall" in told["opening-a-bore"].text()
