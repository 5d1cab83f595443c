"""Which open question to ask next: the weightiest first, within the declared order of topics."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import NamedTuple

from rules.engine.base import RuleBase
from rules.engine.evaluate import Outcome
from rules.engine.language import Rule
from rules.engine.ledger import Amount, Choice
from rules.engine.settle import Pairwise

MOST_RIVALS = 12
"""Rivals that are looked at: those still able to overtake, by standing."""

Waits = Mapping[str, Collection[str]]
"""For facts that are not asked themselves: the open questions they wait on."""


class Question(NamedTuple):
    """An open question worth asking."""

    id: str
    topic: str
    stake: int
    """Points that its answer can move between the pick and a rival, thousandths."""
    always: bool
    """Asked whatever is at stake."""


def next_questions(
    base: RuleBase,
    results: Sequence[Choice | Amount],
    open: Collection[str],
    waits: Waits | None = None,
) -> tuple[Question, ...]:
    """Return the open questions worth asking, in order.

    Topics keep their declared order. Inside a topic come first those that are always asked, then those
    with most points at stake; ties keep their declared order. Questions that can move nothing are left
    out.
    """
    at_stake: dict[str, int] = {}
    for result in results:
        found = (
            choice_stakes(result, open, waits)
            if isinstance(result, Choice)
            else amount_stakes(result, open, waits)
        )
        for id, stake in found.items():
            at_stake[id] = at_stake.get(id, 0) + stake
    topics = {topic: i for i, topic in enumerate(base.topics)}
    questions = []
    for id in open:
        ask = base.facts[id].ask
        if ask is not None and (ask.always or at_stake.get(id, 0) > 0):
            key = (topics[ask.topic], not ask.always, 0 if ask.always else -at_stake[id], ask.order, id)
            questions.append((key, Question(id, ask.topic, at_stake.get(id, 0), ask.always)))
    return tuple(question for _, question in sorted(questions))


def choice_stakes(choice: Choice, open: Collection[str], waits: Waits | None = None) -> dict[str, int]:
    """Return, for each open question, the points it can move between the pick and any rival.

    Only rivals that could still overtake count, and only what does not give both the same.
    """
    if not choice.standings or choice.settled:
        return {}
    leader, *rivals = choice.standings
    proof = Pairwise(leader.outcome)
    stakes: dict[str, int] = {}
    for rival in rivals[:MOST_RIVALS]:
        if (
            not choice.pick
            or proof.least(rival.outcome) <= 0
            or rival.outcome.may & rival.outcome.run.plan.rule_outs
        ):
            for id, stake in _against(proof, leader.outcome, rival.outcome, open, waits).items():
                stakes[id] = max(stakes.get(id, 0), stake)
    for id in _ruling_out(leader.outcome, open, waits):
        stakes[id] = stakes.get(id, 0) + 1_000_000
    return stakes


def _against(
    proof: Pairwise, mine: Outcome, rival: Outcome, open: Collection[str], waits: Waits | None
) -> dict[str, int]:
    """Return what each question can move between two outcomes."""
    stakes: dict[str, int] = {}
    for bit, span in proof.spans(rival).items():
        for id in questions_of(mine.run.plan.scored[bit].rule, open, waits):
            stakes[id] = stakes.get(id, 0) + span
    return stakes


def _ruling_out(outcome: Outcome, open: Collection[str], waits: Waits | None) -> set[str]:
    """Return the questions that may still rule an outcome out."""
    plan = outcome.run.plan
    unsure = outcome.may & ~outcome.must & plan.rule_outs
    return {
        id for rule in plan.rules if plan.bits[rule.id] & unsure for id in questions_of(rule, open, waits)
    }


def amount_stakes(amount: Amount, open: Collection[str], waits: Waits | None = None) -> dict[str, int]:
    """Return, for each open question, how far it can move an amount.

    Measured in materialities (a thousandth each), so that amounts and points can be added up.
    """
    if amount.settled:
        return {}
    outcome = amount.outcome
    scale = max(1, amount.decision.materiality)
    stakes: dict[str, int] = {}
    unsure = outcome.unsure
    while unsure:
        bit = unsure & -unsure
        unsure ^= bit
        low, high = outcome.interval(bit)
        for id in questions_of(outcome.run.plan.scored[bit].rule, open, waits):
            stakes[id] = stakes.get(id, 0) + (high - low) * 1000 // scale
    if amount.decision.start_fact:
        spread = (amount.high - amount.low) * 1000 // scale
        for id in questions_behind(amount.decision.start_fact, open, waits):
            stakes[id] = stakes.get(id, 0) + spread
    return stakes


def questions_of(rule: Rule, open: Collection[str], waits: Waits | None) -> set[str]:
    """Return the open questions on which a rule waits, directly or through derived facts."""
    return {id for fact in rule.reads for id in questions_behind(fact, open, waits)}


def questions_behind(fact: str, open: Collection[str], waits: Waits | None) -> set[str]:
    """Return the open questions behind one fact; a part of shares belongs to its whole."""
    whole = fact.partition(".")[0]
    found = {id for id in (fact, whole) if id in open}
    if waits is not None:
        found.update(id for id in waits.get(fact, ()) if id in open)
    return found
