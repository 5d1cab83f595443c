"""Which open questions are worth asking: the weightiest first, within the declared order of topics.

What is at stake in a question is what the rules that wait on it can move at most, whichever way they turn
out: an upper bound that is the same from one answer to the next, and cheap enough to work out at each.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from rules.engine.base import RuleBase
from rules.engine.language import Rule

Waits = Mapping[str, Collection[str]]
"""For facts, asked or derived: the open questions they wait on."""
NOTICE, FORBIDDING = 0.25, 10.0
"""What a caution or advice, and what a rule that rules out, counts for, in points."""


class Weighed(NamedTuple):
    """The rules of a base by what they can move, and by what they read."""

    rules: tuple[tuple[str | None, float], ...]
    """Of each rule in order: its decision, and its weight."""
    readers: Mapping[str, tuple[int, ...]]
    """By fact: the places of the rules that read it."""


def stakes(base: RuleBase, waits: Waits, unsettled: Collection[str]) -> dict[str, float]:
    """Return what is at stake in each open question, in points.

    Only rules of decisions that are `unsettled` count, and cautions and advice. An adjustment counts by how
    many of its decision's materialities it moves.
    """
    weighed = _weighed(base)
    behind: dict[int, set[str]] = {}
    for fact, questions in waits.items():
        for place in weighed.readers.get(fact, ()) if questions else ():
            behind.setdefault(place, set()).update(questions)
    found: dict[str, float] = {}
    for place in sorted(behind):
        decision, weight = weighed.rules[place]
        if decision is None or decision in unsettled:
            for question in behind[place]:
                found[question] = found.get(question, 0.0) + weight
    return found


def sifted(
    base: RuleBase, unanswered: Iterable[str], at_stake: Mapping[str, float]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the questions worth asking and those that are needless, each in the order to ask them.

    Topics keep their declared order. Inside a topic come first those that are always asked, then those with
    most at stake; ties keep their declared order.
    """
    ranked = sorted(unanswered, key=lambda id: _rank(base, id, at_stake))
    worth = [id for id in ranked if at_stake.get(id, 0.0) > 0 or _always(base, id)]
    return tuple(worth), tuple([id for id in ranked if id not in worth])


def _rank(base: RuleBase, id: str, at_stake: Mapping[str, float]) -> tuple[int, bool, float, int, str]:
    """Order questions."""
    ask = base.facts[id].ask
    assert ask is not None
    weight = 0.0 if ask.always else -at_stake.get(id, 0.0)
    return (base.topics.index(ask.topic), not ask.always, weight, ask.order, id)


def _always(base: RuleBase, id: str) -> bool:
    """Say whether a question is asked whatever else is settled."""
    ask = base.facts[id].ask
    return ask is not None and ask.always


@lru_cache(maxsize=8)
def _weighed(base: RuleBase) -> Weighed:
    """Weigh the rules of a base, once for each."""
    rules: Sequence[Rule] = tuple(base.rules.values())
    readers: dict[str, list[int]] = {}
    for place, rule in enumerate(rules):
        for fact in rule.reads:
            readers.setdefault(fact, []).append(place)
    return Weighed(
        tuple((rule.decision, _weight(base, rule)) for rule in rules),
        {fact: tuple(places) for fact, places in readers.items()},
    )


def _weight(base: RuleBase, rule: Rule) -> float:
    """Return the most a rule can move, in points; an adjustment by its decision's materiality."""
    effect = rule.effect
    if effect.kind in ("caution", "advise"):
        return NOTICE
    if effect.kind == "rule_out":
        return FORBIDDING
    ends = tuple(y for _, y in effect.ramp.at) if effect.ramp else (0, effect.amount)
    span = max(0, *ends) - min(0, *ends)
    if effect.kind == "adjust" and rule.decision is not None:
        return span / max(1, base.decisions[rule.decision].materiality)
    return span / 1000
