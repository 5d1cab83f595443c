"""What the rules of the game and of equipment say of the two clubs: each line with its rule and edition.

The figures are held in `rules.bench.rules_of_golf`. Whoever sells a club as conforming checks the current
edition first.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.bench import rules_of_golf as law

if TYPE_CHECKING:
    from rules.facts.golfer import Golfer
    from rules.workbench.club import Club

RULES_EDITION = "2023"
"""Edition of the Rules of Golf that is meant."""
EQUIPMENT_EDITION = "2019"
"""Edition of the Equipment Rules that is meant (in force from 1 January 2019: from memory)."""
ADJUSTABLE = "Equipment Rules, Part 2, section 1b"
"""Adjustability: weights may change, parts must be firmly fixed, every setting must conform (from memory)."""


@dataclass(frozen=True, slots=True)
class RuleLine:
    """One limit held against the two clubs or the bag."""

    what: str
    """length, inertia, clubs, adjustable or round."""
    ok: bool | None
    """Whether it is kept; None where it is a duty and no number, or the number is not known."""
    rule: str
    edition: str
    role: str = ""
    """The club it is about; empty for the bag and for both."""
    value: float | None = None
    """What was held against the limit (SI)."""
    low: float | None = None
    high: float | None = None
    """The limits (SI)."""


def conforming(clubs: Sequence[Club], golfer: Golfer) -> tuple[RuleLine, ...]:
    """Return every line: each club's length and inertia, the bag, adjustability, and the round."""
    local = golfer.word("local_length_limit") == "yes"
    lines = [line for club in clubs for line in _of_club(club, local)]
    return (*lines, *_of_bag(clubs, golfer), *_duties(clubs))


def _of_club(club: Club, local: bool) -> list[RuleLine]:
    """Return the limits on one club."""
    length, longest = club.rung.spec.length, law.LOCAL_LONGEST if local else law.LONGEST
    ok = law.SHORTEST.value - 1e-9 <= length <= longest.value + 1e-9
    edition = "from 1 January 2022" if local else EQUIPMENT_EDITION
    found = [
        RuleLine("length", ok, longest.rule, edition, club.role, length, law.SHORTEST.value, longest.value)
    ]
    head = club.rung.spec.head
    if head is not None:
        most = law.HEAD_INERTIA.value
        kept = head.moi_heel_toe <= most + law.HEAD_INERTIA.tolerance
        found.append(
            RuleLine(
                "inertia", kept, law.HEAD_INERTIA.rule, EQUIPMENT_EDITION, club.role, head.moi_heel_toe,
                None, most,
            )
        )  # fmt: skip
    return found


def _of_bag(clubs: Sequence[Club], golfer: Golfer) -> list[RuleLine]:
    """Return the count of clubs, where anybody knows it."""
    after = golfer.known.get("clubs_after")
    known = after is not None and after.value is not None and after.how != "assumed"
    count = after.number if known and after is not None else None
    most = law.CLUBS_IN_BAG.value
    ok = None if count is None else count <= most
    return [RuleLine("clubs", ok, "Rules of Golf, Rule 4.1b(1)", RULES_EDITION, "", count, None, most)]


def _duties(clubs: Sequence[Club]) -> list[RuleLine]:
    """Return what the builder and the golfer must see to: adjustable parts, and no change in a round."""
    weighted = any(club.plan is not None and club.plan.added > 0 for club in clubs)
    adjustable = [RuleLine("adjustable", None, ADJUSTABLE, EQUIPMENT_EDITION)] if weighted else []
    return [*adjustable, RuleLine("round", None, law.NO_CHANGE_IN_ROUND, RULES_EDITION)]
