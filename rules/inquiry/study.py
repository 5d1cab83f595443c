"""The whole study of one outcome, part by part, the first figures first."""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.inquiry.child import begin_child
from rules.inquiry.enough import Enough, enough
from rules.inquiry.flips import FactFlips, Flipping
from rules.inquiry.leans import Lean, Leaning, ranked
from rules.inquiry.overtake import Overtake, overtake
from rules.inquiry.roads import Roads, Superseded, never
from rules.inquiry.steady import Steady, steady
from rules.inquiry.sure import FIRST, Sure, surely

if TYPE_CHECKING:
    from multiprocessing.connection import Connection

    from rules.fitting import Outcome
    from rules.inquiry.roads import Stale

DRAWS = 128
"""Draws behind the last figure of `sure`."""


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
    Superseded once `stale` says so. `both_cores` has the flips found in a process of their own, where the
    system can fork one.
    """
    pairing = outcome.pairing
    if outcome.picked is None or pairing is None or pairing.pick is None:
        return None
    rival = pairing.runner_up.candidate.id if pairing.runner_up else None
    found = Study(outcome.picked.id, rival)
    others = _Others(outcome, rival, stale, both_cores)
    try:
        for part in _parts(outcome, found, others, stale):
            found = part
            if tell is not None:
                tell(found)
    finally:
        others.stop()
    return found


def _parts(outcome: Outcome, found: Study, others: _Others, stale: Stale) -> Iterator[Study]:
    """Yield the study each time a part is done."""
    figures = surely(outcome, found.pick, FIRST, DRAWS, stale)
    found = replace(found, sure=next(figures))
    yield found
    found = replace(found, steady=steady(outcome.house, outcome.subject, outcome, stale=stale))
    yield found
    roads = Roads(outcome.house, outcome.subject, outcome.golfer.density, stale)
    mine = roads.run()
    found = replace(found, leans=ranked(tuple(Leaning(outcome, roads, mine, found.rival).all())))
    yield found
    for figure in figures:
        found = replace(found, sure=figure)
        yield found
    flips = others.flips()
    found = replace(found, flips=flips)
    yield found
    if found.rival is not None:
        moving = Flipping(outcome, roads, mine, found.rival)
        found = replace(found, overtake=overtake(moving, found.rival, flips))
    settled = found.steady is not None and found.steady.steady
    few = enough(outcome, mine.pick or "", flips, stale, steady=settled)
    yield replace(found, enough=few, complete=True)


def flipping(outcome: Outcome, rival: str | None, stale: Stale = never) -> tuple[FactFlips, ...]:
    """Return what would change the decisions of an outcome, fact by fact."""
    roads = Roads(outcome.house, outcome.subject, outcome.golfer.density, stale)
    return tuple(Flipping(outcome, roads, roads.run(), rival).all())


class _Others:
    """Finds the flips: in a process of its own where that is wanted and can be, else when asked."""

    def __init__(self, outcome: Outcome, rival: str | None, stale: Stale, both_cores: bool) -> None:
        self._outcome, self._rival, self._stale = outcome, rival, stale
        self._process: multiprocessing.Process | None = None
        if both_cores and "fork" in multiprocessing.get_all_start_methods():
            here, there = multiprocessing.Pipe(duplex=False)
            context = multiprocessing.get_context("fork")
            self._here = here
            process = context.Process(target=self._send, args=(there,), daemon=True)
            process.start()
            there.close()
            self._process = process  # type: ignore[assignment]

    def _send(self, there: Connection) -> None:
        """Find the flips in the child, and send them."""
        begin_child()
        there.send(flipping(self._outcome, self._rival))

    def flips(self) -> tuple[FactFlips, ...]:
        """Return the flips; raises Superseded while waiting when nobody wants them any more."""
        if self._process is None:
            return flipping(self._outcome, self._rival, self._stale)
        while not self._here.poll(0.02):
            if self._stale():
                raise Superseded
        try:
            found: tuple[FactFlips, ...] = self._here.recv()
        except EOFError:  # the child was ended from outside: do its work here
            return flipping(self._outcome, self._rival, self._stale)
        return found

    def stop(self) -> None:
        """End the child, whatever it is doing."""
        if self._process is not None:
            self._process.terminate()
            self._process.join()
