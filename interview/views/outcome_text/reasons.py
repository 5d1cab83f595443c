"""The golfer's reasons: the few that weigh most, in whole sentences and without a number of points."""

from __future__ import annotations

from interview.views.decisions import ROLES
from interview.views.lines import LineView
from interview.views.outcome import OutcomeView
from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import spelled

_FOR, _AGAINST = 4, 2
"""Reasons told at most, for the pair and against it."""
_BUILD = (
    ("length", "Length"),
    ("head", "Head"),
    ("shaft", "Shaft"),
    ("balance", "Weight of the head"),
    ("grip", "Grip"),
)
"""Parts that a golfer asks about, as he calls them."""
_TOLD = frozenset(("longer_usable", "shorter_usable"))
"""What the paragraph on each club has already said."""
_WORTH = 100
"""A line of less than a tenth of a point is not worth a sentence, thousandths."""


def for_customer(view: OutcomeView, page: Page) -> None:
    """Write why these two, what speaks against them, and why they are built as they are."""
    lines = [one for one in view.decisions["pairing"].because if not _TOLD & one.facts.keys()]
    for heading, found in (
        ("WHY THESE TWO", [one for one in lines if (one.points or 0) >= _WORTH][:_FOR]),
        ("WHAT SPEAKS AGAINST THEM", [one for one in lines if (one.points or 0) <= -_WORTH][:_AGAINST]),
    ):
        if found:
            page.heading(heading)
            for one in found:
                _tell(one, page)
    built = _built(view)
    if built:
        page.heading("WHY THEY ARE MADE THE WAY THEY ARE")
        for label, line in built:
            if page.once(line.text):
                page.point(f"{label}: {spelled(line.text)}")


def _tell(line: LineView, page: Page) -> None:
    """Write one reason; where the trade disagrees, what the others say."""
    if not page.once(line.text):
        return
    other = f" (Others say: {spelled(line.contested.says)})" if line.contested is not None else ""
    page.point(spelled(line.text) + other)


def _built(view: OutcomeView) -> list[tuple[str, LineView]]:
    """Return the weightiest reason for each part, of whichever club it weighs most in."""
    found = []
    for part, label in _BUILD:
        lines = [line for role in ROLES for line in view.decisions[f"{role}.{part}"].because if _speaks(line)]
        if lines:
            found.append((label, max(lines, key=lambda one: one.weight)))
    return found


def _speaks(line: LineView) -> bool:
    """Return whether a line explains what was done: a rule that moved it, or that spoke for it."""
    return line.spoken and (bool(line.adjust) or (line.points or 0) >= _WORTH)
