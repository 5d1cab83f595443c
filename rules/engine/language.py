"""The words of the rule language as data: facts, assumptions, decisions, rules, conditions, effects."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

from rules.engine.ramps import Ramp
from rules.engine.views import CouldBe, Value, point

Kind = Literal["number", "choice", "set", "shares"]
EffectKind = Literal["points", "rule_out", "adjust", "caution", "advise"]


@dataclass(frozen=True, slots=True)
class Source:
    """Where a fact, rule or assumption comes from."""

    kind: str
    """published, common_practice, memory, assumption, or the rules of something: rules_of_..."""
    parts: Mapping[str, str | int]
    """author, year, title, place; rule, edition; note: as the kind asks."""

    @property
    def cite(self) -> str | None:
        """The source in one line; None for common practice without a note."""
        part = self.parts.get
        if self.kind == "published":
            return f"{part('author')} ({part('year')}), {part('title')}, {part('place')}"
        if self.kind.startswith("rules_of_"):
            return f"{part('rule')}, edition {part('edition')}"
        note = part("note")
        return None if note is None else str(note)


@dataclass(frozen=True, slots=True)
class Assumed:
    """A threshold that is the value of an assumption."""

    id: str


Threshold = float | Assumed
"""A number in SI, or an assumption's."""


@dataclass(frozen=True, slots=True)
class Atom:
    """One comparison with one fact."""

    fact: str
    op: str
    """is, is_not, one_of, below, at_most, above, at_least, between, known or unknown."""
    value: Threshold | str | frozenset[str] | tuple[Threshold, Threshold] | bool
    """What it is compared with; words of `one_of` as a set, the ends of `between` as a pair."""


@dataclass(frozen=True, slots=True)
class Group:
    """Several conditions joined by all, any or none."""

    op: str
    parts: tuple[Condition, ...]


Condition = Atom | Group


def atoms(condition: Condition | None) -> Iterator[Atom]:
    """Yield every comparison of a condition, in reading order."""
    if isinstance(condition, Atom):
        yield condition
    elif condition is not None:
        for part in condition.parts:
            yield from atoms(part)


@dataclass(frozen=True, slots=True)
class Ask:
    """How a fact is asked."""

    topic: str
    order: int
    always: bool = False
    """Asked whatever else is settled: safety."""
    applies: Condition | None = None


@dataclass(frozen=True, slots=True)
class Fact:
    """Something that rules may read."""

    id: str
    scope: str
    kind: Kind
    unit: str
    """Unit in which a number is typed and shown; values are held in SI."""
    values: tuple[str, ...]
    range: tuple[float, float]
    """What is possible at all, SI; (0, 0) for words."""
    title: str
    text: str
    source: Source
    widest: CouldBe
    """What could be while nothing is known."""
    ask: Ask | None = None
    fallback: str | None = None
    """The assumption that stands in when nobody says."""
    spread: Mapping[str, float] = field(default_factory=dict)
    """Standard deviation by how a number is known, SI."""
    plausible: tuple[float, float] | Mapping[str, float] | None = None
    """Where an open question's answer is likely: two numbers, or words and weights."""
    derived: bool = False
    decided_with: str | None = None
    used_for: str = ""
    """What the program itself does with it, besides what rules do; a short phrase."""
    part_of: str | None = None
    """The shares fact of which this is one part."""

    def point(self, value: Value) -> CouldBe:
        """Return what could be when only `value` can be."""
        return point(value)


@dataclass(frozen=True, slots=True)
class Assumption:
    """A house value with its range."""

    id: str
    value: Value
    range: tuple[float, float] | None
    """Plausible range, SI; None for words."""
    values: tuple[str, ...]
    """The words it could be instead; empty for a number."""
    unit: str
    text: str
    source: Source


@dataclass(frozen=True, slots=True)
class Decision:
    """Something to be decided: a choice among candidates, or an amount."""

    id: str
    scope: str
    order: int
    kind: Literal["choice", "amount"]
    title: str
    text: str
    source: Source
    unit: str = ""
    start_fact: str | None = None
    start_assumption: str | None = None
    limits: tuple[int, int] = (0, 0)
    """Lowest and highest, thousandths of the unit."""
    step: int = 1
    """Rounding step, thousandths of the unit."""
    materiality: int = 0
    """Differences up to this no longer matter, thousandths of the unit."""


@dataclass(frozen=True, slots=True)
class Effect:
    """What a rule does when its condition holds."""

    kind: EffectKind
    amount: int = 0
    """Points or adjustment, thousandths; unused with a ramp."""
    ramp: Ramp | None = None
    topic: str = ""
    """Of a caution or advice."""


@dataclass(frozen=True, slots=True)
class Contested:
    """The other school's view of a rule."""

    other: str
    """Its sentence."""
    leans: str
    """Why this rule base leans as it does."""
    effect: Effect | None = None
    """The effect it would have instead; None for none."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: when it speaks, what it does, and why."""

    id: str
    decision: str | None
    scope: str
    when: Condition | None
    effect: Effect
    because: str
    teaches: str
    source: Source
    contested: Contested | None = None

    @property
    def reads(self) -> frozenset[str]:
        """Facts that decide whether it speaks and what it says."""
        ids = {atom.fact for atom in atoms(self.when)}
        if self.effect.ramp:
            ids.add(self.effect.ramp.fact)
        return frozenset(ids)
