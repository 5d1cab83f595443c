"""The balls of a trial run down the road: speed, delivery, strikes and mishits, each with its proof."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.facts.known import Known
from rules.facts.learned import Learned, learned
from rules.facts.mishits import Believed, mishits, weighed_mishits
from rules.facts.strike import Strike, strike

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.lies import Lies
    from rules.facts.subject import Kind
    from rules.facts.tried import Tried
    from rules.facts.weighed import Weighed
    from rules.golf.outcome import Outcomes


@dataclass(frozen=True, slots=True)
class Balls:
    """What the balls said. Without balls, what is believed without them."""

    tried: tuple[Tried, ...]
    facts: Mapping[str, Known]
    strike: Strike
    mishits: Mapping[Kind, Outcomes]
    learned: Learned
    weighed: tuple[Weighed, ...]
    """Belief and balls side by side, figure by figure; empty without balls."""


def hit(
    base: RuleBase, known: Mapping[str, Known], tried: tuple[Tried, ...], density: float, met: Lies
) -> Balls:
    """Return what the balls of a trial make of speed, delivery, strike pattern and mishits.

    `known` holds the golfer as his answers have him; `met` the lies he meets.
    """
    skill = known["skill"]
    believed = Believed(base, known, skill.number)
    swing = learned(base, known, tried, density, believed)
    moved = {**known, **swing.facts}
    struck = strike(base, known, skill, moved["attack"].number, tried)
    missed = mishits(base, known, skill.number, met, tried, swing.climbs)
    counts = weighed_mishits(believed, tried, met, missed, swing.climbs)
    facts = {**swing.facts, **struck.facts, **_conditions(tried)}
    return Balls(tried, facts, struck, missed, swing, (*swing.weighed, *struck.weighed, *counts))


def _conditions(tried: Sequence[Tried]) -> dict[str, Known]:
    """Return the shares of balls hit off a mat, off a tee and indoors; nought without balls."""
    shots = [shot for club in tried for shot in club.shots]
    whole = max(1, len(shots))
    return {
        "balls_off_mat": Known(sum(shot.surface == "mat" for shot in shots) / whole),
        "balls_teed": Known(sum(shot.surface == "tee" for shot in shots) / whole),
        "balls_indoors": Known(sum(shot.indoors for shot in shots) / whole),
    }
