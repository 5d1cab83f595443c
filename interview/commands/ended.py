"""Signals that end a command: raised where it stands, so that what it holds is put back or kept first."""

from __future__ import annotations

import contextlib
import signal
from collections.abc import Iterator
from types import FrameType

_ENDINGS = ("SIGTERM", "SIGHUP")
"""Signals that end a command beside an interruption; not every system has all of them."""


class Ended(KeyboardInterrupt):
    """A signal ends the command."""

    def __init__(self, number: int) -> None:
        super().__init__(number)
        self.number = number
        """Which signal it was."""


@contextlib.contextmanager
def ended_by_signals() -> Iterator[None]:
    """Raise Ended where a signal would end the program on the spot, so that what is in hand is kept."""

    def end(number: int, frame: FrameType | None) -> None:
        raise Ended(number)

    numbers = [getattr(signal, name) for name in _ENDINGS if hasattr(signal, name)]
    before = {number: signal.signal(number, end) for number in numbers}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
