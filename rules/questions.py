"""Which questions are still worth asking, and in which order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.engine.ledger import Choice
from rules.facts.asked import applicable

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.language import Rule
    from rules.facts.golfer import Golfer
    from rules.facts.subject import Subject
    from rules.ladder.pairs import Pair


@dataclass(frozen=True, slots=True)
class Questions:
    """The questions of the interview that nobody has answered, sorted by what they could still do."""

    worth_asking: tuple[str, ...]
    """Open, and able to change something (or a matter of safety): in the order to ask them."""
    needless: tuple[str, ...]
    """Open, and unable to change anything any more."""
    stakes: Mapping[str, float]
    """What is at stake in each, in points; adjustments count by how many of their materialities they move."""


def questions(
    base: RuleBase, golfer: Golfer, subject: Subject, pairing: Choice | None, picked: Pair | None
) -> Questions:
    """Return the open questions, weightiest first within the declared order of topics.

    A question is worth asking while a rule that is not yet settled reads a fact that waits on it. Rules
    of a settled decision no longer count; cautions always do.
    """
    on = applicable(base, subject.answers)
    stakes = _stakes(base, golfer, pairing, picked)
    unanswered = [id for id in on if id not in subject.answers]

    def rank(id: str) -> tuple[int, bool, float, int, str]:
        ask = base.facts[id].ask
        assert ask is not None
        weight = 0.0 if ask.always else -stakes.get(id, 0.0)
        return (base.topics.index(ask.topic), not ask.always, weight, ask.order, id)

    worth = [id for id in unanswered if stakes.get(id, 0.0) > 0 or _always(base, id)]
    needless = sorted(set(unanswered) - set(worth), key=rank)
    return Questions(tuple(sorted(worth, key=rank)), tuple(needless), stakes)


def _always(base: RuleBase, id: str) -> bool:
    """Say whether a question is asked whatever else is settled."""
    ask = base.facts[id].ask
    return ask is not None and ask.always


def _stakes(base: RuleBase, golfer: Golfer, pairing: Choice | None, picked: Pair | None) -> dict[str, float]:
    """Return what is at stake in each open question, over every rule that reads a fact waiting on it."""
    unsettled = _unsettled(base, pairing, picked)
    waits = _waits(golfer, picked)
    stakes: dict[str, float] = {}
    for rule in base.rules.values():
        if rule.decision is not None and rule.decision not in unsettled:
            continue
        touched: frozenset[str] = frozenset().union(*(waits.get(fact, frozenset()) for fact in rule.reads))
        for question in touched:
            stakes[question] = stakes.get(question, 0.0) + _weight(base, rule)
    return stakes


def _unsettled(base: RuleBase, pairing: Choice | None, picked: Pair | None) -> frozenset[str]:
    """Return the decisions that open questions could still change; what is not decided yet counts."""
    if pairing is None or picked is None:
        return frozenset(base.decisions)
    open_ones = set() if pairing.settled else {"pairing"}
    for rung in (picked.longer, picked.shorter):
        for id, decision in rung.decisions.items():
            if not decision.settled:
                open_ones.add(id)
    if not pairing.settled:
        open_ones |= {id for id, decision in base.decisions.items() if decision.scope == "rung"}
    return frozenset(open_ones | {"ports"})


def _waits(golfer: Golfer, picked: Pair | None) -> dict[str, frozenset[str]]:
    """Return the open questions behind every open fact of the golfer and of the pair that leads."""
    waits = {id: known.waits for id, known in golfer.known.items() if known.waits}
    if picked is not None:
        for found in (picked.longer.waits, picked.shorter.waits, picked.waits):
            for id, questions in found.items():
                waits[id] = waits.get(id, frozenset()) | questions
    return waits


def _weight(base: RuleBase, rule: Rule) -> float:
    """Return the most a rule can move, in points; an adjustment by its decision's materiality."""
    effect = rule.effect
    if effect.kind in ("caution", "advise"):
        return 0.25
    if effect.kind == "rule_out":
        return 10.0
    ends = tuple(y for _, y in effect.ramp.at) if effect.ramp else (0, effect.amount)
    span = max(0, *ends) - min(0, *ends)
    if effect.kind == "adjust" and rule.decision is not None:
        return span / max(1, base.decisions[rule.decision].materiality)
    return span / 1000
