"""The clocks that a kiosk reads: one that only runs forward, and the one on the wall."""

from __future__ import annotations

import contextlib
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime


def _steady() -> float:
    """Return seconds on a clock that runs on while the machine sleeps, where the system has one.

    A lid that was shut over lunch must not leave the last golfer's answers on the screen. The plain
    monotonic clock stands still meanwhile on some systems.
    """
    boot = getattr(time, "CLOCK_BOOTTIME", None)
    if boot is not None:
        with contextlib.suppress(OSError):
            return time.clock_gettime(boot)
    return time.monotonic()


def _wall() -> datetime:
    return datetime.now(UTC).replace(microsecond=0)


@dataclass(frozen=True, slots=True)
class Clock:
    """Where a kiosk takes its time from; tests hand over their own."""

    steady: Callable[[], float] = _steady
    """Seconds on a clock that is never set back and does not sleep."""
    wall: Callable[[], datetime] = _wall
    """Date and time of day, UTC."""
