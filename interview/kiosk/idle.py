"""How long a kiosk has been alone: it asks after a minute and forgets a quarter of a minute later."""

from __future__ import annotations

from typing import Literal

ASKS_AFTER = 60.0
"""Seconds without a touch after which it asks whether anybody is there."""
FORGETS_AFTER = 15.0
"""Seconds without an answer after which it forgets everything."""

Due = Literal["nothing", "ask", "forget"]
"""What is due now."""


class IdleClock:
    """Measures how long nobody has touched anything.

    Once it has asked, a stray touch no longer counts: only `back` (somebody said "I am here") does, so that
    the next person who happens by does not find the answers of the last one.
    """

    def __init__(
        self, now: float, asks_after: float = ASKS_AFTER, forgets_after: float = FORGETS_AFTER
    ) -> None:
        self._asks_after = asks_after
        self._forgets_after = forgets_after
        self._touched = now
        self._asked: float | None = None

    def touched(self, now: float) -> None:
        """Note that somebody touched a key, the mouse or the screen."""
        if self._asked is None:
            self._touched = now

    def back(self, now: float) -> None:
        """Begin again: somebody is there, or nobody is and there is nothing left to forget."""
        self._touched, self._asked = now, None

    def due(self, now: float) -> Due:
        """Return what is due; asking is due once."""
        if self._asked is not None:
            return "forget" if now - self._asked >= self._forgets_after else "nothing"
        if now - self._touched < self._asks_after:
            return "nothing"
        self._asked = now
        return "ask"

    def seconds_left(self, now: float) -> int:
        """Return how many whole seconds are left until everything is forgotten; all of them before asking."""
        passed = 0.0 if self._asked is None else now - self._asked
        return max(0, int(self._forgets_after - passed + 0.999))
