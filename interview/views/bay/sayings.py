"""Facts and comparisons in words, as a fitter reads them."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from interview.wording.words import words as wording
from rules.engine.language import Assumed, Atom
from rules.units import difference_words, words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from rules.engine import RuleBase
    from rules.engine.language import Fact
    from rules.engine.trace import Traced
    from rules.engine.views import Value
    from rules.units import System

_OPS = {
    "is": "is", "is_not": "is not", "one_of": "is one of", "below": "below", "at_most": "at most",
    "above": "above", "at_least": "at least", "between": "between",
}  # fmt: skip


def value_words(fact: Fact, value: Value | Mapping[str, float] | None, system: System) -> str:
    """Return a fact's value in words."""
    if value is None:
        return "not known"
    if isinstance(value, float | int):
        return words(float(value), fact.unit, system)
    if isinstance(value, str):
        return value.replace("_", " ")
    if isinstance(value, frozenset):
        return ", ".join(sorted(one.replace("_", " ") for one in value)) or "none"
    called = wording().share
    return ", ".join(f"{called(fact.id, name)} {share * 100:.0f} %" for name, share in value.items())


def amount_words(thousandths: int, unit: str, system: System) -> str:
    """Return an adjustment of an amount in words, with its sign."""
    from rules.units import unit as unit_of

    shown = unit_of(unit)
    step = shown.to_si(thousandths / 1000) - shown.to_si(0.0)
    return f"{'+' if thousandths > 0 else ''}{difference_words(step, unit, system)}"


def blocked(traced: Traced, base: RuleBase, system: System) -> str:
    """Return what a comparison wants and what is in its way: `loft below 10 deg (it is 12 deg)`."""
    fact = base.facts[traced.fact or ""]
    now = value_words(fact, traced.view.best if traced.view else None, system)
    if not isinstance(traced.condition, Atom):
        return f"{fact.title} has to be known"
    return f"{fact.title} {_wanted(traced.condition, fact, base, system)} (it is {now})"


def _wanted(atom: Atom, fact: Fact, base: RuleBase, system: System) -> str:
    """Return the comparison without its fact."""
    if atom.op in ("known", "unknown"):
        return "known" if (atom.op == "known") == bool(atom.value) else "not known"
    if isinstance(atom.value, tuple):
        low, high = (value_words(fact, _number(end, base), system) for end in atom.value)
        return f"between {low} and {high}"
    if isinstance(atom.value, frozenset):
        said = " or ".join(sorted(one.replace("_", " ") for one in atom.value))
    else:
        said = value_words(fact, _plain(atom.value, base), system)
    return f"{_OPS.get(atom.op, atom.op)} {said}"


def _number(end: object, base: RuleBase) -> float:
    """Return a threshold as a number."""
    return cast(float, _plain(end, base))


def _plain(value: object, base: RuleBase) -> Value:
    """Return what a fact is compared with, an assumption's value filled in."""
    return base.assumptions[value.id].value if isinstance(value, Assumed) else cast("Value", value)
