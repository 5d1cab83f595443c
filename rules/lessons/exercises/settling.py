"""How a saying comes out when it is computed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal, NamedTuple

if TYPE_CHECKING:
    from rules.lessons.exercises.exercise import Row, Value

Verdict = Literal["holds", "fails", "open"]
"""It holds for this golfer and club; it does not; what is known leaves it open."""


class Settled(NamedTuple):
    """A saying held against a computation."""

    verdict: Verdict
    values: Mapping[str, Value]
    """What the saying is filled with."""
    rows: tuple[Row, ...]
    """The computation."""


def between(low: float, high: float, matters: float) -> Verdict:
    """Return a verdict on "this makes a difference" from the range a difference may lie in.

    It holds where even the least of it matters, fails where not even the most of it does.
    """
    if low >= matters:
        return "holds"
    return "fails" if high < matters else "open"
