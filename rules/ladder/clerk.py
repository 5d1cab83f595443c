"""The clerk: decides with a full trace, for those of whom somebody asks why."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from rules.engine.views import Candidate, View
from rules.facts.known import Known, views
from rules.ladder.deciding import Deciding, Seen, Stamp

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.engine.ledger import Amount, Choice
    from rules.facts.golfer import Golfer
    from rules.house import House


class Clerk(Deciding):
    """Takes decisions for one golfer and keeps their traces."""

    traces = True

    def __init__(self, house: House, golfer: Golfer) -> None:
        super().__init__(house, golfer, golfer.views)

    def views(self, known: Mapping[str, Known]) -> dict[str, Any]:
        """Return facts as views."""
        return views(self.base, known)

    def stamps(self, decision: str, waits: Mapping[str, frozenset[str]]) -> Stamp:
        """Return what turns derived numbers into views, those that wait on a question into open ones."""
        stamps = {id: _stamp(self.base.facts[id], questions) for id, questions in waits.items()}
        return lambda numbers: {id: stamps[id](number) for id, number in numbers.items()}

    def choose(
        self, decision: str, own: Seen, candidates: Sequence[Candidate]
    ) -> tuple[str | None, Choice | None]:
        """Decide a choice with its ledger."""
        choice = self.base.choose(decision, {**self.seen, **own}, candidates)
        return choice.pick.candidate.id if choice.pick else None, choice

    def amount(self, decision: str, own: Seen) -> tuple[float, Amount | None]:
        """Decide an amount with its ledger."""
        amount = self.base.amount(decision, {**self.seen, **own})
        return amount.pick_si, amount


def _stamp(fact: Fact, waits: frozenset[str]) -> Callable[[float], View]:
    """Return what turns one derived number into a view."""
    (low, high), widest = fact.range, fact.widest

    def waiting(value: float) -> View:
        return View(min(high, max(low, value)), widest, "open", "derived", 0.0)

    def known(value: float) -> View:
        held = min(high, max(low, value))
        return View(held, (held, held), "known", "derived", 0.0)

    return waiting if waits else known
