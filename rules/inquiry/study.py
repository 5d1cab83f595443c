"""The whole study of one outcome, part by part, the first figures first."""

from __future__ import annotations

import contextlib
import multiprocessing
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import islice
from typing import TYPE_CHECKING, Any

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
    Superseded once `stale` says so. `both_cores` has what would change it found in a process of its own,
    where the system can fork one.
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
    figures = surely(outcome, found.pick, FIRST, DRAWS, stale)
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


class _Beside:
    """Finds what would change it: in a process of its own where that is wanted and can be, else if asked."""

    def __init__(self, outcome: Outcome, rival: str | None, stale: Stale, both_cores: bool) -> None:
        self._outcome, self._rival, self._stale = outcome, rival, stale
        self.roads = Roads(outcome.house, outcome.subject, outcome.golfer.density, stale)
        self._settled = False
        self._given = 0
        self._here: Iterator[object] | None = None
        self._process: multiprocessing.Process | None = None
        if both_cores and "fork" in multiprocessing.get_all_start_methods():
            context = multiprocessing.get_context("fork")
            self._pipe, there = context.Pipe()
            process = context.Process(target=self._send, args=(there,), daemon=True)
            process.start()
            there.close()
            self._process = process  # type: ignore[assignment]

    def _send(self, there: Connection) -> None:
        """Find it in the child, and send it part by part."""
        begin_child()
        for part in _changing(self._outcome, self._rival, self.roads, there.recv):
            there.send(part)

    def settle(self, steady: bool) -> None:
        """Say whether the pick is steady, which has to be known in the end."""
        self._settled = steady
        if self._process is not None:
            with contextlib.suppress(OSError):  # it was ended from outside: its work is done here
                self._pipe.send(steady)

    def next(self) -> Any:
        """Return the next part; raises Superseded while waiting when nobody wants it any more."""
        self._given += 1
        if self._process is not None and self._here is None:
            try:
                return self._received()
            except (EOFError, OSError):  # the child was ended from outside: do its work here
                pass
        if self._here is None:
            parts = _changing(self._outcome, self._rival, self.roads, lambda: self._settled)
            self._here = islice(parts, self._given - 1, None)
        return next(self._here)

    def _received(self) -> object:
        """Return what the child sends next."""
        while not self._pipe.poll(0.02):
            if self._stale():
                raise Superseded
        return self._pipe.recv()

    def stop(self) -> None:
        """End the child, whatever it is doing."""
        if self._process is not None:
            self._process.terminate()
            self._process.join()
