"""A fixed, repeatable set of plausible completions of open questions.

A Latin hypercube (McKay, Beckman and Conover 1979, Technometrics 21): over the whole set each fact takes
every stratum of its plausible distribution once, in an order that hangs on its id alone. So answering
one question changes nothing in how the others are completed, and every run sees the same set.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from hashlib import sha256

from rules.engine.language import Fact
from rules.engine.views import Value

Completion = dict[str, Value | dict[str, float]]
"""A value for every open fact: number in SI, word, set of words, or shares that add up to one."""
USUAL_COUNT = 64
"""Completions in a set, unless told otherwise."""


def completions(facts: Iterable[Fact], count: int = USUAL_COUNT) -> tuple[Completion, ...]:
    """Return the fixed set of completions of some open facts."""
    columns = {fact.id: _column(fact, count) for fact in facts}
    return tuple({id: column[i] for id, column in columns.items()} for i in range(count))


def order(name: str, count: int) -> list[int]:
    """Return the numbers below `count` in an order that hangs on a name alone (Fisher and Yates)."""
    numbers = list(range(count))
    state = int.from_bytes(sha256(name.encode()).digest()[:8], "big")
    for i in range(count - 1, 0, -1):
        state = (state * 6364136223846793005 + 1442695040888963407) % 2**64
        j = (state >> 33) % (i + 1)
        numbers[i], numbers[j] = numbers[j], numbers[i]
    return numbers


def strata(name: str, count: int) -> list[float]:
    """Return the middles of `count` equal stretches between 0 and 1, in a name's own order."""
    return [(number + 0.5) / count for number in order(name, count)]


def _column(fact: Fact, count: int) -> list[Value | dict[str, float]]:
    """Return the values of one fact over the whole set."""
    shares = strata(fact.id, count)
    if fact.kind == "number":
        low, high = fact.plausible if isinstance(fact.plausible, tuple) else fact.range
        return [low + share * (high - low) for share in shares]
    weights = _weights(fact)
    if fact.kind == "choice":
        return [_drawn(weights, share) for share in shares]
    if fact.kind == "set":
        second = strata(f"{fact.id} second", count)
        return [_set(weights, share, other) for share, other in zip(shares, second, strict=True)]
    parts = {word: strata(f"{fact.id}.{word}", count) for word in weights}
    return [_shares(weights, {word: parts[word][i] for word in parts}) for i in range(count)]


def _weights(fact: Fact) -> dict[str, float]:
    """Return the weight of each word; even where none are declared."""
    if isinstance(fact.plausible, Mapping) and fact.plausible:
        return {word: fact.plausible[word] for word in fact.values if fact.plausible.get(word, 0) > 0}
    return dict.fromkeys(fact.values, 1.0)


def _drawn(weights: Mapping[str, float], share: float) -> str:
    """Return the word at a share of the summed weights."""
    left = share * sum(weights.values())
    for word, weight in weights.items():
        left -= weight
        if left < 0:
            return word
    return next(reversed(list(weights)))


def _set(weights: Mapping[str, float], share: float, other: float) -> frozenset[str]:
    """Return one word, and in a third of the cases a second one."""
    first = _drawn(weights, share)
    rest = {word: weight for word, weight in weights.items() if word != first}
    if other >= 1 / 3 or not rest:
        return frozenset((first,))
    return frozenset((first, _drawn(rest, other * 3)))


def _shares(weights: Mapping[str, float], at: Mapping[str, float]) -> dict[str, float]:
    """Return shares as weight times an exponential draw (for equal weights, a Dirichlet draw)."""
    drawn = {word: -weight * math.log1p(-at[word]) for word, weight in weights.items()}
    total = sum(drawn.values())
    return {word: value / total for word, value in drawn.items()}
