"""Why these two, and why they are made the way they are: the few reasons that weigh most, in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.outcome_text.quantities import spelled

if TYPE_CHECKING:
    from collections.abc import Iterable

    from interview.views.lines import LineView
    from interview.views.outcome import OutcomeView

_WORTH = 100
"""A line of less than a tenth of a point is not worth a sentence, thousandths."""
_PARTS = ("length", "head", "balance", "shaft", "ports", "grip")
"""Parts of a club in the order in which a golfer asks about them."""
_PARTS_TOLD = 5
_FOR, _AGAINST = 4, 2
_ON_THE_CARD = frozenset(("longer_usable", "shorter_usable"))
"""What the card of each club has already said."""


def why_these(view: OutcomeView) -> tuple[str, ...]:
    """Return what speaks for the pair, weightiest first."""
    return _told((one for one in _of_the_pair(view) if (one.points or 0) >= _WORTH), _FOR)


def against_them(view: OutcomeView) -> tuple[str, ...]:
    """Return what speaks against the pair: a golfer is told that too."""
    return _told((one for one in _of_the_pair(view) if (one.points or 0) <= -_WORTH), _AGAINST)


def _of_the_pair(view: OutcomeView) -> list[LineView]:
    """Return the lines on the pair, without what the cards tell already."""
    return [one for one in view.decisions["pairing"].because if not _ON_THE_CARD & one.facts.keys()]


def why_made_so(view: OutcomeView) -> tuple[str, ...]:
    """Return the weightiest reason for each part, of whichever club it weighs most in."""
    found: list[LineView] = []
    for part in _PARTS:
        decisions = (view.decisions[f"{club.role}.{part}"] for club in view.clubs)
        lines = [line for decision in decisions for line in decision.because if _speaks(line)]
        if lines:
            found.append(max(lines, key=lambda one: one.weight))
    return _told(found, _PARTS_TOLD)


def _speaks(line: LineView) -> bool:
    """Return whether a rule explains what was done."""
    return line.spoken and (bool(line.adjust) or (line.points or 0) >= _WORTH)


def _told(lines: Iterable[LineView], most: int) -> tuple[str, ...]:
    """Return sentences, none twice; where the trade disagrees, that others say otherwise."""
    found: dict[str, str] = {}
    for line in lines:
        if line.text not in found and len(found) < most:
            other = f" (Others say: {spelled(line.contested.says)})" if line.contested is not None else ""
            found[line.text] = spelled(line.text) + other
    return tuple(found.values())
