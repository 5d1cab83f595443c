"""The map of the rule base: from a fact over what is derived from it to the rules that read it, and on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.lessons.naming import behind, whole

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.language import Rule
    from rules.fitting import House


@dataclass(frozen=True, slots=True)
class Reader:
    """One rule that a fact reaches."""

    rule: Rule
    through: str
    """The fact that the rule reads: the one asked about, or one that is derived from it."""

    @property
    def decision(self) -> str | None:
        """The decision that the rule weighs on; None for a caution or advice."""
        return self.rule.decision


@dataclass(frozen=True, slots=True)
class FactMap:
    """Where one fact goes."""

    fact: str
    derived: tuple[str, ...]
    """Facts that are worked out from it, in the order of the rule base."""
    readers: tuple[Reader, ...]
    """Rules that read it or what is derived from it, those that read it itself first."""
    starts: tuple[str, ...]
    """Decisions on amounts that start from it or from what is derived from it."""

    @property
    def decisions(self) -> tuple[str, ...]:
        """Decisions that it reaches, each once."""
        reached = (one.decision for one in self.readers if one.decision is not None)
        return tuple(dict.fromkeys((*reached, *self.starts)))

    def on(self, decision: str | None) -> tuple[Reader, ...]:
        """Return the rules on one decision; None for cautions and advice."""
        return tuple(one for one in self.readers if one.decision == decision)


def fact_map(house: House, fact: str) -> FactMap:
    """Return where a fact goes; a part of shares is mapped as its whole."""
    return _mapped(house, whole(fact))


def rule_map(house: House) -> tuple[FactMap, ...]:
    """Return where every question goes: the one that reaches most rules first."""
    asked = [id for id, fact in house.base.facts.items() if fact.ask is not None]
    return tuple(sorted((_mapped(house, id) for id in asked), key=lambda one: (-len(one.readers), one.fact)))


def _mapped(house: House, fact: str) -> FactMap:
    """Map one whole fact."""
    base, waits = house.base, behind(house)
    derived = tuple(
        dict.fromkeys(whole(id) for id in base.facts if fact in waits.get(id, ()) and whole(id) != fact)
    )
    starts = tuple(d.id for d in base.decisions.values() if d.start_fact in (fact, *derived))
    return FactMap(fact, derived, _readers(base, fact, derived), starts)


def _readers(base: RuleBase, fact: str, derived: tuple[str, ...]) -> tuple[Reader, ...]:
    """Return the rules that read a fact or what is derived from it, each once, by the nearest way."""
    found: dict[str, Reader] = {}
    for through in (fact, *derived):
        for rule in base.rules.values():
            if rule.id not in found and through in {whole(id) for id in rule.reads}:
                found[rule.id] = Reader(rule, through)
    return tuple(found.values())
