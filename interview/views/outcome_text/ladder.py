"""The ladder of distances, top to bottom, with the step below each rung."""

from __future__ import annotations

from interview.views.gaps import GapsView
from interview.views.outcome import OutcomeView
from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import distance, listed, spelled


def for_fitter(view: OutcomeView, page: Page) -> None:
    """Write the ladder as a table, and once what is known to be wrong with flights."""
    gaps = view.gaps
    if gaps is None:
        return
    page.heading("LADDER, carry of clean strikes")
    before: float | None = None
    for name, carry in _rungs(view, gaps):
        words = "not known" if carry is None else distance(carry, view.system)
        if carry is not None and before is not None:
            words += f", {_step(before - carry, view)}"
        page.row(name, words, wide=13)
        before = carry
    page.say(_faults(gaps), indent=2)


def _step(metres: float, view: OutcomeView) -> str:
    """Write a step down the ladder; a step up is an overlap."""
    way = "less" if metres >= 0 else "MORE"
    return f"{distance(abs(metres), view.system)} {way}"


def _rungs(view: OutcomeView, gaps: GapsView) -> list[tuple[str, float | None]]:
    """Return the rungs from the top of the bag down."""
    longer, shorter = view.clubs
    return [
        ("driver", gaps.driver),
        (longer.label, gaps.longer),
        (shorter.label, gaps.shorter),
        ("longest iron", gaps.iron),
    ]


def _faults(gaps: GapsView) -> str:
    """Say what is known to be wrong with every flight that is computed."""
    told = " but for the iron's, which was told" if gaps.iron_told else ""
    return f"Carries are computed{told}. Peaks come out right; landing angles too flat, so none is given."


def for_customer(view: OutcomeView, page: Page) -> None:
    """Say the ladder in one sentence."""
    gaps = view.gaps
    if gaps is None:
        return
    page.heading("HOW FAR, FROM THE TOP OF YOUR BAG DOWN")
    said = [
        f"{name} {spelled(distance(carry, view.system))}"
        for name, carry in _rungs(view, gaps)
        if carry is not None
    ]
    page.say(f"Hit well, to where the ball lands: {listed(said)}.")
