"""How far each club flies, as bars to one scale: what a person sees sooner than he reads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.outcome_text.quantities import distance
from interview.views.pictures.ink import Ink, Picture, padded, row

if TYPE_CHECKING:
    from interview.views.kiosk.words import Say
    from interview.views.outcome import OutcomeView
    from rules.units import System

_BAR = 36
"""Cells of the longest bar."""


def carries(view: OutcomeView, say: Say, units: System) -> Picture:
    """Return the ladder of distances: driver, the two clubs, and the longest iron where it is known."""
    gaps = view.gaps
    if gaps is None or not view.clubs:
        return ()
    longer, shorter = view.clubs
    steps = [
        (say("clubs.driver"), gaps.driver, False),
        (f"{say('clubs.longer')}: {longer.label}", gaps.longer, True),
        (f"{say('clubs.shorter')}: {shorter.label}", gaps.shorter, True),
    ]
    if gaps.iron is not None and gaps.iron_told:
        steps.append((say("clubs.iron"), gaps.iron, False))
    farthest = max(far for _, far, _ in steps) or 1.0
    wide = max(len(name) for name, _, _ in steps)
    return (
        row(Ink(say("clubs.carries"), "dim")),
        *(
            row(
                Ink(padded(name, wide, right=True), "strong" if new else "dim"),
                " ",
                Ink(
                    ("━" if new else "─") * max(1, round(_BAR * far / farthest)) + "●",
                    "pick" if new else "rule",
                ),
                Ink(f" {distance(far, units, about=True)}"),
            )
            for name, far, new in steps
        ),
    )


def _bar(share: float, *, new: bool) -> Ink:
    """Return one bar with a ball at its end; the two clubs are thicker than the rest."""
    return Ink(("━" if new else "─") * max(1, round(_BAR * share)) + "●", "pick" if new else "rule")
