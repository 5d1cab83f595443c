"""What would make the runner-up win: the smallest set of answers to change, as far as was tried."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rules.facts.answers import Answer
    from rules.inquiry.flips import FactFlips
    from rules.inquiry.roads import Roads
    from rules.inquiry.values import Trial

_MOST = 7
"""Facts of which pairs and triples are tried: those that help the runner-up most."""


@dataclass(frozen=True, slots=True)
class Overtake:
    """A set of changed answers under which another pair wins."""

    pair: str
    trials: tuple[Trial, ...]
    """One for each fact changed."""


def overtake(roads: Roads, rival: str, flips: Sequence[FactFlips]) -> Overtake | None:
    """Return the smallest set of changed answers under which a rival wins; None where none was found.

    The nearest single flip to the rival, if there is one; else pairs, then triples of the changes that help
    it most. None of the changes of a set can be spared.
    """
    alone = [f for found in flips for f in found.flips if f.decision == "pairing" and f.pick == rival]
    if alone:
        return Overtake(rival, (min(alone, key=lambda flip: flip.far).trial,))
    helping = [trial for found in flips if (trial := _best(found)) is not None]
    helping.sort(key=lambda one: one[1])
    trials = [trial for trial, _ in helping[:_MOST]]
    for size in (2, 3):
        for some in _sets(trials, size):
            if roads.run(_together(some)).pick == rival:
                return Overtake(rival, some)
    return None


def _best(found: FactFlips) -> tuple[Trial, int] | None:
    """Return the value of a fact that leaves the pick least before the rival, and what it leaves."""
    known = [(trial, apart) for trial, apart in found.tried if apart is not None]
    return min(known, key=lambda one: one[1], default=None)


def _sets(pool: Sequence[Trial], size: int) -> Iterator[tuple[Trial, ...]]:
    """Yield sets of changes of different facts, the most helpful first."""
    for some in combinations(pool, size):
        if len({trial.fact.partition(".")[0] for trial in some}) == size:
            yield some


def _together(trials: Sequence[Trial]) -> dict[str, Answer | None]:
    """Return the answers of several changes."""
    return {id: answer for trial in trials for id, answer in trial.answers.items()}
