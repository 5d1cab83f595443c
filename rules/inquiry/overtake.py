"""What would make the runner-up win: the smallest set of answers to change, looked for by size.

One answer alone first, over every step and option of every fact; then two and three of the facts that help
the runner-up most, each at the value that helps it most. What was tried in vain is told with the result.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, islice
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rules.facts.answers import Answer
    from rules.inquiry.flips import FactFlips, Flipping
    from rules.inquiry.values import Trial

_POOL = 8
"""Facts of which pairs and triples are tried: those that help the runner-up most."""
_BEYOND = 80
"""Values tried at most beyond the first that changes the pair."""
MOST = 3
"""Answers changed together at most."""


@dataclass(frozen=True, slots=True)
class Overtake:
    """The smallest set of changed answers under which another pair wins, or what was tried for it in vain."""

    pair: str
    trials: tuple[Trial, ...]
    """One for each fact changed; empty where nothing that was tried makes it win."""
    alone: bool
    """Whether every step and option of each fact was tried alone, or one that does it was found."""
    pool: tuple[str, ...]
    """Facts of which every two and three were tried together; empty where one alone does it."""


def overtake(flipping: Flipping, rival: str, flips: Sequence[FactFlips]) -> Overtake:
    """Return the smallest set of changed answers under which a rival wins, as far as was tried.

    None of the changes of a set can be spared: smaller ones were tried before. Raises Superseded when
    nobody waits for it any more.
    """
    alone = [f for found in flips for f in found.flips if f.decision == "pairing" and f.pick == rival]
    if alone:
        return Overtake(rival, (min(alone, key=lambda flip: flip.far).trial,), True, ())
    further = [trial for found in flips for trial in flipping.beyond(found)]
    for trial in islice(further, _BEYOND):
        if flipping.roads.run(trial.answers).pick == rival:
            return Overtake(rival, (trial,), True, ())
    helping = sorted((best for found in flips if (best := _best(found)) is not None), key=lambda one: one[1])
    pool = [trial for trial, _ in helping[:_POOL]]
    facts, all_alone = tuple(trial.fact for trial in pool), len(further) <= _BEYOND
    for size in range(2, MOST + 1):
        for some in _sets(pool, size):
            if flipping.roads.run(together(some)).pick == rival:
                return Overtake(rival, some, all_alone, facts)
    return Overtake(rival, (), all_alone, facts)


def _best(found: FactFlips) -> tuple[Trial, int] | None:
    """Return the value of a fact that leaves the pick least before the rival, and what it leaves."""
    known = [(trial, apart) for trial, apart in found.tried if apart is not None]
    return min(known, key=lambda one: one[1], default=None)


def _sets(pool: Sequence[Trial], size: int) -> Iterator[tuple[Trial, ...]]:
    """Yield sets of changes of different facts, the most helpful first."""
    for some in combinations(pool, size):
        if len({trial.fact.partition(".")[0] for trial in some}) == size:
            yield some


def together(trials: Sequence[Trial]) -> dict[str, Answer | None]:
    """Return the answers of several changes."""
    return {id: answer for trial in trials for id, answer in trial.answers.items()}
