"""The conditions of a rule as they stood: each comparison with its truth and the view that it read."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple, cast

from rules.engine.language import Atom, Condition, Fact
from rules.engine.plan import Plan
from rules.engine.truth import (
    ABSENT,
    BEST,
    FALSE,
    MAY,
    TRUE,
    Bound,
    all_of,
    any_of,
    best_word,
    holds_set,
    holds_word,
    opposite,
    word,
)
from rules.engine.views import View

Look = Callable[[str], View]
"""Finds the view of a fact."""


class Traced(NamedTuple):
    """One condition as it stood."""

    condition: Condition | None
    """The comparison or group; None for "the fact that the ramp follows has a value"."""
    truth: int
    """Six bits; see `truth`."""
    fact: str | None = None
    """The fact compared; None for a group."""
    view: View | None = None
    """What the fact was; None for a group."""
    parts: tuple[Traced, ...] = ()

    @property
    def best(self) -> str:
        """On the best values: holds, fails or absent."""
        return best_word(self.truth)

    @property
    def could(self) -> str:
        """Against all that is still open: holds, fails, absent or undetermined."""
        return word(self.truth)

    def atoms(self) -> Iterator[Traced]:
        """Yield the comparisons, in reading order."""
        if self.fact is not None:
            yield self
        for part in self.parts:
            yield from part.atoms()

    def blockers(self, wanted: bool = True) -> tuple[Traced, ...]:
        """Return the comparisons that kept the condition from holding (or failing, when not `wanted`)."""
        if bool(self.truth & (BEST if wanted else BEST << 3)):
            return ()
        if not self.parts:
            return (self,)
        group = cast("Condition", self.condition)
        inner = wanted if getattr(group, "op", "") != "none" else not wanted
        return tuple(found for part in self.parts for found in part.blockers(inner))


def trace(plan: Plan, condition: Condition | None, look: Look) -> Traced:
    """Return a condition as it stood."""
    if condition is None:
        return Traced(None, TRUE)
    if isinstance(condition, Atom):
        view = look(condition.fact)
        return Traced(condition, atom_truth(plan, condition, view), condition.fact, view)
    parts = tuple(trace(plan, part, look) for part in condition.parts)
    truths = [part.truth for part in parts]
    if condition.op == "all":
        return Traced(condition, all_of(truths), parts=parts)
    found = any_of(truths)
    return Traced(condition, found if condition.op == "any" else opposite(found), parts=parts)


def atom_truth(plan: Plan, atom: Atom, view: View) -> int:
    """Return the truth of one comparison."""
    if atom.op in ("known", "unknown"):
        held = view.known == (atom.op == "known")
        best = TRUE if held else FALSE
        return best if view.status != "open" else best & (BEST | BEST << 3) | MAY | MAY << 3
    fact = plan.facts[atom.fact]
    holds = _holds(plan, fact, atom)
    best = ABSENT if view.best is None else TRUE if holds(view.best) else FALSE
    if view.status != "open":
        return best
    could, could_not = _possible(plan, fact, atom, view)
    return best & (BEST | BEST << 3) | (MAY if could else 0) | (MAY << 3 if could_not else 0)


def _holds(plan: Plan, fact: Fact, atom: Atom) -> Callable[[object], bool]:
    """Return the comparison as a function of a value."""
    if fact.kind == "number":
        bound = plan.bound(atom)
        return lambda value: bound.holds(cast(float, value))
    wanted = plan.compared(atom)
    if fact.kind == "choice":
        return lambda value: holds_word(atom, cast(str, value), wanted)
    return lambda value: holds_set(atom, cast("frozenset[str]", value), wanted)


def _possible(plan: Plan, fact: Fact, atom: Atom, view: View) -> tuple[bool, bool]:
    """Return whether some permitted value makes the comparison hold, and whether some makes it fail."""
    could_be = fact.widest if view.could_be is None else view.could_be
    if fact.kind == "number":
        return _possible_number(plan.bound(atom), *cast("tuple[float, float]", could_be))
    wanted = plan.compared(atom)
    if fact.kind == "choice":
        results = {holds_word(atom, value, wanted) for value in cast("frozenset[str]", could_be)}
        return True in results, False in results
    must, may = cast("tuple[frozenset[str], frozenset[str]]", could_be)
    ends = holds_set(atom, must, wanted), holds_set(atom, may, wanted)
    return any(ends), not all(ends)


def _possible_number(bound: Bound, low: float, high: float) -> tuple[bool, bool]:
    """Return whether a stretch of numbers touches the inside of a bound, and its outside."""
    inside = low < bound.high and high >= bound.low
    outside = low < bound.low or high >= bound.high
    return (inside, outside) if bound.inside else (outside, inside)
