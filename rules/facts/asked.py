"""Every question of the interview as it stands: answered, closed by "I don't know", or open."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, cast

from rules.facts.answers import Answer
from rules.facts.known import NOTHING, Known, half_range, views

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.language import Fact


def applicable(base: RuleBase, answers: Mapping[str, Answer]) -> frozenset[str]:
    """Return the questions that apply, given the answers.

    A question's condition may read other questions; it is read against their answers alone, so the
    order of answers changes nothing.
    """
    facts = base.facts
    read = {id: _known(base, facts[id], answers.get(id)) for id in base.asked_by_questions}
    seen = views(base, read)
    return frozenset([id for id, fact in facts.items() if fact.ask and base.applies(id, seen)])


def asked(base: RuleBase, answers: Mapping[str, Answer]) -> dict[str, Known]:
    """Return every applicable question as it stands; a hidden question's answer does not act."""
    on = applicable(base, answers)
    known: dict[str, Known] = {}
    for id, fact in base.facts.items():
        if fact.ask is None or fact.kind == "shares":
            continue
        known[id] = _known(base, fact, answers.get(id)) if id in on else Known(None, "assumed", closed=True)
    return known


def _known(base: RuleBase, fact: Fact, answer: Answer | None) -> Known:
    """Return one question as it stands."""
    if answer is not None and not answer.unknown:
        spread = fact.spread.get(answer.how, 0.0)
        return Known(cast("float | str | frozenset[str]", answer.value), answer.how, spread)
    waits = frozenset((fact.id,)) if answer is None else NOTHING
    if fact.fallback is None:
        return Known(None, "assumed", 0.0, waits, closed=answer is not None)
    fallback = base.assumptions[fact.fallback]
    spread = half_range(base, fact.fallback) if fact.kind == "number" else 0.0
    return Known(fallback.value, "assumed", spread, waits, closed=answer is not None)


def shares(base: RuleBase, answers: Mapping[str, Answer], id: str) -> tuple[dict[str, float], Known]:
    """Return a question of shares: every part's share, and how the whole stands.

    Nobody having said, the fact's `plausible` weights stand in, scaled to one.
    """
    fact = base.facts[id]
    answer = answers.get(id)
    if answer is not None and not answer.unknown:
        told = cast("Mapping[str, float]", answer.value)
        return {part: told.get(part, 0.0) for part in fact.values}, Known(None, answer.how)
    weights = cast("Mapping[str, float]", fact.plausible)
    total = sum(weights.values())
    waits = frozenset((id,)) if answer is None else NOTHING
    return {p: weights.get(p, 0.0) / total for p in fact.values}, Known(
        None, "assumed", 0.0, waits, answer is not None
    )
