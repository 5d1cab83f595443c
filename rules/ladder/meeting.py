"""Where this golfer's ball meets a head on each of his lies, and what that costs. Impact alone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.golf.contact import above_centre, height_up_face
from rules.golf.face_loss import Blow, loss
from rules.golf.impact import Clubhead
from rules.golf.quadrature import Face
from rules.golf.strike import StrikePattern
from rules.units import parse

if TYPE_CHECKING:
    from rules.facts.golfer import Golfer
    from rules.shelf.parts import Head

_FACE_MASS = parse("215 g", "kg")


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
    upright = StrikePattern(0.0, pattern.mean_high, 0.0, pattern.sd_high)
    lost = loss(upright, golfer.lies.met, face, Blow(delivered, attack, clubhead))
    met = height_up_face(face.loft, golfer.lies.tightest.middle, attack)
    return Meeting(lost, above_centre(met, face.cg_up_face) + pattern.mean_high)


def free_head(head: Head, spin_grip: float) -> Clubhead:
    """Return a head as a free body at a usual finished mass; heads of one place differ little in it."""
    return Clubhead(
        _FACE_MASS, head.restitution, spin_grip, head.cg_depth, head.moi_vertical, head.moi_heel_toe
    )
