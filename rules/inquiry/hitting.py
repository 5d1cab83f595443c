"""The smallest set that answers every counterexample: sets to hit, found one by one, and hit at least cost.

A set is not enough when changing some things outside it spoils what it should keep; so whatever is enough
holds at least one of those things. A smallest set that hits all such sets found so far is a lower bound,
and is the answer itself once no counterexample to it is left (R. Reiter, Artificial Intelligence 32 (1987)
57; J. Davies and F. Bacchus, CP 2011, Lecture Notes in Computer Science 6876, 225).
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass

Set = frozenset[str]
"""Things, by their names."""
Counterexample = Callable[[Set], Set | None]
"""Given a set, returns some things outside it whose change spoils it; None where it finds none."""


class Spent(Exception):  # noqa: N818  # no fault: the search stops with what it has
    """No more tries are allowed."""


@dataclass(frozen=True, slots=True)
class Smallest:
    """How far the search came."""

    found: tuple[str, ...] | None
    """A smallest set that is enough; None where the search had to stop before it found one."""
    at_least: int
    """No set of fewer things than this is enough."""
    hit: tuple[Set, ...]
    """Every set of things of which one at least is needed."""


def smallest(order: Sequence[str], counterexample: Counterexample, known: Iterable[Set] = ()) -> Smallest:
    """Return a smallest set of things to which no counterexample is found.

    `known` are sets of which it must hold one at least, each proved already. A counterexample may raise
    Spent, which ends the search. Of sets of one size the one that comes first in `order` is found.
    """
    sets = list(dict.fromkeys(known))
    while True:
        held = hitting(order, sets)
        try:
            spoiling = counterexample(frozenset(held))
        except Spent:
            return Smallest(None, len(held), tuple(sets))
        if spoiling is None:
            return Smallest(held, len(held), tuple(sets))
        sets.append(spoiling)


def hitting(order: Sequence[str], sets: Collection[Set]) -> tuple[str, ...]:
    """Return a smallest set of things that holds one at least of each set, in the given order."""
    best = frozenset(thing for one in sets for thing in one)
    stack: list[Set] = [frozenset()]
    while stack:
        held = stack.pop()
        left = [one for one in sets if not one & held]
        if not left:
            best = held if len(held) < len(best) else best
        elif len(held) + _apart(left) < len(best):
            narrow = min(left, key=lambda one: (len(one), sorted(one)))
            stack += [held | {thing} for thing in reversed(order) if thing in narrow]
    return tuple(thing for thing in order if thing in best)


def _apart(sets: Iterable[Set]) -> int:
    """Return how many of some sets have nothing in common, taken greedily: so many things are needed."""
    taken: set[str] = set()
    count = 0
    for one in sorted(sets, key=len):
        if not one & taken:
            taken |= one
            count += 1
    return count
