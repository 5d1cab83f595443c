"""Truth in three values against what is known, and what it could still become.

A truth is six bits: that the condition may hold, must hold, and holds on the best values; then the same
three of its opposite. Absent (neither) is 0. Kleene's three-valued logic (1952, section 64) is `and` on
the first three bits and `or` on the last three for *all*, the reverse for *any*.
"""

from __future__ import annotations

from math import inf, nextafter

from rules.engine.language import Atom

MAY, MUST, BEST = 1, 2, 4
"""The condition may hold, must hold, holds on the best values; shifted by three, its opposite."""
TRUE, FALSE, ABSENT = 7, 56, 0
"""Determined truths."""
SAME_DIGITS = 1e-9
"""Numbers that agree within this share of the fact's range (or of the number) count as equal."""


def all_of(truths: list[int]) -> int:
    """Return the truth of *all*."""
    holds, fails = TRUE, 0
    for truth in truths:
        holds &= truth
        fails |= truth
    return holds & TRUE | fails & FALSE


def opposite(truth: int) -> int:
    """Return the truth of the opposite."""
    return (truth << 3 | truth >> 3) & 63


def any_of(truths: list[int]) -> int:
    """Return the truth of *any*."""
    return opposite(all_of([opposite(truth) for truth in truths]))


def word(truth: int) -> str:
    """Name what a condition is against all that is still open: holds, fails, absent or undetermined."""
    if truth & MUST:
        return "holds"
    if truth & MUST << 3:
        return "fails"
    return "undetermined" if truth & (MAY | MAY << 3) else "absent"


def best_word(truth: int) -> str:
    """Name what a condition is on the best values: holds, fails or absent."""
    return "holds" if truth & BEST else "fails" if truth & BEST << 3 else "absent"


def from_cut(threshold: float, span: float) -> float:
    """Return the smallest number that counts as at least the threshold."""
    return threshold - SAME_DIGITS * max(abs(threshold), span)


def above_cut(threshold: float, span: float) -> float:
    """Return the smallest number that counts as above the threshold."""
    return nextafter(threshold + SAME_DIGITS * max(abs(threshold), span), inf)


class Bound:
    """A comparison with a number, as the half-open stretch [low, high) in which it holds (or fails)."""

    __slots__ = ("high", "inside", "low")

    def __init__(self, op: str, low: float, high: float, span: float) -> None:
        self.low = (
            -inf
            if op in ("below", "at_most")
            else above_cut(low, span)
            if op == "above"
            else from_cut(low, span)
        )
        """Smallest number inside."""
        self.high = (
            inf
            if op in ("above", "at_least")
            else from_cut(high, span)
            if op == "below"
            else above_cut(high, span)
        )
        """Smallest number beyond."""
        self.inside = op != "is_not"
        """Whether it holds inside the stretch, or outside."""

    def holds(self, x: float) -> bool:
        """Return whether the comparison holds at a number."""
        return (self.low <= x < self.high) == self.inside


def holds_word(atom: Atom, value: str, wanted: object) -> bool:
    """Return whether a comparison with words holds for a word."""
    if atom.op == "one_of":
        return value in wanted  # type: ignore[operator]
    return (value == wanted) == (atom.op == "is")


def holds_set(atom: Atom, value: frozenset[str], wanted: object) -> bool:
    """Return whether a comparison with words holds for a set of words."""
    if atom.op == "one_of":
        return not value.isdisjoint(wanted)  # type: ignore[arg-type]
    return (wanted in value) == (atom.op == "is")
