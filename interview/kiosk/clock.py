"""The clocks that a kiosk reads: one that only runs forward, and the one on the wall."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime


def _wall() -> datetime:
    return datetime.now(UTC).replace(microsecond=0)


@dataclass(frozen=True, slots=True)
class Clock:
    """Where a kiosk takes its time from; tests hand over their own."""

    steady: Callable[[], float] = time.monotonic
    """Seconds on a clock that is never set back."""
    wall: Callable[[], datetime] = _wall
    """Date and time of day, UTC."""
