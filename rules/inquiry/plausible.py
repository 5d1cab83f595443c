"""Plausible answers to the questions still open: a fixed set of completions, the same each time.

Each open question is drawn over its declared plausible values (`rules.engine.completions`), with these
exceptions: of the ways to a head speed only the driver's own is drawn, about what is believed where
distances were told; a score is not drawn where the handicap is; and what follows from another open
question (attack from the turf mark, the iron's carry from its loft) is left to follow.
"""

from __future__ import annotations

from collections.abc import Mapping
from statistics import NormalDist
from typing import TYPE_CHECKING

from rules.engine.completions import completions, strata
from rules.facts.answers import Answer
from rules.facts.speed import DIRECT, DISTANCES

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.facts.known import Known
    from rules.fitting import Outcome

COUNT = 48
"""Completions in a set."""
_IRON_SPREAD = 0.06
"""Share by which the carry of an iron of known loft may differ from the sum."""


def open_questions(outcome: Outcome) -> tuple[str, ...]:
    """Return the questions that are drawn: open, able to matter, and following from no other open one."""
    asked, known = outcome.questions.worth_asking, outcome.golfer.known
    drawn = [id for id in asked if id not in (*DIRECT, *DISTANCES)]
    if known["driver_head_speed"].waits:
        drawn.append("driver_speed")
    follow = {
        "attack_angle": "turf_mark",
        "longest_iron_carry": "longest_iron_loft",
        "typical_score": "handicap",
    }
    return tuple(id for id in drawn if follow.get(id) not in drawn)


def plausible(outcome: Outcome, count: int = COUNT) -> tuple[Mapping[str, Answer], ...]:
    """Return plausible answers to the open questions, `count` sets of them."""
    facts = outcome.house.base.facts
    ids = open_questions(outcome)
    about = {id: known for id in ids if (known := _believed(outcome, id)) is not None}
    sets = completions([facts[id] for id in ids if id not in about], count)
    columns = {id: _about(facts[id], known, count) for id, known in about.items()}
    return tuple(
        {
            **{id: Answer(value) for id, value in one.items()},
            **{id: Answer(column[i]) for id, column in columns.items()},
        }
        for i, one in enumerate(sets)
    )


def _believed(outcome: Outcome, id: str) -> Known | None:
    """Return what is believed already of an open question; None where its plausible values must do."""
    known = outcome.golfer.known
    if id == "driver_speed":
        speed = known["driver_head_speed"]
        return speed if speed.how != "assumed" else None
    if id == "attack_angle":
        return known["attack"]
    if id == "longest_iron_carry" and outcome.golfer.iron is not None:
        iron = outcome.golfer.iron
        return iron._replace(spread=_IRON_SPREAD * iron.number)
    return None


def _about(fact: Fact, known: Known, count: int) -> list[float]:
    """Return normal quantiles about what is believed, within what is possible."""
    low, high = fact.range
    normal = NormalDist(known.number, max(known.spread, 1e-9))
    return [min(high, max(low, normal.inv_cdf(share))) for share in strata(fact.id, count)]
