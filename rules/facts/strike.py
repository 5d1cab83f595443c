"""Where the golfer strikes the face: his own marks, else what handicap and contact answers suggest.

No published table of strike scatter by handicap was found; the house values are assumptions with
ranges, and the golfer's own marks replace them as far as their number says.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.facts.known import NOTHING, Known, assumed, waiting
from rules.golf.strike import Doubt, StrikePattern, by_handicap, learn

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import Shot

_FEWEST_MARKS = 4
"""Fewer marks than this leave the answers in charge of what the rules are told."""
_DOUBT = Doubt(mean_toe=0.006, mean_high=0.003, scatter=0.35, correlation=0.5)
"""How far the answers may be from this golfer (assumption): what his own marks are weighed against."""


@dataclass(frozen=True, slots=True)
class Strike:
    """The strike pattern, as numbers for the flights and as facts for the rules."""

    pattern: StrikePattern
    facts: Mapping[str, Known]


def strike(base: RuleBase, asked: Mapping[str, Known], skill: Known, shots: Sequence[Shot]) -> Strike:
    """Return the strike pattern from the golfer's own marks off turf, weighed against his answers."""
    contact = asked["contact"]
    prior = _prior(base, contact.words, skill.number)
    marks = [
        (s.toe, s.high) for s in shots if s.toe is not None and s.high is not None and s.surface != "tee"
    ]
    pattern = learn(marks, prior, _DOUBT) if marks else prior
    enough = len(marks) >= _FEWEST_MARKS
    waits = NOTHING if enough else waiting((contact, skill))
    spread = 0.5 / max(1.0, len(marks) ** 0.5)
    numbers = {
        "strike_mean_toe": pattern.mean_toe,
        "strike_mean_high": pattern.mean_high,
        "strike_sd_toe": pattern.sd_toe,
        "strike_sd_high": pattern.sd_high,
    }
    facts = {
        id: Known(value, "shots" if marks else "derived", spread * pattern.sd_toe, waits)
        for id, value in numbers.items()
    }
    facts["strike_from"] = Known("marks" if enough else "answers")
    return Strike(pattern, facts)


def _prior(base: RuleBase, contact: frozenset[str], skill: float) -> StrikePattern:
    """Return the pattern that handicap and contact answers suggest; scatter straight from scratch to 36."""
    anchors = ((0.0, assumed(base, "sd-toe-skilled")), (36.0, assumed(base, "sd-toe-novice")))
    sd = by_handicap(skill, anchors)
    if "scattered" in contact:
        sd *= assumed(base, "scattered-factor")
    elif "centred" in contact and not contact & {"thin", "fat", "toe", "heel"}:
        sd *= assumed(base, "centred-factor")
    high = assumed(base, "high-shift") if "high_face" in contact else 0.0
    if contact & {"thin", "low_face"}:
        high += assumed(base, "thin-low-shift")
    side = (("toe" in contact) - ("heel" in contact)) * assumed(base, "toe-shift")
    return StrikePattern(side, high, sd, sd * assumed(base, "sd-high-share"))
