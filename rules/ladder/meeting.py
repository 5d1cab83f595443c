"""Where this golfer's ball meets a head on each of his lies, and what that costs. Impact alone."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.golf.contact import above_centre, height_up_face
from rules.golf.outcome import speed_kept
from rules.golf.quadrature import Face, Strike, six_strikes

if TYPE_CHECKING:
    from rules.facts.golfer import Golfer
    from rules.golf.impact import Clubhead


@dataclass(frozen=True, slots=True)
class Meeting:
    """How a face meets the golfer's lies."""

    loss: float
    """Share of ball speed lost over all lies by strikes above or below the centre of mass, from 0."""
    tight: float
    """Mean strike above the line through the centre of mass on the tightest lie that matters, m."""


def strikes(golfer: Golfer, face: Face, wider: float = 1.0) -> tuple[Strike, ...]:
    """Return the six strikes that stand for this golfer on a face; `wider` scales his scatter."""
    pattern = golfer.pattern.scattered(wider)
    return six_strikes(pattern, golfer.lies.met, face, golfer.number("attack"))


def meeting(golfer: Golfer, face: Face, delivered: float, clubhead: Clubhead) -> Meeting:
    """Return ball speed lost over the golfer's lies, and where the tightest lie meets the face.

    `delivered` is the delivered loft, rad. The loss is taken low to high only: heel and toe are the same
    for every face height. The judge is where the centre of mass projects, not the middle of the face.
    """
    attack = golfer.number("attack")
    upright = replace(golfer.pattern, mean_toe=0.0, sd_toe=0.0, correlation=0.0)
    kept = speed_kept((delivered, attack), clubhead, six_strikes(upright, golfer.lies.met, face, attack)[::2])
    met = height_up_face(face.loft, golfer.lies.tightest.middle, attack)
    return Meeting(max(0.0, 1 - 2 * kept), above_centre(met, face.cg_up_face) + golfer.pattern.mean_high)
