"""Shortening a club at the butt: points lost, and what puts them back in the head.

The exact sum: everything but the piece cut off moves nearer the butt by the cut, and the piece itself
is gone. The grip goes back on at the new butt, where it was on the old one, so it changes nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.bench import rules_of_thumb
from rules.bench.balance import FULCRUM, POINT, mass_per_point
from rules.bench.problems import NotShorter, require
from rules.bench.shaft import piece
from rules.units import UNITS

_INCH = UNITS["in"].factor
_GRAM = UNITS["g"].factor

CAUTION_BEYOND = 1.0 * _INCH
"""More than this off one club brings problems of its own (common practice), m."""
SHORTEST = 30 * _INCH
LONGEST = 50 * _INCH


@dataclass(frozen=True, slots=True)
class Shortening:
    """What a cut at the butt does (SI; points are points of swing weight)."""

    cut: float
    """Length taken off, m."""
    points_change: float
    """By the exact sum; negative."""
    restore: float
    """Mass in the head that gives the old balance back, kg, by the exact sum."""
    mass_per_point: float
    """Mass of one point where it is put back, kg."""
    shaft_lost: float
    """Mass of the shaft that is cut off, kg."""
    rule_points_change: float
    """By the bench rule, three points for half an inch."""
    rule_restore: float
    """By the bench rule, 2 g a point, kg."""

    @property
    def too_much(self) -> bool:
        """Whether the cut is large enough for the caution about a heavier or more lofted head."""
        return self.cut > CAUTION_BEYOND + 1e-9

    @property
    def rule_overshoot(self) -> float:
        """Points by which the club would read too heavy if the bench rule's mass were put in."""
        return (self.rule_restore - self.restore) / self.mass_per_point


def shorten(
    before: float,
    after: float,
    head_mass: float,
    shaft_mass: float,
    *,
    setback: float = 0.0,
    balance: float = 0.5,
) -> Shortening:
    """Work out a cut at the butt from `before` to `after` (m).

    `shaft_mass` (kg) is the shaft's before the cut; it is taken as running the whole length with its
    mass per inch in a straight line from butt to tip, balancing at `balance` of its length.
    `setback` (m) is how far short of the length mark the added mass sits; nought puts it at the mark.
    Valid for clubs of 30 to 50 in. Raises NotShorter and OutOfRange.
    """
    for name, length in (("length before", before), ("length after", after)):
        require(name, length, SHORTEST, LONGEST, "in")
    require("head mass", head_mass, 50 * _GRAM, 500 * _GRAM, "g")
    require("setback", setback, 0, 3 * _INCH, "in")
    if after > before:
        raise NotShorter(before, after)
    cut = before - after
    lost = piece(shaft_mass, before, balance, 0, cut)
    moved = head_mass + shaft_mass - lost.mass
    change = (-moved * cut - lost.mass * (lost.centre - FULCRUM)) / POINT
    per_point = mass_per_point(after - setback)
    by_rule = rules_of_thumb.points_for_length(-cut)
    return Shortening(
        cut=cut,
        points_change=change,
        restore=-change * per_point,
        mass_per_point=per_point,
        shaft_lost=lost.mass,
        rule_points_change=by_rule,
        rule_restore=rules_of_thumb.head_mass_for_points(-by_rule),
    )
