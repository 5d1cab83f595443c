"""What was asked, as a golfer would call it, and what it would have to be."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING

from interview.views.outcome_text.quantities import spelled, trimmed
from interview.wording.words import WordingProblem
from interview.wording.words import words as wording
from rules.units import System, unit, words

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.inquiry.flips import Flip
    from rules.inquiry.values import Direction

_OUTWARD: Mapping[str, tuple[str, float]] = {
    "deg": ("deg", 0.5), "mph": ("mph", 1), "yd": ("yd", 5), "in": ("in", 0.25), "g": ("g", 5),
    "degF": ("degF", 1), "ft": ("ft", 500),
}  # fmt: skip
"""The unit in which a golfer tells a number, and in what steps."""
_UNLIKELY = frozenset(("hand", "pain", "age_band", "attack_angle", "driver_shaft_mass", "local_length_limit"))
"""Facts of which a golfer does not think as something that could be otherwise."""


def name(fact: Fact, part: str = "") -> str:
    """Name what was asked in a golfer's words; by its title where it has none."""
    try:
        return wording().say(f"why.name.{fact.id}")
    except WordingProblem:
        return f"your {fact.title}{f': {part}' if part else ''}"


def is_likely(fact: Fact, flip: Flip) -> bool:
    """Say whether a golfer could well give this answer."""
    if fact.id.partition(".")[0] in _UNLIKELY:
        return False
    if fact.kind == "number" and fact.part_of is None and isinstance(fact.plausible, tuple):
        low, high = fact.plausible
        return low <= float(flip.to) <= high  # type: ignore[arg-type]
    weights = fact.plausible if isinstance(fact.plausible, Mapping) else {}
    return fact.kind != "choice" or not weights or weights.get(str(flip.to), 0) > 0


def if_clause(fact: Fact, parent: Fact, flip: Flip, system: System) -> str:
    """Say in a golfer's words what would have to be so: `If your handicap were 5 or more`."""
    say, asked = wording(), wording().asked(parent, "customer")
    if fact.part_of is not None:
        part = asked.label(flip.fact.partition(".")[2])
        key = "why.if.purpose" if parent.id == "purpose" else "why.if.share"
        share = f"{trimmed(float(flip.to) * 100, 0)} %{_more(flip.direction, 'less')}"  # type: ignore[arg-type]
        return say.say(key, to=share, part=part[:1].lower() + part[1:])
    if fact.kind != "number":
        chosen = sorted(flip.to) if isinstance(flip.to, frozenset) else [str(flip.to)]
        return say.say("why.if.words", to=", ".join(asked.label(one) for one in chosen), name=name(fact))
    to = _number(fact, float(flip.to), flip.direction, system)  # type: ignore[arg-type]
    try:
        return say.say(f"why.if.{fact.id}", to=to)
    except WordingProblem:
        return say.say("why.if.number", to=to, name=name(fact))


def _number(fact: Fact, value: float, direction: Direction, system: System) -> str:
    """Write a number as a golfer tells it, rounded away from where it stands so that it stays true."""
    if fact.unit in ("", "strokes"):
        less = "fewer" if not fact.unit and not fact.id.startswith("confidence") else "less"
        return words(value, fact.unit, system).removesuffix(" strokes") + _more(direction, less)
    symbol, step = _OUTWARD.get(fact.unit, (fact.unit, 1.0))
    shown = unit(symbol).from_si(value) / step
    whole = math.ceil(shown - 1e-6) if direction == "up" else math.floor(shown + 1e-6)
    rounded = min(fact.range[1], max(fact.range[0], unit(symbol).to_si(whole * step)))
    return spelled(words(rounded, fact.unit, system)) + _more(direction, "less")


def _more(direction: Direction, less: str) -> str:
    return {"up": " or more", "down": f" or {less}", "": ""}[direction]
