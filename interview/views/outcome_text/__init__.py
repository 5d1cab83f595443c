"""An outcome as plain text in three voices: the fitter's, the customer's and the trainer's."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.outcome import outcome_view
from interview.views.outcome_text import closing, clubs, ladder, ledgers, opening, reasons
from interview.views.outcome_text.page import Page

if TYPE_CHECKING:
    from interview.session import Voice
    from interview.views.outcome import OutcomeView
    from interview.views.study import Study
    from rules.fitting import Outcome
    from rules.units import System

WIDTH = 80
"""Columns that a page takes unless told otherwise."""


def text(
    outcome: Outcome,
    voice: Voice = "fitter",
    units: System = "imperial",
    width: int = WIDTH,
    study: Study | None = None,
) -> str:
    """Return an outcome as plain text: no colour, no markup, no line beyond `width` columns."""
    return text_of(outcome_view(outcome, units, study), voice, width)


def text_of(view: OutcomeView, voice: Voice = "fitter", width: int = WIDTH) -> str:
    """Return the view of an outcome as plain text."""
    page = Page(width)
    if voice == "customer":
        _customer(view, page)
    else:
        _trade(view, page, teach=voice == "trainer")
    return page.text


def _customer(view: OutcomeView, page: Page) -> None:
    """Write what a good fitter would tell a golfer; when swinging hurts, only what comes first."""
    stopped = opening.stop(view, page)
    opening.pair(view, page, customer=True, stopped=stopped)
    if stopped:
        return
    closing.sure(view.study, page, customer=True)
    clubs.for_customer(view, page)
    ladder.for_customer(view, page)
    reasons.for_customer(view, page)
    closing.assumed_for_customer(view, page)
    closing.cautions(view, page, customer=True, teach=False)
    closing.proofs(view, page, customer=True, teach=False)


def _trade(view: OutcomeView, page: Page, teach: bool) -> None:
    """Write everything that the fitter works from; the trainer reads lessons and sources with it."""
    stopped = opening.stop(view, page)
    opening.pair(view, page, customer=False, stopped=stopped)
    closing.sure(view.study, page, customer=False)
    clubs.for_fitter(view, page)
    ladder.for_fitter(view, page)
    closing.overrides(view, page)
    ledgers.for_trade(view, page, teach)
    closing.assumed_for_trade(view, page, teach)
    closing.cautions(view, page, customer=False, teach=teach)
    if not stopped:
        closing.proofs(view, page, customer=False, teach=teach)
