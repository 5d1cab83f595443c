"""One fact as it stands: its value, spread and origin, and the open questions it still waits on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, NamedTuple, cast

from rules.engine.views import Status, View, point
from rules.facts.answers import How
from rules.problems import Problem

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.language import Fact


class UndeclaredFact(Problem):
    """A fact that is computed and that no rule base declares, by its id."""

    def __init__(self, id: str) -> None:
        super().__init__(
            f"the fact '{id}' is computed but declared nowhere; declare it in rules/knowledge with"
            " derived = true, or spell it as it is declared"
        )
        self.id = id


NOTHING: frozenset[str] = frozenset()
"""No open question."""


class Known(NamedTuple):
    """A fact's best value in SI (or its word), with how it is known.

    `waits` holds the questions still open whose answers could move it; empty when it is determined.
    `closed` marks an answer of "I don't know", on whose fallback the value stands.
    """

    value: float | str | frozenset[str] | None
    how: How = "derived"
    spread: float = 0.0
    waits: frozenset[str] = NOTHING
    closed: bool = False

    @property
    def number(self) -> float:
        """The value as a number; only for facts of kind number."""
        return self.value  # type: ignore[return-value]

    @property
    def word(self) -> str:
        """The value as a word; only for facts of kind choice."""
        return self.value  # type: ignore[return-value]

    @property
    def words(self) -> frozenset[str]:
        """The value as a set of words; the empty set when nobody said."""
        return self.value or NOTHING  # type: ignore[return-value]


def waiting(parts: Iterable[Known]) -> frozenset[str]:
    """Return every open question that any of several facts waits on."""
    return NOTHING.union(*(part.waits for part in parts))


def view(fact: Fact, known: Known) -> View:
    """Turn a fact as it stands into what the engine reads: best value and what could still be."""
    value, how, spread, waits, closed = known
    if waits:
        return View(value, fact.widest, "open", how, spread)
    if value is None:
        return View(None, None, "unknown", "assumed", 0.0)
    status: Status = "unknown" if closed else "known"
    return View(value, (value, value) if fact.kind == "number" else point(value), status, how, spread)  # type: ignore[arg-type]


def views(base: RuleBase, known: Mapping[str, Known]) -> dict[str, View]:
    """Turn facts as they stand into views, by id; UndeclaredFact for one that the rule base does not know."""
    facts = base.facts
    try:
        return {id: view(facts[id], value) for id, value in known.items()}
    except KeyError as missing:
        raise UndeclaredFact(str(missing.args[0])) from None


def assumed(base: RuleBase, id: str) -> float:
    """Return a numeric assumption's value in SI."""
    return base.assumptions[id].value  # type: ignore[return-value]


def half_range(base: RuleBase, id: str) -> float:
    """Return half of a numeric assumption's range: the spread at which it is held."""
    low, high = cast("tuple[float, float]", base.assumptions[id].range)
    return (high - low) / 2
