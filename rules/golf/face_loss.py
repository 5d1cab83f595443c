"""What a face costs over a golfer's lies, in ball speed: impact alone, no flight.

Lies are never averaged into one height of ball. The tightest lie that matters says where the centre of mass
ought to project on the face; the loss over all of them is what is weighed; and what a teed ball or a lush
lie costs on a face made for bare turf is told beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rules.golf.contact import above_centre, height_up_face
from rules.golf.impact import Clubhead
from rules.golf.outcome import speed_kept
from rules.golf.quadrature import Face, Lie, Strike, three_heights
from rules.golf.strike import StrikePattern


@dataclass(frozen=True, slots=True)
class LieLoss:
    """One lie on one face (SI)."""

    met: float
    """Up the face from the leading edge to the middle of his strikes on this lie, m."""
    above: float
    """The same above the line through the centre of mass, m; below it negative."""
    lost: float
    """Share of the centred ball speed that is lost on this lie, from 0."""


@dataclass(frozen=True, slots=True)
class Blow:
    """How a head comes to the ball, all but its speed."""

    delivered: float
    """Delivered loft, rad."""
    attack: float
    """Up positive, rad."""
    head: Clubhead


def loss(pattern: StrikePattern, lies: Sequence[Lie], face: Face, blow: Blow) -> float:
    """Return the share of ball speed lost over lies by strikes above or below the centre of mass, from 0.

    Low to high only: heel and toe are the same for every face height. Restitution is held constant over
    the face, which flatters thin strikes: they are outcomes of their own.
    """
    heights = three_heights(pattern, lies, face, blow.attack)
    strikes = [Strike(0.0, high, weight) for high, weight in heights]
    return max(0.0, 1.0 - speed_kept((blow.delivered, blow.attack), blow.head, strikes))


def on_lie(pattern: StrikePattern, lie: Lie, face: Face, blow: Blow) -> LieLoss:
    """Return where a golfer meets a face on one lie, and what that costs."""
    middle = (lie.low + lie.high) / 2
    met = height_up_face(face.loft, middle, blow.attack, face.clearance) + pattern.mean_high
    alone = Lie(1.0, lie.low, lie.high)
    return LieLoss(met, above_centre(met, face.cg_up_face), loss(pattern, (alone,), face, blow))
