"""Answers in words, as they are read back to the person who gave them."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from rules.units import System, words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from interview.wording.words import Asked, Words
    from rules.engine.language import Fact
    from rules.facts.answers import Answer


def answer_text(
    fact: Fact, asked: Asked, answer: Answer | None, wording: Words, units: System = "imperial"
) -> str:
    """Return an answer in words: a quantity with its unit, a choice by its label; empty without one."""
    if answer is None:
        return ""
    if answer.unknown:
        return wording.say("interview.unknown")
    text = _value_text(fact, asked, answer, units)
    return text if answer.how == "said" else f"{text}, {wording.say(f'interview.{answer.how}')}"


def _value_text(fact: Fact, asked: Asked, answer: Answer, units: System) -> str:
    if fact.kind == "number":
        return words(cast(float, answer.value), fact.unit, units)
    if fact.kind == "choice":
        return asked.label(cast(str, answer.value))
    if fact.kind == "set":
        said = cast("frozenset[str]", answer.value)
        return "; ".join(choice.text for choice in asked.choices if choice.word in said)
    shares = cast("Mapping[str, float]", answer.value)
    parts = [(c.text, shares[c.word]) for c in asked.choices if shares.get(c.word)]
    return "; ".join(f"{text} {round(share * 100)} %" for text, share in parts)
