"""Where a rung starts before any rule speaks: length, speed and mass by kind and loft."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rules.facts.known import assumed
from rules.facts.usual import speed_ratio, suiting_apex
from rules.golf.speed import with_length
from rules.golf.strike import scatter_with_length
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import Kind

__all__ = ["length_factor", "scatter_factor", "speed_ratio", "suiting_apex", "usual_length"]

_DEGREE = parse("1 deg", "rad")
_INCH = parse("1 in", "m")
_SHORTEST, _LONGEST = 38.5 * _INCH, 43 * _INCH
_REFERENCE = {"fairway": 15 * _DEGREE, "hybrid": 20 * _DEGREE}
"""Lofts at which the trade's ratios and starting lengths are given."""


def usual_length(base: RuleBase, kind: Kind, loft: float) -> float:
    """Return the length a club of this kind and loft starts from, m: a little below what shops sell."""
    beyond = (loft - _REFERENCE[kind]) / _DEGREE
    if kind == "fairway":
        start = assumed(base, "start-length-fairway-15") - beyond * assumed(base, "start-length-per-degree")
    else:
        start = assumed(base, "start-length-hybrid-20") - beyond * assumed(base, "start-length-per-degree")
    return min(_LONGEST, max(_SHORTEST, start))


def length_factor(base: RuleBase, length: float, usual: float) -> float:
    """Return the factor on head speed when one club is built longer or shorter than its usual length."""
    return with_length(1.0, length - usual, assumed(base, "speed-per-inch"))


def scatter_factor(base: RuleBase, length: float, usual: float) -> float:
    """Return the factor on strike scatter when one club is built longer or shorter than its usual length."""
    return scatter_with_length(length - usual, assumed(base, "scatter-per-inch"))
