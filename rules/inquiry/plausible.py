"""Plausible answers to the questions still open: a fixed set of completions, the same each time.

Each open question is drawn over its declared plausible values (`rules.engine.completions`), with these
exceptions: of the ways to a head speed only the driver's own is drawn, about what is believed where
distances were told; an attack angle follows the turf mark, told or drawn; a score is not drawn where the
handicap is, nor an iron's carry where its loft is.
"""

from __future__ import annotations

from collections.abc import Mapping
from statistics import NormalDist
from typing import TYPE_CHECKING

from rules.engine.completions import completions, strata
from rules.facts.answers import Answer
from rules.facts.asked import applicable
from rules.facts.speed import DIRECT, DISTANCES

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.language import Fact
    from rules.facts.golfer import Golfer
    from rules.facts.known import Known
    from rules.facts.subject import Subject

COUNT = 48
"""Completions in a set."""
_FOLLOWS = {"longest_iron_carry": "longest_iron_loft", "typical_score": "handicap"}
"""Questions whose answer is left to follow from another's while that is open too."""
_IRON_SPREAD = 0.06
"""Share by which the carry of an iron of known loft may differ from the sum."""


def open_questions(base: RuleBase, subject: Subject, golfer: Golfer) -> tuple[str, ...]:
    """Return the questions that are drawn: those that apply and nobody answered, by the declared order."""
    on = applicable(base, subject.answers)
    drawn = [id for id in base.facts if id in on and id not in subject.answers]
    drawn = [id for id in drawn if id not in (*DIRECT, *DISTANCES, "attack_angle")]
    if golfer.known["driver_head_speed"].waits:
        drawn.append("driver_speed")
    return tuple(id for id in drawn if _FOLLOWS.get(id) not in drawn)


def plausible(
    base: RuleBase, subject: Subject, golfer: Golfer, count: int = COUNT
) -> tuple[Mapping[str, Answer], ...]:
    """Return plausible answers to the open questions, `count` sets of them."""
    ids = open_questions(base, subject, golfer)
    about = {id: known for id in ids if (known := _believed(golfer, id)) is not None}
    sets = completions([base.facts[id] for id in ids if id not in about], count)
    columns = {id: _about(base.facts[id], known, count) for id, known in about.items()}
    return tuple(
        {
            **{id: Answer(value) for id, value in one.items()},
            **{id: Answer(column[i]) for id, column in columns.items()},
        }
        for i, one in enumerate(sets)
    )


def _believed(golfer: Golfer, id: str) -> Known | None:
    """Return what is believed already of an open question; None where its plausible values must do."""
    if id == "driver_speed":
        speed = golfer.known["driver_head_speed"]
        return speed if speed.how != "assumed" else None
    if id == "longest_iron_carry" and golfer.iron is not None:
        return golfer.iron._replace(spread=_IRON_SPREAD * golfer.iron.number)
    return None


def _about(fact: Fact, known: Known, count: int) -> list[float]:
    """Return normal quantiles about what is believed, within what is possible."""
    low, high = fact.range
    normal = NormalDist(known.number, max(known.spread, 1e-9))
    return [min(high, max(low, normal.inv_cdf(share))) for share in strata(fact.id, count)]
