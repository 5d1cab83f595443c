"""How firm a pick is: steady against open questions, and sure against the spread of all facts."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.inquiry.roads import Superseded
from rules.inquiry.steady import steady
from rules.inquiry.sure import surely

if TYPE_CHECKING:
    from rules.fitting import Outcome


@dataclass(frozen=True, slots=True)
class Firm:
    """What is known so far; None where it is not known yet."""

    sure: float | None = None
    """Share of draws in which the pick stays, 0 to 1."""
    steady: bool | None = None
    """Whether every plausible completion of the open questions gives the pick."""

    def better(self, newer: Firm) -> Firm:
        """Return what is known by now, with something newer."""
        return Firm(
            self.sure if newer.sure is None else newer.sure,
            self.steady if newer.steady is None else newer.steady,
        )


def firm_words(firm: Firm, *, settled: bool) -> str:
    """Return how firm a pick is, in a sentence: whether that is proved or tried, and how sure it is."""
    if not settled and not firm.steady:
        return ""
    how = "Proved: settled." if settled else "Every plausible answer was tried: steady."
    sure = "How sure is being worked out." if firm.sure is None else f"Sure {firm.sure * 100:.0f} %."
    return f"{how} {sure}"


def firmness(outcome: Outcome, stop: Callable[[], bool]) -> Iterator[Firm]:
    """Yield how firm the pick of an outcome is, little by little: a first share, steady, ever surer shares.

    Nothing is yielded any more once `stop` says so, or where there is no pick.
    """
    if outcome.picked is None or outcome.pairing is None or outcome.pairing.pick is None:
        return
    try:
        shares = surely(outcome, outcome.pairing.pick.candidate.id, stale=stop)
        first = next(shares).share
        yield Firm(sure=first)
        found = steady(outcome.house, outcome.subject, outcome, stale=stop, until_unsteady=True)
        yield Firm(sure=first, steady=found.steady)
        for one in shares:
            yield Firm(sure=one.share, steady=found.steady)
    except Superseded:
        return
