"""From a raw shaft to one that fits a head: how deep it sits, and what is cut from tip and butt."""

from __future__ import annotations

from dataclasses import dataclass

from rules.bench.problems import InsertionTooDeep, ShaftTooShort, TipTrimTooLong, WeightTooLong, require
from rules.units import UNITS

_INCH = UNITS["in"].factor

CAP = 0.125 * _INCH
"""Thickness of the grip's cap, m: part of the club's length but not of its shaft (common practice)."""
STANDARD_DEPTHS = (0.5 * _INCH, 1.0 * _INCH, 1.5 * _INCH)
"""Usual distances from bottom of bore to ground, m: blind, middle, high (common practice)."""
LEAST_INSERTION = 1.0 * _INCH
"""House value for the least glued length of shaft in a wood or hybrid hosel, m (plausible 0.75 to 1.25 in).

Common practice differs from maker to maker; the head maker's own figure goes first.
"""


@dataclass(frozen=True, slots=True)
class Cuts:
    """What is cut from a raw shaft, and what is left (m)."""

    tip: float
    butt: float
    length: float


def bottom_to_ground(hosel_length: float, insertion: float) -> float:
    """Distance (m) from the bottom of the bore to the ground: hosel length less insertion depth.

    The hosel's length runs from the ground to its top along the shaft. Raises OutOfRange and
    InsertionTooDeep.
    """
    require("hosel length", hosel_length, 0.25 * _INCH, 6 * _INCH, "in")
    require("insertion depth", insertion, 0.1 * _INCH, 6 * _INCH, "in")
    if insertion > hosel_length:
        raise InsertionTooDeep(hosel_length, insertion, "the insertion cannot be deeper than the hosel")
    return hosel_length - insertion


def bottom_to_ground_dry(shaft_length: float, length_with_head: float) -> float:
    """Return the same distance (m) from a dry fit: length with the head on, less the bare shaft's."""
    require("shaft length", shaft_length, 15 * _INCH, 55 * _INCH, "in")
    require("length with the head on", length_with_head, 15 * _INCH, 60 * _INCH, "in")
    if shaft_length > length_with_head:
        raise InsertionTooDeep(
            length_with_head, shaft_length, "the shaft cannot be longer than shaft and head"
        )
    return length_with_head - shaft_length


def cut_length(length: float, to_ground: float, cap: float = CAP) -> float:
    """Length (m) of the finished shaft in a club of a playing length (m)."""
    require("bottom of bore to ground", to_ground, 0, 4 * _INCH, "in")
    require("thickness of the grip cap", cap, 0, 1 * _INCH, "in")
    return length - to_ground - cap


def cuts(raw_length: float, tip_trim: float, wanted: float) -> Cuts:
    """Cuts that bring a raw shaft (m) to a wanted length, the tip trimmed first.

    Raises ShaftTooShort when not enough is left after the tip trim.
    """
    require("raw shaft length", raw_length, 20 * _INCH, 55 * _INCH, "in")
    require("tip trim", tip_trim, 0, 10 * _INCH, "in")
    butt = raw_length - tip_trim - wanted
    if butt < -1e-9:
        raise ShaftTooShort(wanted, raw_length - tip_trim)
    return Cuts(tip_trim, max(butt, 0.0), wanted)


def check_tip(parallel_tip: float, tip_trim: float, insertion: float) -> float:
    """Return the parallel tip (m) left after a trim, or raise TipTrimTooLong if the head takes in more."""
    if parallel_tip - tip_trim < insertion - 1e-9:
        raise TipTrimTooLong(tip_trim, parallel_tip, insertion)
    return parallel_tip - tip_trim


def trim_at_depth(chart_trim: float, to_ground: float, chart_to_ground: float) -> float:
    """Tip trim (m) for a bore of another depth than the trim chart was made for (common practice).

    A shaft that stops higher above the ground shows more of its soft tip, so the difference is trimmed
    as well; one that goes deeper is trimmed less, never below nought.
    """
    return max(chart_trim + to_ground - chart_to_ground, 0.0)


def room_for_weight(bore_depth: float, weight_length: float, least: float = LEAST_INSERTION) -> float:
    """Insertion (m) left above a hosel weight, or WeightTooLong when it is under the least allowed."""
    require("depth of the bore", bore_depth, 0.1 * _INCH, 6 * _INCH, "in")
    require("length of the hosel weight", weight_length, 0, 6 * _INCH, "in")
    left = bore_depth - weight_length
    if left < least - 1e-9:
        raise WeightTooLong(left, least)
    return left
