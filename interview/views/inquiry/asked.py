"""One decision explained: all that its text and its JSON say, gathered once."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interview.views.decisions import DecisionView, decisions
from interview.views.pairing import choice_as_it_stands
from rules.engine.ledger import Amount
from rules.inquiry.ledgers import (
    InquiryProblem,
    WhyNot,
    WhyNotAmount,
    ledger,
    nearly,
    why_not,
    why_not_amount,
)

if TYPE_CHECKING:
    from interview.views.inquiry.audit import Audit
    from rules.fitting import Outcome
    from rules.inquiry.flips import Flip
    from rules.inquiry.ledgers import Near
    from rules.inquiry.study import Study
    from rules.units import System


class Explained(NamedTuple):
    """Everything asked about one decision."""

    outcome: Outcome
    decision: DecisionView
    against: WhyNot | WhyNotAmount | None
    """The rival or the amount it is held against; None where there is none."""
    near: tuple[Near, ...]
    study: Study | None
    audit: Audit | None
    """What changed since the session was last run; None where that was not asked."""
    system: System

    @property
    def flips(self) -> tuple[Flip, ...]:
        """Return what would change the decision, the nearest first."""
        found = self.study.flips if self.study else None
        mine = [f for one in found or () for f in one.flips if f.decision == self.decision.id]
        return tuple(sorted(mine, key=lambda flip: (flip.far, flip.fact)))

    @property
    def idle(self) -> tuple[str, ...]:
        """Return the facts that change this decision nowhere within their range."""
        moving = {flip.fact for flip in self.flips}
        found = self.study.flips if self.study else None
        return tuple(one.fact for one in found or () if one.fact not in moving)


def explained(
    outcome: Outcome, decision: str, instead: str | None, study: Study | None, system: System,
    audit: Audit | None = None,
) -> Explained:  # fmt: skip
    """Gather what is asked about a decision.

    `instead` is the candidate or the amount it is held against, else the runner-up. Raises InquiryProblem
    where there is no such decision or candidate.
    """
    found = ledger(outcome, decision)
    view = next(one for one in decisions(outcome, choice_as_it_stands(outcome), system) if one.id == decision)
    return Explained(
        outcome=outcome,
        decision=view,
        against=_against(outcome, view, found, instead),
        near=nearly(outcome, decision),
        study=study,
        audit=audit,
        system=system,
    )


def _against(
    outcome: Outcome, view: DecisionView, found: object, instead: str | None
) -> WhyNot | WhyNotAmount | None:
    """Hold a decision against what was named, else against its runner-up."""
    if isinstance(found, Amount):
        return why_not_amount(outcome, view.id, instead) if instead else None
    if found is None and instead:
        raise InquiryProblem(f"nothing was decided on {view.id}, so there is nothing to hold it against")
    rival = instead or view.runner_up
    return why_not(outcome, view.id, rival) if rival else None
