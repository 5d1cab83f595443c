"""Sure: how often the pick survives the spread of all facts, and who wins otherwise and when."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

from rules.inquiry.draws import COPIES, Draw, Spread, draws, spreads
from rules.inquiry.roads import Roads, never

if TYPE_CHECKING:
    from rules.fitting import Outcome
    from rules.inquiry.roads import Stale

Lofts = tuple[tuple[str, float], ...]
"""Types and lofts (rad) of a pair; empty without one."""

FIRST = 40
"""Draws behind the first figure, which is wanted within half a second."""
USUAL = 128
"""Draws behind the last figure, wherever it is told."""
_TWO_DEGREES = math.radians(2.05)
_RIVALS = 3
"""Other winners that are told."""
_TELLING = 0.6
"""A fact sets draws apart when its mean there is this many standard deviations off (house value)."""
_FEWEST = 4
"""A rival that won fewer draws than this says nothing of when it wins."""


@dataclass(frozen=True, slots=True)
class When:
    """What goes with a rival's winning: a fact that is then other than it is taken to be."""

    fact: str
    off: float
    """How far a number is then off on average, SI; 0 for words."""
    word: str
    """The answer that goes with it; empty for a number."""


@dataclass(frozen=True, slots=True)
class Winner:
    """A pair that wins some of the draws."""

    pair: str
    """Its id; empty where no pair was possible."""
    share: float
    when: tuple[When, ...]
    """What sets these draws apart, most telling first; empty where nothing does."""


@dataclass(frozen=True, slots=True)
class Sure:
    """How often a pick survives."""

    pick: str
    share: float
    """Share of the draws in which it is the pick, 0 to 1."""
    error: float
    """Standard error of the share."""
    near: float
    """Share of the draws whose pick is made up of the same types, each loft within two degrees."""
    tried: int
    others: tuple[Winner, ...]
    """Who wins otherwise, most often first."""


def surely(
    outcome: Outcome, pick: str, first: int = FIRST, most: int = USUAL, stale: Stale = never
) -> Iterator[Sure]:
    """Yield how sure a pick is: after `first` draws, then each time their number has doubled, up to `most`.

    Raises Superseded once `stale` says so: it is asked before every draw (a few milliseconds each).
    """
    roads = Roads(outcome.house, outcome.subject, outcome.golfer.density, stale, rounded=True)
    over = spreads(outcome)
    endless = draws(over)
    taken: list[Draw] = []
    winners: list[str] = []
    near: list[bool] = []
    pair = outcome.pairs.get(pick)
    mine = tuple((rung.kind, rung.spec.loft) for rung in (pair.longer, pair.shorter)) if pair else ()
    wanted = min(first, most)
    while True:
        for draw in islice(endless, wanted - len(taken)):
            taken.append(draw)
            road = roads.run(draw.answers, draw.shift)
            winners.append(road.pick or "")
            near.append(_near(mine, road.lofts))
        yield _summed(pick, over, taken, winners, near)
        if wanted >= most:
            return
        wanted = min(most, 2 * wanted)


def _near(one: Lofts, other: Lofts) -> bool:
    """Say whether two pairs are made up of the same types, each loft within two degrees of the other's."""
    both = zip(one, other, strict=False)
    return len(one) == len(other) and all(a == b and abs(x - y) <= _TWO_DEGREES for (a, x), (b, y) in both)


def _summed(
    pick: str, over: Sequence[Spread], taken: Sequence[Draw], winners: Sequence[str], near: Sequence[bool]
) -> Sure:
    """Sum up the draws so far."""
    counts = Counter(winners)
    others = [one for one in counts.most_common() if one[0] != pick]
    return Sure(
        pick=pick,
        share=counts[pick] / len(winners),
        error=standard_error([winner == pick for winner in winners]),
        near=sum(near) / len(near),
        tried=len(winners),
        others=tuple(
            Winner(pair, count / len(winners), _when(over, taken, winners, pick, pair))
            for pair, count in others[:_RIVALS]
        ),
    )


def standard_error(kept: Sequence[bool]) -> float:
    """Return the standard error of a share, from how far the copies of the sequence disagree.

    Never below that of one more draw won and one more lost, so that a clean sweep is not called certain.
    """
    share = sum(kept) / len(kept)
    copies = [kept[copy::COPIES] for copy in range(COPIES) if kept[copy::COPIES]]
    means = [sum(copy) / len(copy) for copy in copies]
    between = sum((mean - share) ** 2 for mean in means) / max(1, len(means) - 1) / len(means)
    least = 1 / (len(kept) + 2)
    floor = math.sqrt(least * (1 - least) / (len(kept) + 2))
    return max(math.sqrt(between), floor)


def _when(
    over: Sequence[Spread], taken: Sequence[Draw], winners: Sequence[str], pick: str, rival: str
) -> tuple[When, ...]:
    """Return what sets the draws that a rival wins apart from those that the pick wins."""
    theirs = [draw for draw, winner in zip(taken, winners, strict=True) if winner == rival]
    ours = [draw for draw, winner in zip(taken, winners, strict=True) if winner == pick]
    if len(theirs) < _FEWEST or len(ours) < _FEWEST:
        return ()
    found: list[tuple[float, When]] = []
    for one in over:
        telling = _number(one, theirs, ours) if one.fact.kind == "number" else _word(one, theirs, ours)
        if telling is not None and telling[0] >= _TELLING:
            found.append(telling)
    found.sort(key=lambda item: (-item[0], item[1].fact))
    return tuple(when for _, when in found[:2])


def _number(one: Spread, theirs: Sequence[Draw], ours: Sequence[Draw]) -> tuple[float, When] | None:
    """Return how far apart a number's means are, in standard deviations, and how far it is off."""
    mine, other = [_off(one, draw) for draw in ours], [_off(one, draw) for draw in theirs]
    both = mine + other
    middle = sum(both) / len(both)
    deviation = math.sqrt(sum((x - middle) ** 2 for x in both) / len(both))
    if not deviation:
        return None
    off = sum(other) / len(other)
    return abs(off - sum(mine) / len(mine)) / deviation, When(one.id, off, "")


def _off(one: Spread, draw: Draw) -> float:
    """Return how far a draw takes a number to be off, SI; of an open question from what stands in."""
    if not one.open:
        return draw.shift[one.id]
    value = draw.answers[one.id].value
    low, high = one.fact.plausible if isinstance(one.fact.plausible, tuple) else one.fact.range
    usual = one.known.number if one.known.value is not None else (low + high) / 2
    return float(value) - usual  # type: ignore[arg-type]


def _word(one: Spread, theirs: Sequence[Draw], ours: Sequence[Draw]) -> tuple[float, When] | None:
    """Return the word that goes with a rival's draws most: how far its share there is above the pick's."""
    there, here = (Counter(_said(draw.answers[one.id].value) for draw in some) for some in (theirs, ours))
    word = max(there, key=lambda word: (there[word] / len(theirs) - here[word] / len(ours), word))
    share, other = there[word] / len(theirs), here[word] / len(ours)
    middle = (share + other) / 2
    deviation = math.sqrt(middle * (1 - middle))
    return ((share - other) / deviation, When(one.id, 0.0, word)) if deviation else None


def _said(value: object) -> str:
    """Return the word by which an answer is counted: of shares the largest part."""
    if isinstance(value, Mapping):
        return str(max(value, key=lambda part: value[part]))
    if isinstance(value, frozenset):
        return ", ".join(sorted(value))
    return str(value)
