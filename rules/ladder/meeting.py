"""Where this golfer's ball meets a head on each of his lies, and what that costs. Impact alone."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from rules.golf.contact import above_centre, height_up_face
from rules.golf.face_loss import Blow, loss
from rules.golf.quadrature import Face, Lie
from rules.golf.strike import StrikePattern

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


def meeting(golfer: Golfer, face: Face, delivered: float, clubhead: Clubhead) -> Meeting:
    """Return ball speed lost over the golfer's lies, and where the tightest lie meets the face.

    `delivered` is the delivered loft, rad. The loss is taken low to high only: heel and toe are the same
    for every face height. The judge is where the centre of mass projects, not the middle of the face.
    """
    attack, pattern = golfer.number("attack"), golfer.pattern
    loss = _loss(face, delivered, clubhead, pattern.mean_high, pattern.sd_high, golfer.lies.met, attack)
    met = height_up_face(face.loft, golfer.lies.tightest.middle, attack)
    return Meeting(loss, above_centre(met, face.cg_up_face) + pattern.mean_high)


@lru_cache(maxsize=512)
def _loss(
    face: Face, delivered: float, clubhead: Clubhead, mean_high: float, sd_high: float,
    lies: tuple[Lie, ...], attack: float,
) -> float:  # fmt: skip
    """Return the share of ball speed lost; remembered, since most answers leave most heads alone."""
    pattern = StrikePattern(0.0, mean_high, 0.0, sd_high)
    return loss(pattern, lies, face, Blow(delivered, attack, clubhead))
