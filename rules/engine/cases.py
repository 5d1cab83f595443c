"""Unfolds conditions into cases: a condition holds when every comparison of one of its cases holds.

In the three-valued logic used here (Kleene 1952, section 64) the lattice laws hold, so unfolding changes
no truth: `all` distributes over `any`, and `none` turns into `all` of the opposites.
"""

from __future__ import annotations

from typing import NamedTuple

from rules.engine.language import Atom, Condition

MOST_CASES = 64
"""A condition that unfolds into more cases than this is refused."""


class Term(NamedTuple):
    """One comparison, or its opposite."""

    atom: Atom
    wanted: bool
    """True when the comparison must hold, False when its opposite must."""


Case = tuple[Term, ...]
"""Terms that must all hold."""


def count_cases(condition: Condition | None, wanted: bool = True) -> int:
    """Count the cases of a condition without unfolding it."""
    if condition is None or isinstance(condition, Atom):
        return 1
    inner = wanted if condition.op != "none" else not wanted
    counts = [count_cases(part, inner) for part in condition.parts]
    if _joins(condition.op, wanted):
        product = 1
        for count in counts:
            product = min(product * count, MOST_CASES + 1)
        return product
    return min(sum(counts), MOST_CASES + 1)


def unfold(condition: Condition | None, wanted: bool = True) -> list[Case]:
    """Return the cases of a condition (of its opposite when not `wanted`)."""
    if condition is None:
        return [()]
    if isinstance(condition, Atom):
        return [(Term(condition, wanted),)]
    inner = wanted if condition.op != "none" else not wanted
    unfolded = [unfold(part, inner) for part in condition.parts]
    if not _joins(condition.op, wanted):
        return [case for cases in unfolded for case in cases]
    joined: list[Case] = [()]
    for cases in unfolded:
        joined = [tuple(dict.fromkeys((*left, *right))) for left in joined for right in cases]
    return joined


def _joins(op: str, wanted: bool) -> bool:
    """Return whether the parts of a group must all hold: `all`, `none`, and the opposite of `any`."""
    return wanted if op != "any" else not wanted
