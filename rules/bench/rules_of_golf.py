"""Limits that the Rules of Golf set to a wood or hybrid, each with its rule and edition.

Figures in SI. Local codes and the current edition come first: check them before a club is sold as conforming.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.bench.problems import BeyondTheRules
from rules.units import UNITS

_INCH = UNITS["in"].factor
_GCM2 = UNITS["g*cm2"].factor


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit: its value, the unit it is printed in, what is added for measurement, and the rule."""

    value: float
    symbol: str
    rule: str
    tolerance: float = 0.0


SHORTEST = Limit(18 * _INCH, "in", "Equipment Rules, Part 2, section 1c")
"""Least overall length of any club."""
LONGEST = Limit(48 * _INCH, "in", "Equipment Rules, Part 2, section 1c; length protocol, revision 1.1")
"""Greatest overall length of any club but a putter."""
LOCAL_LONGEST = Limit(46 * _INCH, "in", "Model Local Rule G-10, from 1 January 2022")
"""Greatest length where a committee has adopted the local rule."""
HEAD_INERTIA = Limit(5900 * _GCM2, "g*cm2", "Equipment Rules, Part 2, from 1 May 2006", 100 * _GCM2)
"""Greatest inertia of a wood head about the upright axis through its centre of mass."""
CLUBS_IN_BAG = Limit(14, "", "Rules of Golf, Rule 4.1b(1)")
"""Most clubs a player may carry."""
NO_CHANGE_IN_ROUND = "Rules of Golf, Rule 4.1a(3)"
"""Forbids changing a club's weights, sleeves or settings during a round."""


def check_length(length: float, *, local_limit: bool = False) -> float:
    """Return a playing length (m) that conforms, or raise BeyondTheRules naming the rule broken.

    `local_limit` applies the 46-inch local rule. Length is meant as the rule measures it: the sole
    against a plane of 60 degrees, to the end of the grip.
    """
    longest = LOCAL_LONGEST if local_limit else LONGEST
    if not math.isfinite(length) or length < SHORTEST.value - 1e-9:
        raise BeyondTheRules(length, SHORTEST.value, "shortest allowed", SHORTEST.rule)
    if length > longest.value + 1e-9:
        raise BeyondTheRules(length, longest.value, "longest allowed", longest.rule)
    return length
