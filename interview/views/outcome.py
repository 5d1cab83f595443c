"""The view of a whole outcome: the one road from what was decided to everything that shows it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from interview.views.club import ClubView, club_views
from interview.views.decisions import DecisionView, decisions
from interview.views.facts import FactView, fact_views
from interview.views.gaps import GapsView, gaps_view
from interview.views.leans import LeanView, leans
from interview.views.notices import NoticeView, cautions, proofs
from interview.views.pairing import PairingView, RuledOut, choice_as_it_stands, pairing_view, ruled_out
from interview.views.study import Study

if TYPE_CHECKING:
    from rules.fitting import Outcome
    from rules.overrides import Overridden
    from rules.units import System


class OutcomeView(NamedTuple):
    """Everything that may be shown of one run."""

    pairing: PairingView | None
    """None where no pair is possible; the reasons are in `ruled_out`."""
    clubs: tuple[ClubView, ...]
    """The longer and the shorter; empty where no pair is possible."""
    gaps: GapsView | None
    decisions: Mapping[str, DecisionView]
    """All of them, always, by id."""
    facts: Mapping[str, FactView]
    leans: tuple[LeanView, ...]
    """What the run assumed."""
    ruled_out: tuple[RuledOut, ...]
    cautions: tuple[NoticeView, ...]
    """What can hurt first."""
    proofs: tuple[NoticeView, ...]
    """The plan to prove the clubs, step by step."""
    overrides: tuple[Overridden, ...]
    settled: bool
    """No unanswered question matters any more."""
    worth_asking: tuple[str, ...]
    """Open questions that still matter, in the order to ask them."""
    stakes: Mapping[str, float]
    """What is at stake in each open question, in points."""
    hand: str
    """right or left."""
    system: System
    """How quantities in its sentences are written."""
    study: Study


def outcome_view(outcome: Outcome, system: System = "imperial", study: Study | None = None) -> OutcomeView:
    """Return the view of an outcome, its sentences with quantities as `system` writes them."""
    choice = choice_as_it_stands(outcome)
    return OutcomeView(
        pairing=pairing_view(outcome, choice),
        clubs=club_views(outcome),
        gaps=gaps_view(outcome),
        decisions={one.id: one for one in decisions(outcome, choice, system)},
        facts=fact_views(outcome),
        leans=leans(outcome),
        ruled_out=ruled_out(outcome, system),
        cautions=cautions(outcome.notices, outcome.house.base.rules, system),
        proofs=proofs(outcome.notices, outcome.house.base.rules, system),
        overrides=outcome.overridden,
        settled=outcome.settled,
        worth_asking=outcome.questions.worth_asking,
        stakes=outcome.questions.stakes,
        hand=outcome.golfer.word("hand"),
        system=system,
        study=study or Study(),
    )
