"""Names and values as inquiries say them: pairs, decisions, facts, amounts."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING

from interview.views.bay.sayings import value_words as said_of
from interview.views.outcome_text.quantities import spelled, trimmed
from rules.engine.text import value_words
from rules.ladder.rung import trade_name
from rules.units import unit, words

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.fitting import Outcome
    from rules.units import System

_PLACE = re.compile(r"(fairway|hybrid)-(\d+(?:\.\d+)?)$")
_ROLE = {"longer": "longer club", "shorter": "shorter club"}


class Words:
    """Says things of one outcome in one system of units, for a customer or for the trade."""

    def __init__(self, outcome: Outcome, system: System, *, customer: bool = False) -> None:
        self.outcome, self.system, self.customer = outcome, system, customer
        self.base = outcome.house.base

    def pair(self, id: str) -> str:
        """Name a pair: what the trade calls the two clubs and their lofts; for the trade its id as well."""
        if not id:
            return "no pair"
        both = [self._club(one) for one in id.split("+")]
        name = " and ".join(both)
        return name if self.customer else f"{name} ({id})"

    def _club(self, id: str) -> str:
        """Name one club of a pair by its id, with the loft of its head where it is on this ladder."""
        rung = next((one for one in self.outcome.rungs if one.id == id), None)
        if rung is not None and rung.owned is not None:
            return f"{'your own' if self.customer else 'the owned'} {rung.label.removesuffix(', owned')}"
        found = _PLACE.match(id)
        if found is None:
            return "a club of your own" if self.customer else "a club of the golfer's own"
        kind, loft = found.group(1), float(found.group(2))
        name = trade_name("fairway" if kind == "fairway" else "hybrid", loft)
        if rung is not None:  # a place is named by a rounded loft, its head has one of its own
            loft = unit("deg").from_si(rung.spec.loft)
        return f"a {name} of {trimmed(loft, 2)} degrees"

    def decision(self, id: str) -> str:
        """Name a decision: the pair, or a part of one of the two clubs."""
        role, _, part = id.rpartition(".")
        title = self.base.decisions[part].title
        return f"{title} of the {_ROLE[role]}" if role else "pair"

    def value(self, id: str, value: object) -> str:
        """Write a fact's value as a person would."""
        fact = self.base.facts[id]
        if value is None:
            return "not known"
        if isinstance(value, Mapping):
            return said_of(fact, value, self.system)
        said = value_words(fact, value, self.system)  # type: ignore[arg-type]
        return spelled(said) if self.customer else said

    def title(self, id: str) -> str:
        """Name a fact."""
        return self.base.facts[id].title

    def off(self, id: str, by: float) -> str:
        """Say how far a number is off, and to which side."""
        fact = self.base.facts[id]
        return f"{difference(fact, abs(by), self.system)} {'more' if by > 0 else 'less'} than taken"

    def picked(self, decision: str, pick: object) -> str:
        """Write what a decision comes to."""
        if decision == "pairing":
            return self.pair(str(pick))
        part = decision.rpartition(".")[2]
        declared = self.base.decisions[part]
        if isinstance(pick, float):
            if declared.kind == "amount":
                return words(pick, declared.unit, self.system)
            return f"{words(pick, 'in', self.system)} more off the tip" if pick else "cut as noted"
        return str(pick).replace("-", " ")


def difference(fact: Fact, by: float, system: System) -> str:
    """Write a difference of a fact; a plain number without unit, an angle as people say it."""
    if fact.unit == "deg":
        return f"{trimmed(unit('deg').from_si(by), 1)} degrees"
    if fact.unit in ("", "strokes"):
        return trimmed(by, 1)
    step = unit(fact.unit).step_from_si(by)
    name = {"degF": "degrees Fahrenheit"}.get(fact.unit, fact.unit)
    return f"{trimmed(step, 0 if step >= 10 else 1)} {name}"


def listed(parts: list[str], last: str = "and") -> str:
    """Join words as a person would; with semicolons where a part has a comma of its own."""
    if len(parts) < 2:
        return "".join(parts)
    comma = "; " if len(parts) > 2 and any(", " in part for part in parts) else ", "
    return f"{comma.join(parts[:-1])} {last} {parts[-1]}"


def in_a_hundred(share: float) -> str:
    """Write a share as a person hears it."""
    count = round(share * 100)
    return "always" if count >= 100 else "never" if count <= 0 else f"{count} times in a hundred"
