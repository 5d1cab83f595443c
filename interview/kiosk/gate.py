"""The way out: a PIN lets it be taken, and every wrong one makes the next try wait longer."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING, Literal, NamedTuple

from interview.kiosk.pin import BusyError, PinFile, PinProblem

if TYPE_CHECKING:
    from interview.kiosk.clock import Clock

FREE_TRIES = 2
"""Wrong tries before waiting begins: a finger slips."""
LIMIT = 6
"""Wrong tries after which a quarter of an hour passes before the next."""
_LONG = 900.0
"""Seconds of that wait, after the limit and after every try from then on."""
_FIRST = 4.0
"""Seconds of the first wait; each after it is twice as long."""


class Verdict(NamedTuple):
    """What became of a try."""

    kind: Literal["open", "wrong", "wait"]
    """The way is free; not the PIN; too soon after the last wrong one, so not even looked at."""
    seconds: int = 0
    """How long to wait before the next try."""


def wait_after(tries: int) -> float:
    """Return the seconds to wait after so many wrong tries: 0, 0, 4, 8, 16, then 900."""
    if tries <= FREE_TRIES:
        return 0.0
    return _LONG if tries >= LIMIT else _FIRST * 2.0 ** (tries - FREE_TRIES - 1)


class Gate:
    """Takes tries of the PIN. What it counts is kept in the PIN's file; where that fails, in memory.

    Several kiosks may share one PIN: each reads the count anew, one after another, so that a guesser gains
    nothing by going from one to the next.
    """

    def __init__(self, file: PinFile, clock: Clock) -> None:
        self._file = file
        self._clock = clock
        self._pin, self._tries, self._until = file.read()
        self._noted = True

    @property
    def waiting(self) -> int:
        """Return the seconds until a try is taken: at most the longest wait, whatever a clock says."""
        left = self._until - self._clock.wall().timestamp()
        return max(0, min(int(_LONG), int(left + 0.999)))

    def tried(self, pin: str) -> Verdict:
        """Take a try."""
        try:
            with self._file.alone():
                return self._judged(pin)
        except BusyError:
            return Verdict("wait", 1)

    def _judged(self, pin: str) -> Verdict:
        """Look at a try that no other kiosk looks at meanwhile."""
        if self._noted:
            with contextlib.suppress(PinProblem):  # a file that went away or broke forgives nothing
                self._pin, self._tries, self._until = self._file.read()
        if self._until - self._clock.wall().timestamp() > _LONG:  # no wait is so long: the clock was set back
            self._until = self._clock.wall().timestamp() + wait_after(self._tries)
            self._note()
        if self.waiting:
            return Verdict("wait", self.waiting)
        if self._pin.fits(pin):
            self._tries, self._until = 0, 0.0
            self._note()
            return Verdict("open")
        self._tries += 1
        wait = wait_after(self._tries)
        self._until = self._clock.wall().timestamp() + wait
        self._note()
        return Verdict("wrong", int(wait))

    def _note(self) -> None:
        """Keep the count; a full disk must not open the gate, nor bring the kiosk down."""
        self._noted = False
        with contextlib.suppress(OSError, PinProblem):
            self._file.note(self._tries, self._until)
            self._noted = True
