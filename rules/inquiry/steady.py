"""Steady: every one of a fixed set of plausible completions of the open questions gives the same pick."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.inquiry.plausible import plausible
from rules.inquiry.roads import Road, Roads, never

if TYPE_CHECKING:
    from rules.facts.answers import Answer, Said
    from rules.facts.subject import Subject
    from rules.fitting import House, Outcome
    from rules.inquiry.roads import Stale

Completions = Sequence[Mapping[str, "Answer"]]
"""Sets of answers to the open questions."""


@dataclass(frozen=True, slots=True)
class Steady:
    """Whether the open questions still matter for the pick, as far as a fixed set of completions tells."""

    steady: bool
    """Every completion that was tried gives the pick that stands."""
    tried: int
    """Completions tried: all of them, or until the first that changed the pick."""
    picks: Mapping[str, float]
    """Share of the completions by the pair they give, most usual first; a road without a pair is ''."""
    needed: Mapping[str, float]
    """Open questions by the share of the disagreement that each explains by itself, most first."""


def steady(
    house: House, subject: Subject, outcome: Outcome, completions: Completions | None = None,
    *, stale: Stale = never, until_unsteady: bool = False,
) -> Steady:  # fmt: skip
    """Try the completions of the open questions; `until_unsteady` stops at the first that changes the pick.

    Raises Superseded once `stale` says so: it is asked before every road (a few milliseconds each).
    """
    roads = Roads(house, subject, outcome.golfer.density, stale)
    mine = roads.run()
    sets = completions
    if sets is None:
        if not outcome.questions.worth_asking:
            return Steady(True, 0, {mine.pick or "": 1.0}, {})
        sets = plausible(house.base, subject, outcome.golfer)
    found: list[Road] = []
    for answers in sets:
        found.append(roads.run(answers))
        if until_unsteady and found[-1].pick != mine.pick:
            break
    return _summed(outcome, mine, sets[: len(found)], found)


def _summed(outcome: Outcome, mine: Road, sets: Completions, found: Sequence[Road]) -> Steady:
    """Sum up what the completions came to."""
    picks = [road.pick or "" for road in found]
    counts = Counter(picks)
    return Steady(
        steady=all(pick == (mine.pick or "") for pick in picks),
        tried=len(found),
        picks={pick: count / len(found) for pick, count in counts.most_common()},
        needed=explained(sets, picks, _behind_pairs(outcome)),
    )


def _behind_pairs(outcome: Outcome) -> frozenset[str]:
    """Return the open questions behind the facts that rules on the pair read."""
    known = outcome.golfer.known
    read = [known[id].waits for id in outcome.house.base.plan("pairing").ids if id in known]
    flown = [waits for pair in outcome.pairs.values() for waits in pair.waits.values()]
    return frozenset().union(*read, *flown)


def explained(sets: Completions, picks: Sequence[str], able: Collection[str]) -> dict[str, float]:
    """Return how much of the disagreement among picks each question explains by itself, most first.

    Of the chance that two completions disagree, the share that is gone once both give the question the
    same sort of answer (a word, or a third of the numbers), less what mere luck would take away; what luck
    alone might explain (two of its standard deviations) is left out. `able` names the questions that can
    reach the pick at all. A question that matters only together with another may explain nothing.
    """
    whole = _disagreement(picks)
    if not whole:
        return {}
    found = {}
    for id in (id for id in sets[0] if id in able):
        sorts = _sorts([one[id].value for one in sets])
        groups = [[p for p, sort in zip(picks, sorts, strict=True) if sort == one] for one in set(sorts)]
        left = sum(len(group) / len(picks) * _disagreement(group) for group in groups)
        luck = (len(groups) - 1) / max(1, len(picks) - 1)
        doubt = math.sqrt(2 * (len(groups) - 1)) / max(1, len(picks) - 1)
        if 1 - left / whole > luck + 2 * doubt:
            found[id] = (1 - left / whole - luck) / (1 - luck)
    return dict(sorted(found.items(), key=lambda item: (-item[1], item[0])))


def _disagreement(picks: Sequence[str]) -> float:
    """Return the chance that two completions drawn from these disagree."""
    return 1 - sum((count / len(picks)) ** 2 for count in Counter(picks).values()) if picks else 0.0


def _sorts(values: Sequence[Said]) -> list[object]:
    """Sort answers: words by word, numbers by thirds, shares by their largest part."""
    numbers = sorted(value for value in values if isinstance(value, float | int))
    if len(numbers) == len(values):
        cuts = (numbers[len(numbers) // 3], numbers[2 * len(numbers) // 3])
        return [sum(value >= cut for cut in cuts) for value in numbers_of(values)]
    return [max(v, key=lambda part: v[part]) if isinstance(v, Mapping) else v for v in values]


def numbers_of(values: Sequence[Said]) -> list[float]:
    """Return the numbers among several answers."""
    return [float(value) for value in values if isinstance(value, float | int)]
