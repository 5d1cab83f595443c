"""Sentences of rules with the values of their facts filled in, as a person would say them."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from rules.engine.language import Assumption, Decision, Fact
from rules.engine.views import Value, View
from rules.units import System, unit, words

_BRACE = re.compile(r"\{([^{}]*)\}")
NOT_KNOWN = "not known"
"""What a sentence says for a fact that is absent."""
START_FACT = "It starts from the {title}, {value}."
START_ASSUMPTION = "{text}"
LIMIT_LOW = "It is held at {value}, the least that is allowed here."
LIMIT_HIGH = "It is held at {value}, the most that is allowed here."
ROUNDING = "It is rounded to {value}, in steps of {step}."


def named_facts(text: str) -> tuple[str, ...]:
    """Return what the braces of a text enclose, in order."""
    return tuple(_BRACE.findall(text))


def stray_brace(text: str) -> str | None:
    """Return the neighbourhood of a brace that encloses nothing, or None."""
    rest = _BRACE.sub("", text)
    at = max(rest.find("{"), rest.find("}"))
    return None if at < 0 else rest[max(0, at - 10) : at + 10]


def typed(value: float, symbol: str) -> str:
    """Write an SI value in the unit in which it was declared, whatever people are shown."""
    return f"{unit(symbol).from_si(value):.6g} {symbol}".strip()


def value_words(fact: Fact, value: Value | None, system: System = "imperial") -> str:
    """Write a fact's value as a person would."""
    if value is None:
        return NOT_KNOWN
    if isinstance(value, str):
        return value.replace("_", " ")
    if isinstance(value, frozenset):
        said = [word.replace("_", " ") for word in fact.values if word in value]
        return " and ".join((", ".join(said[:-1]), said[-1])) if len(said) > 1 else (said or ["none"])[0]
    return words(value, fact.unit, system)


def fill(
    text: str, facts: Mapping[str, Fact], look: Callable[[str], View], system: System = "imperial"
) -> str:
    """Fill a sentence in. What a fact says is inserted as it is and never read as braces again."""

    def said(match: re.Match[str]) -> str:
        id = match.group(1)
        return value_words(facts[id], look(id).best, system) if id in facts else match.group()

    return _BRACE.sub(said, text)


def amount_words(decision: Decision, thousandths: int, system: System = "imperial") -> str:
    """Write an amount as a person would."""
    return words(unit(decision.unit).to_si(thousandths / 1000), decision.unit, system)


def step_words(decision: Decision) -> str:
    """Write a decision's rounding step."""
    plain = f"{decision.step / 1000:.3f}".rstrip("0").rstrip(".")
    return f"{plain} {decision.unit}".strip()


def start_words(fact: Fact | None, assumption: Assumption | None, value: float | None, system: System) -> str:
    """Say where an amount starts."""
    if fact is not None:
        return START_FACT.format(title=fact.title, value=value_words(fact, value, system))
    return START_ASSUMPTION.format(text=assumption.text if assumption else "")
