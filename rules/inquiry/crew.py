"""Processes that share a list of work: each takes every so-manieth item and sends what comes of it back.

There is no queue and no lock between them, so that one that is ended, from outside or with the first,
leaves nobody waiting: what it had not sent is done by the first process itself.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import signal
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from typing import TYPE_CHECKING, Generic, TypeVar

from rules.inquiry.child import begin_child

if TYPE_CHECKING:
    from multiprocessing.process import BaseProcess

Result = TypeVar("Result")
_BATCH = 16
"""Results sent at a time."""
_HELD = ("SIGINT", "SIGTERM", "SIGHUP")
"""Signals of a terminal, which the first process answers for all; the others are ended by it."""


@dataclass(slots=True)
class _Hand(Generic[Result]):
    """One process at work."""

    process: BaseProcess
    here: Connection
    share: Sequence[str]
    done: int = 0
    """How many of its items have come back."""


class Crew(Generic[Result]):
    """So many processes at one list of items; leaving the block ends them, whatever they are doing."""

    def __init__(
        self, items: Sequence[str], count: int, begin: Callable[[], None], work: Callable[[str], Result]
    ) -> None:
        """`begin` is called once in each process before `work` is called for each item; both pickle."""
        self._begin, self._work = begin, work
        self._shares = [items[place::count] for place in range(count)]
        self._hands: list[_Hand[Result]] = []

    def __enter__(self) -> Crew[Result]:
        with _held_back():
            for share in self._shares:
                here, there = multiprocessing.Pipe(duplex=False)
                process = multiprocessing.get_context().Process(
                    target=_sent, args=(self._begin, self._work, share, there), daemon=True
                )
                process.start()
                there.close()
                self._hands.append(_Hand(process, here, share))
        return self

    def __exit__(self, *_: object) -> None:
        for hand in self._hands:
            hand.process.kill()
        for hand in self._hands:
            hand.process.join()
            hand.here.close()

    def results(self) -> Iterator[Result]:
        """Yield what comes back, as it comes; each item once, also where a process is ended from outside."""
        left = {hand.here: hand for hand in self._hands}
        while left:
            for here in wait(list(left)):
                hand = left[here]  # type: ignore[index]
                try:
                    batch: list[Result] = hand.here.recv()
                except EOFError:
                    del left[hand.here]
                    yield from self._rest(hand)
                else:
                    hand.done += len(batch)
                    yield from batch

    def _rest(self, hand: _Hand[Result]) -> Iterator[Result]:
        """Do what a process has left undone; nothing where it was done."""
        rest = hand.share[hand.done :]
        if rest:
            self._begin()
        yield from map(self._work, rest)


def _sent(
    begin: Callable[[], None], work: Callable[[str], Result], share: Sequence[str], there: Connection
) -> None:
    """Do a share of the work in a process of its own, and send it in batches."""
    begin_child()
    begin()
    for first in range(0, len(share), _BATCH):
        there.send([work(item) for item in share[first : first + _BATCH]])


@contextlib.contextmanager
def _held_back() -> Iterator[None]:
    """Hold a terminal's signals back while processes begin, which then never hear them at all."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    some = {getattr(signal, name) for name in _HELD if hasattr(signal, name)}
    before = signal.pthread_sigmask(signal.SIG_BLOCK, some)
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
