"""How long slow epoxy holds a club back, and how a glued shaft comes out: heat, never haste.

Common practice: slow epoxy wants 24 h at 72 to 80 degF, longer when colder. Graphite lets go at about
250 degF and is ruined at 300. Gloves, moving air and no flame with epoxy and solvents; eye protection
always. The adhesive maker's own sheet and local codes come first.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from rules.bench.problems import TooCold, require
from rules.units import UNITS

_F = UNITS["degF"]
_HOUR = UNITS["h"].factor

Shaft = Literal["graphite", "steel"]

FULL_CURE = 24 * _HOUR
"""Least hold at the warm end, s."""
WARM_FROM = _F.to_si(72)
COLDEST = _F.to_si(55)
"""House value: below this slow epoxy is not to be relied on, K."""
DOUBLES_EVERY = 10.0
"""Chemical rule of thumb, from memory: a cure takes twice as long for each 10 K colder."""

RELEASE_FROM = _F.to_si(250)
"""Epoxy lets go at about this, K."""
RUINED_AT = _F.to_si(300)
"""Graphite's resin is ruined at this, K."""


def hold_time(temperature: float) -> float:
    """Time (s) that a freshly glued club is kept from play at a bench temperature (K).

    24 h from 72 degF up, never less however warm; colder it doubles for each 10 K, in whole hours upward.
    Valid from 55 to 100 degF. Raises TooCold and OutOfRange.
    """
    require("temperature of the glue bench", temperature, _F.to_si(-40), _F.to_si(100), "degF")
    if temperature < COLDEST - 1e-9:
        raise TooCold(temperature, COLDEST)
    slower: float = 2.0 ** (max(WARM_FROM - temperature, 0.0) / DOUBLES_EVERY)
    return math.ceil(FULL_CURE * slower / _HOUR - 1e-9) * _HOUR


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether a glued club may be hit, and how much longer it must wait (s)."""

    may_play: bool
    wait: float
    text: str


def may_play(glued_for: float, temperature: float) -> Verdict:
    """Judge a club glued so long ago (s) at a bench temperature (K); quick glue is no way round it."""
    require("time since gluing", glued_for, 0, 1000 * 24 * _HOUR, "h")
    wait = max(hold_time(temperature) - glued_for, 0.0)
    if wait <= 0:
        return Verdict(
            True, 0.0, "The glue has had its time; pull and twist the head by hand before it is hit."
        )
    hours = math.ceil(wait / _HOUR)
    return Verdict(
        False,
        wait,
        f"Not yet: slow epoxy wants {hours} h more at this temperature; a head that flies off hurts people, "
        "and quick glue is weaker.",
    )


@dataclass(frozen=True, slots=True)
class Extraction:
    """How one shaft comes out of its head (SI)."""

    heat_from: float
    """Epoxy begins to let go, K."""
    heat_to: float
    """Graphite is ruined; not to be reached, K."""
    twist: bool
    """Whether it may be turned as it is pulled."""
    torch: bool
    """Whether a flame may be used at all."""
    text: str
    """What to do, and what to watch."""


def extraction(shaft: Shaft) -> Extraction:
    """Heat window (K) and manner of pulling a shaft; no promise that it survives."""
    if shaft == "steel":
        text = (
            "Heat until the glue lets go, then pull; a torch never near solvent, paint or a composite head. "
            "An extractor stores force: stand clear of its line, with eye protection."
        )
        return Extraction(RELEASE_FROM, RUINED_AT, True, True, text)
    text = (
        "Little heat at a time, about 250 degF and never 300; a puller, straight along the shaft, no twist. "
        "Tell the owner first that it may not survive: without a puller fewer than one in ten do. "
        "An extractor stores force: stand clear of its line, with eye protection."
    )
    return Extraction(RELEASE_FROM, RUINED_AT, False, False, text)
