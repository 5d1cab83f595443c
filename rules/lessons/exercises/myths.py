"""Sayings of the trade, each held against a computation in view: it holds, it fails, or it stays open.

The verdict is worked out for the case's own golfer and clubs and is written nowhere.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from random import Random
from typing import TYPE_CHECKING, get_args

from rules.lessons.exercises.exercise import Exercise, Option
from rules.lessons.exercises.myths_at_bench import tape_bends, two_grams
from rules.lessons.exercises.myths_in_flight import longer_farther, number_on_sole
from rules.lessons.exercises.settling import Settled, Verdict

if TYPE_CHECKING:
    from rules.lessons.case import Case

Settle = Callable[["Case", Random], Settled | None]
"""Holds a saying against a case; None where the case does not lend itself."""
SAYINGS: Mapping[str, Settle] = {
    "two_grams": two_grams,
    "longer_farther": longer_farther,
    "number_on_sole": number_on_sole,
    "tape_bends": tape_bends,
}
"""Every saying there is, by topic."""
AT_BENCH = ("two_grams",)
"""Sayings that no golfer comes into."""
VERDICTS: tuple[Verdict, ...] = get_args(Verdict)


def myth(case: Case, id: str, seed: int) -> Exercise | None:
    """Ask whether a saying holds here, the sayings in turn; None where the case does not lend itself."""
    topics = list(SAYINGS)
    topic = topics[seed % len(topics)]
    settled = SAYINGS[topic](case, Random(f"{topic} {case.id} {seed}"))
    if settled is None:
        return None
    return Exercise(
        id=id,
        kind="myth",
        case=case.id,
        topic=topic,
        values=settled.values,
        options=tuple(Option(verdict) for verdict in VERDICTS),
        key=settled.verdict,
        working=settled.rows,
        told=() if topic in AT_BENCH else tuple(case.subject.answers),
    )
