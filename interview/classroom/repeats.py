"""What is due again: whatever was missed comes back, at growing distances while it is got right."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from interview.classroom.roll import Attempt

INTERVALS = (1, 3, 7, 21)
"""Days until a missed item comes back: after the miss, and after each time in a row it was then got right.

House values in the manner of spaced practice: simple, growing, and plain to explain to a class."""
_LONGEST = timedelta(days=INTERVALS[-1])
_LAST = datetime.max.replace(tzinfo=UTC) - 2 * _LONGEST
"""The last moment after which an item can still come back."""
PASS = 0.75
"""From this score on an item was got right."""


@dataclass(frozen=True, slots=True)
class Due:
    """An item that is to be tried again."""

    item: str
    kind: str
    step: int
    """Times in a row that it was got right since it was missed."""
    when: datetime
    """From when on it is due."""
    score: float
    """What it earned when it last counted, 0 to 1."""


def repeats(attempts: Iterable[Attempt]) -> tuple[Due, ...]:
    """Return every item of one trainee that comes back, the earliest first.

    An item got right before its day stays where it is; missed, it begins anew; got right as often as there
    are intervals, it is learnt and comes back no more.
    """
    waiting: dict[str, Due] = {}
    for one in sorted(attempts, key=lambda one: one.at):
        before = waiting.get(one.item)
        if one.score < PASS:
            waiting[one.item] = _due(one, 0)
        elif before is not None and one.at >= before.when:
            if before.step + 1 >= len(INTERVALS):
                del waiting[one.item]
            else:
                waiting[one.item] = _due(one, before.step + 1)
    return tuple(sorted(waiting.values(), key=lambda due: (due.when, due.item)))


def due(attempts: Iterable[Attempt], now: datetime) -> tuple[Due, ...]:
    """Return what one trainee has to try again by now, the longest overdue first.

    What would wait longer than any interval was noted while the clock ran ahead, and is due at once.
    """
    return tuple(one for one in repeats(attempts) if one.when <= now or one.when - now > _LONGEST)


def _due(attempt: Attempt, step: int) -> Due:
    """Return when an item comes back after an attempt."""
    when = min(attempt.at, _LAST) + timedelta(days=INTERVALS[step])
    return Due(attempt.item, attempt.kind, step, when, attempt.score)
