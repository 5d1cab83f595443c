"""From a miss to the way the head's mass should move, and how little that does.

Slice or push: mass toward the heel. Hook or pull: toward the toe (common practice). Lower and forward both
take spin off, which a golfer who cannot launch the ball does not want. Weight trims a flight and cures
none: lie, face angle and offset move a miss more, so they come first.
"""

from __future__ import annotations

from typing import Literal

from rules.bench.ports import Place
from rules.units import UNITS, System, difference_words

Hand = Literal["right", "left"]
Shape = Literal["slice", "hook", "neither"]
Flight = Literal["low", "medium", "high"]

MISSES: dict[str, Shape] = {
    "slice": "slice", "push": "slice", "fade": "slice",
    "hook": "hook", "pull": "hook", "draw": "hook",
    "straight": "neither", "both": "neither", "none": "neither",
}  # fmt: skip
"""What each word for a miss asks of the weight; left and right depend on the hand."""

_FELT = 0.00005
"""Shifts below this (m) are not worth a word."""
_RPM = UNITS["rpm"].factor
_TENTH_INCH = 0.1 * UNITS["in"].factor
SPIN_LOWER = (350 * _RPM / _TENTH_INCH, 400 * _RPM / _TENTH_INCH)
"""Spin lost for each metre that the centre of mass moves down, rad/s/m: 350 to 400 rpm for 0.1 in.

Published for a driver at 100 mph, quoted from memory; a fairway wood's figure is not known.
"""
SPIN_FORWARD = 160 * _RPM / _TENTH_INCH
"""Spin lost for each metre forward, rad/s/m: about 160 rpm for 0.1 in, of the same driver."""


def shape(miss: str, hand: Hand) -> Shape:
    """Turn a miss into its shape: a right-hander's right is a left-hander's left."""
    if miss in ("left", "right"):
        return "slice" if miss == hand else "hook"
    return MISSES[miss]


def direction_for(miss: str, hand: Hand, flight: Flight = "medium") -> Place:
    """Return the way mass should go: weights for toeward, upward and backward, nought for no wish.

    Sideways counts twice as much as height (house value). A golfer who flies it low gets mass back and
    one who flies it high gets it forward and low.
    """
    sideways = {"slice": -1.0, "hook": 1.0, "neither": 0.0}[shape(miss, hand)]
    upward, backward = {"low": (0.0, 0.5), "medium": (0.0, 0.0), "high": (-0.5, -0.5)}[flight]
    return Place(sideways, upward, backward)


def spin_change(shift: Place) -> tuple[float, float]:
    """Smallest and largest change of spin (rad/s) that published driver figures put on a shift."""
    ends = [shift.upward * rate + shift.backward * SPIN_FORWARD for rate in SPIN_LOWER]
    return min(ends), max(ends)


def ways(shift: Place) -> tuple[tuple[float, str], ...]:
    """Return how far (m, positive) a shift of the centre of mass goes, and which way; nothing too small."""
    pairs = (
        (shift.toeward, "toward the toe", "toward the heel"),
        (shift.upward, "up", "down"),
        (shift.backward, "back", "forward"),
    )
    return tuple((abs(far), more if far > 0 else less) for far, more, less in pairs if abs(far) >= _FELT)


def effect_words(shift: Place, system: System = "imperial") -> str:
    """Say how far the centre of mass moves and how little that is worth, in two sentences."""
    moves = [f"{difference_words(far, 'mm', system)} {way}" for far, way in ways(shift)]
    if not moves:
        return "The head's centre of mass stays where it is."
    return (
        f"The head's centre of mass moves {', '.join(moves)}. That is a small effect: {_spin_words(shift)} "
        "by figures published for a driver at 100 mph, and a trim of the curve rather than a cure."
    )


def _spin_words(shift: Place) -> str:
    """Say what a shift is worth in spin; mass that moves only sideways leaves it as it was."""
    low, high = (round(UNITS["rpm"].from_si(end)) for end in spin_change(shift))
    if not low and not high:
        return "no change of spin"
    return f"about {low:+d} to {high:+d} rpm of spin" if low != high else f"about {low:+d} rpm of spin"
