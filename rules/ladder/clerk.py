"""The clerk: decides with a full trace, for those of whom somebody asks why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from rules.engine.views import Candidate
from rules.facts.known import Known, views
from rules.ladder.deciding import Deciding, Seen
from rules.ladder.rung import Once

if TYPE_CHECKING:
    from rules.engine.ledger import Amount, Choice
    from rules.facts.golfer import Golfer
    from rules.house import House
    from rules.ladder.options import Option


class Clerk(Deciding):
    """Takes decisions for one golfer and keeps their traces."""

    traces = True

    def __init__(self, house: House, golfer: Golfer) -> None:
        super().__init__(house, golfer, golfer.views)

    def views(self, known: Mapping[str, Known]) -> dict[str, Any]:
        """Return facts as views."""
        return views(self.base, known)

    def derived(self, numbers: Mapping[str, float], waits: Mapping[str, frozenset[str]]) -> Mapping[str, Any]:
        """Return derived numbers as views."""
        return self.views({id: Known(number, waits=waits[id]) for id, number in numbers.items()})

    def choose(
        self, decision: str, own: Seen, options: Sequence[Option], told: str | None = None,
        *, alike: bool = False,
    ) -> tuple[str | None, Once[Choice] | None]:  # fmt: skip
        """Take a choice as it was told, with the ledger that comes to it."""
        return told, Once(partial(self._choice, decision, {**self.seen, **own}, options, told))

    def _choice(self, decision: str, seen: Seen, options: Sequence[Option], told: str | None) -> Choice:
        """Return the ledger of a choice; it must come to what was told."""
        found = self.base.choose(decision, seen, [Candidate(one.id, one.seen) for one in options])
        assert told == (found.pick and found.pick.candidate.id)
        return found

    def amount(
        self, decision: str, own: Seen, told: float | None = None
    ) -> tuple[float, Once[Amount] | None]:
        """Take an amount as it was told, or decide it, with its ledger."""
        ledger = Once(partial(self.base.amount, decision, {**self.seen, **own}))
        return ledger().pick_si if told is None else told, ledger
