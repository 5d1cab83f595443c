"""The whole study of one outcome, part by part, the first figures first."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import islice
from typing import TYPE_CHECKING, Any

from rules.fitting import fit
from rules.inquiry.aside import Aside, Gone
from rules.inquiry.enough import Enough, enough
from rules.inquiry.flips import FactFlips, Flipping
from rules.inquiry.leans import Lean, Leaning, ranked
from rules.inquiry.overtake import Overtake, overtake
from rules.inquiry.roads import Roads, never
from rules.inquiry.steady import Steady, steady
from rules.inquiry.sure import Sure, surely

if TYPE_CHECKING:
    from rules.facts.subject import Subject
    from rules.fitting import House, Outcome
    from rules.inquiry.roads import Stale


@dataclass(frozen=True, slots=True)
class Study:
    """What a study has found so far; what is still to come is None."""

    pick: str
    """The pair that stands."""
    rival: str | None
    """The runner-up of the rules' own pick."""
    sure: Sure | None = None
    steady: Steady | None = None
    flips: tuple[FactFlips, ...] | None = None
    """What would change it, fact by fact."""
    leans: tuple[Lean, ...] | None = None
    """What it leans on; what changes the pick first."""
    overtake: Overtake | None = None
    """The smallest set of changed answers under which the runner-up wins, as far as was tried."""
    enough: Enough | None = None
    """The answers that are enough."""
    complete: bool = False


Tell = Callable[[Study], None]
"""Takes a study each time that it has grown."""


def study(
    outcome: Outcome, tell: Tell | None = None, stale: Stale = never, *, both_cores: bool = False
) -> Study | None:
    """Study an outcome; None where there is no pick to study.

    `tell` gets the study each time a part is done, the first figure of `sure` within half a second. Raises
    Superseded once `stale` says so. `both_cores` has what would change it found in a process of its own,
    where the system can begin one.
    """
    pairing = outcome.pairing
    if outcome.picked is None or pairing is None or pairing.pick is None:
        return None
    rival = pairing.runner_up.candidate.id if pairing.runner_up else None
    found = Study(outcome.picked.id, rival)
    beside = _Beside(outcome, rival, stale, both_cores)
    try:
        for part in _parts(outcome, found, beside, stale):
            found = part
            if tell is not None:
                tell(found)
    finally:
        beside.stop()
    return found


def _parts(outcome: Outcome, found: Study, beside: _Beside, stale: Stale) -> Iterator[Study]:
    """Yield the study each time a part is done."""
    figures = surely(outcome, found.pick, stale=stale)
    found = replace(found, sure=next(figures))
    yield found
    found = replace(found, steady=steady(outcome.house, outcome.subject, outcome, stale=stale))
    beside.settle(found.steady is not None and found.steady.steady)
    yield found
    leaning = Leaning(outcome, beside.roads, beside.roads.run(), found.rival)
    found = replace(found, leans=ranked(tuple(leaning.all())))
    yield found
    for figure in figures:
        found = replace(found, sure=figure)
        yield found
    found = replace(found, flips=beside.next())
    yield found
    found = replace(found, overtake=beside.next())
    yield replace(found, enough=beside.next(), complete=True)


def _changing(
    outcome: Outcome, rival: str | None, roads: Roads, settled: Callable[[], bool]
) -> Iterator[object]:
    """Yield what would change it, what would make the runner-up win, and which answers are enough.

    `settled` says, when it is asked at last, whether the pick is steady.
    """
    mine = roads.run()
    moving = Flipping(outcome, roads, mine, rival)
    flips = tuple(moving.all())
    yield flips
    yield None if rival is None else overtake(moving, rival, flips)
    yield enough(outcome, mine.pick or "", flips, steady=settled(), roads=roads)


def changing_aside(
    house: House, subject: Subject, rival: str | None, settled: Callable[[], bool]
) -> Iterator[object]:
    """Yield what would change it, as found in a process begun for that."""
    outcome = fit(house, subject)
    roads = Roads(house, subject, outcome.golfer.density)
    return _changing(outcome, rival, roads, settled)


class _Beside:
    """Finds what would change it: in a process of its own where that is wanted and can be, else if asked."""

    def __init__(self, outcome: Outcome, rival: str | None, stale: Stale, both_cores: bool) -> None:
        self._outcome, self._rival, self._stale = outcome, rival, stale
        self.roads = Roads(outcome.house, outcome.subject, outcome.golfer.density, stale)
        self._settled = False
        self._given = 0
        self._here: Iterator[object] | None = None
        self._aside: Aside | None = None
        if both_cores:
            with contextlib.suppress(Gone):
                self._aside = Aside(changing_aside, outcome.house, outcome.subject, rival)

    def settle(self, steady: bool) -> None:
        """Say whether the pick is steady, which has to be known in the end."""
        self._settled = steady
        if self._aside is not None:
            self._aside.tell(steady)

    def next(self) -> Any:
        """Return the next part; raises Superseded while waiting when nobody wants it any more."""
        self._given += 1
        if self._aside is not None and self._here is None:
            with contextlib.suppress(Gone):  # it was ended from outside: its work is done here
                return self._aside.next(self._stale)
        if self._here is None:
            parts = _changing(self._outcome, self._rival, self.roads, lambda: self._settled)
            self._here = islice(parts, self._given - 1, None)
        return next(self._here)

    def stop(self) -> None:
        """End the other process, whatever it is doing."""
        if self._aside is not None:
            self._aside.stop()
