"""Enough: a smallest set of the answers given that already makes the pick steady.

Answers are taken away, half of them at a time where that does no harm, as long as every plausible
completion of what is then open still gives the same pick (A. Zeller and R. Hildebrandt, IEEE Trans. Softw.
Eng. 28 (2002) 183). Of the set that is left no answer can be spared; another set of the same size may do.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.facts.asked import applicable
from rules.facts.golfer import golfer
from rules.inquiry.plausible import COUNT, plausible
from rules.inquiry.roads import Roads, never, with_answers

if TYPE_CHECKING:
    from rules.facts.answers import Answer
    from rules.fitting import Outcome
    from rules.inquiry.roads import Stale

_FIRST = 12
"""Completions tried on the way; all of them are in the end."""
_ROUNDS = 3
"""Times that sparing begins again, knowing better which completions speak against it."""


@dataclass(frozen=True, slots=True)
class Enough:
    """The answers that already settle it."""

    answers: tuple[str, ...]
    """Questions whose answers are enough, in the order in which they are declared."""
    given: int
    """Answers given that act."""


class Sparing:
    """Tries which answers can be spared."""

    def __init__(self, outcome: Outcome, roads: Roads, pick: str) -> None:
        self.outcome, self.roads, self.pick = outcome, roads, pick
        self.base = outcome.house.base
        self._against = Counter[int]()
        on = applicable(self.base, roads.subject.answers)
        self.given = tuple(id for id in self.base.facts if id in on and id in roads.subject.answers)

    def still(self, kept: Collection[str], most: int = COUNT) -> bool:
        """Say whether the pick is steady on these answers alone, over so many completions.

        Those that spoke against it most often before are tried first.
        """
        gone: dict[str, Answer | None] = {id: None for id in self.roads.subject.answers if id not in kept}
        subject = with_answers(self.roads.subject, gone)
        who = golfer(self.base, subject, self.outcome.house.shelf, cautions=False)
        sets = plausible(self.base, subject, who)
        for place in sorted(range(len(sets)), key=lambda i: -self._against[i])[:most]:
            if self.roads.run({**gone, **sets[place]}).pick != self.pick:
                self._against[place] += 1
                return False
        return True

    def left(self, unlikely: Collection[str]) -> tuple[str, ...]:
        """Return what is left once as many answers are spared as seem to do no harm, unlikely ones first."""
        kept = self.given
        for likely in (False, True):
            group = [id for id in kept if (id not in unlikely) == likely]
            kept = self._without(kept, group) if group else kept
        return kept

    def _without(self, kept: tuple[str, ...], parts: Sequence[str]) -> tuple[str, ...]:
        """Return what is left of some answers once as many of `parts` are spared as seem to do no harm."""
        rest = tuple(id for id in kept if id not in parts)
        if self.still(rest, _FIRST):
            return rest
        if len(parts) == 1:
            return kept
        half = len(parts) // 2
        kept = self._without(kept, parts[:half])
        return self._without(kept, parts[half:])


def enough(
    outcome: Outcome, pick: str, unlikely: Collection[str] = (), stale: Stale = never
) -> Enough | None:
    """Return a smallest set of answers on which the pick is steady already; None where not even all are.

    `unlikely` names facts that are known to change nothing by themselves: they are tried first. Raises
    Superseded once `stale` says so.
    """
    roads = Roads(outcome.house, outcome.subject, outcome.golfer.density, stale)
    sparing = Sparing(outcome, roads, pick)
    if not sparing.still(sparing.given):
        return None
    for _ in range(_ROUNDS):
        kept = sparing.left(unlikely)
        if sparing.still(kept):
            break
    spared_too_soon = [id for id in sparing.given if id not in kept]
    for id in sorted(spared_too_soon, key=lambda id: id in unlikely):
        if sparing.still(kept):
            break
        kept = tuple(one for one in sparing.given if one in kept or one == id)
    changed = True
    while changed:
        changed = False
        for id in kept:
            rest = tuple(one for one in kept if one != id)
            if sparing.still(rest):
                kept, changed = rest, True
    return Enough(kept, len(sparing.given))
