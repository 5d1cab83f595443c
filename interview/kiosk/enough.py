"""Whether a visitor has said enough: nothing that the kiosk could still ask would change his two clubs."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from rules.inquiry.plausible import plausible
from rules.inquiry.roads import Superseded
from rules.inquiry.steady import steady

if TYPE_CHECKING:
    from interview.conversation import State

Stale = Callable[[], bool]


def enough(state: State, stale: Stale) -> bool:
    """Try plausible answers to the questions that the kiosk has still to ask: do all give the same pair?

    A measurement over a fixed set of answers, not a proof; questions left to the fitter stay as they are
    assumed, since the visitor is not asked them. Safety is never cut short. False once `stale` says so.
    """
    outcome = state.outcome
    left = set(state.open) - set(state.session.record.skipped)
    base = outcome.house.base
    if outcome.picked is None or any((ask := base.facts[id].ask) and ask.always for id in left):
        return False
    tried = plausible(base, state.session.subject, outcome.golfer)
    sets = [{id: said for id, said in one.items() if id in left} for one in tried]
    try:
        return steady(
            outcome.house, state.session.subject, outcome, sets, stale=stale, until_unsteady=True
        ).steady
    except Superseded:
        return False
