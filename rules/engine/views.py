"""How a fact stands when a decision reads it: its best value, and what open questions still permit."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal, NamedTuple

Status = Literal["known", "unknown", "open"]
"""Known, closed by "I don't know", or still open."""
Value = float | str | frozenset[str]
"""A fact's value: an SI number, a word, or a set of words."""
CouldBe = tuple[float, float] | frozenset[str] | tuple[frozenset[str], frozenset[str]]
"""Number: lowest and highest. Choice: the words possible. Set: the words certain, and those possible."""


class View(NamedTuple):
    """A fact as it stands."""

    best: Value | None
    """The value used for standing and ledger; None when the fact is absent."""
    could_be: CouldBe | None = None
    """What the questions still open permit; read only while `status` is open."""
    status: Status = "known"
    how: str = "said"
    """measured, said, estimated, derived, or another word. A value that is `assumed` is not *known*."""
    spread: float = 0.0
    """Standard deviation of a number, SI."""

    @property
    def known(self) -> bool:
        """Whether somebody said or measured it, or it follows from what was said."""
        return self.best is not None and self.status != "unknown" and self.how != "assumed"


ABSENT = View(None, None, "unknown", "assumed")
"""Closed, and nothing stands in for it: neither a condition on it nor its negation holds."""


def point(value: Value) -> CouldBe:
    """Return what could be when only `value` can be."""
    if isinstance(value, str):
        return frozenset((value,))
    if isinstance(value, frozenset):
        return (value, value)
    return (value, value)


def known(value: Value, how: str = "said", spread: float = 0.0) -> View:
    """Return the view of a fact that was said, measured or derived."""
    return View(value, point(value), "known", how, spread)


def assumed(value: Value, could_be: CouldBe | None = None, *, open: bool, spread: float = 0.0) -> View:
    """Return the view of a fact that stands on an assumption: its question is open, or was closed."""
    if open:
        return View(value, could_be, "open", "assumed", spread)
    return View(value, point(value), "unknown", "assumed", spread)


class Candidate:
    """One candidate of a choice: its id and the facts that are its own."""

    __slots__ = ("_views", "id")

    def __init__(self, id: str, views: Mapping[str, View] | Callable[[], Mapping[str, View]]) -> None:
        """`views` may be what makes them, called once, when they are first read."""
        self.id = id
        self._views = views

    @property
    def views(self) -> Mapping[str, View]:
        """The facts that are its own."""
        if callable(self._views):
            self._views = self._views()
        return self._views
