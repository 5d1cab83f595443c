"""How often a ball is topped, thin or fat, by type of club and by lie; counted balls correct it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from rules.facts.known import Known, assumed
from rules.golf.outcome import Outcomes, counted, over_lies
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.lies import Lies
    from rules.facts.subject import Kind, Shot

_MOST, _LEAST = 0.6, 0.01
_DEGREE = parse("1 deg", "rad")
_MIDDLE_LOFT = 18 * _DEGREE
_PARTS = {"topped": 0.2, "thin": 0.5, "fat": 0.3}
"""How mishits divide when nobody said how the ball is missed (assumption)."""
_NAMED = 2.0
"""A mishit the golfer names himself counts this many times in the division (assumption)."""
_PRIOR_WORTH = 6.0
"""The answers count as this many balls against those that were hit and counted (assumption)."""


def share(base: RuleBase, asked: Mapping[str, Known], skill: float, kind: Kind, lie: str) -> float:
    """Return the share of balls from one lie that are mishit, from 0.01 to 0.6.

    Published on-course figures for scratch and 15 handicap, continued in a straight line; from the tee
    a share of it, from rough as much more as was measured for each type of club.
    """
    scratch, fifteen = assumed(base, "mishit-fairway-scratch"), assumed(base, "mishit-fairway-15")
    found = scratch + skill / 15 * (fifteen - scratch)
    if asked["contact"].words & {"thin", "fat"}:
        found *= assumed(base, "thin-mishit-factor")
    if lie == "tee":
        found *= assumed(base, "mishit-tee-share")
    elif lie in ("rough", "heavy_rough"):
        found += assumed(base, f"mishit-rough-extra-{kind}")
    return min(_MOST, max(_LEAST, found))


def _divide(contact: frozenset[str], mishit: float) -> Outcomes:
    """Divide a mishit share into topped, thin and fat; what the golfer names weighs more."""
    weights = {name: part * (_NAMED if name in contact else 1.0) for name, part in _PARTS.items()}
    total = sum(weights.values())
    return Outcomes(**{name: mishit * weight / total for name, weight in weights.items()})


def at_loft(base: RuleBase, usual: Outcomes, loft: float) -> Outcomes:
    """Return the outcomes with a club of a loft (rad): the stronger, the oftener it is mishit.

    The published shares are of all fairway woods, of which 18 degrees is the middle; each degree less adds
    an assumed share of them, each degree more takes it off, down to half and up to 0.9 in all.
    """
    missing = (_MIDDLE_LOFT - loft) / _DEGREE
    mishit = 1.0 - usual.clean
    factor = max(0.5, 1.0 + missing * assumed(base, "mishit-per-degree"))
    factor = min(factor, 0.9 / mishit) if mishit else 1.0
    return Outcomes(usual.topped * factor, usual.thin * factor, usual.fat * factor)


def mishits(
    base: RuleBase, asked: Mapping[str, Known], skill: float, met: Lies, counts: Mapping[Kind, Sequence[Shot]]
) -> dict[Kind, Outcomes]:
    """Return the shares of topped, thin and fat balls over the golfer's lies, for each type of club."""
    contact = asked["contact"].words
    kinds: tuple[Kind, Kind] = ("fairway", "hybrid")
    found: dict[Kind, Outcomes] = {}
    for kind in kinds:
        prior = over_lies(
            [(lie.share, _divide(contact, share(base, asked, skill, kind, lie.name))) for lie in met.named]
        )
        shots = [s.outcome for s in counts.get(kind, ()) if s.outcome and s.surface != "tee"]
        number = {name: shots.count(name) for name in ("topped", "thin", "fat", "up")}
        found[kind] = (
            counted(prior, _PRIOR_WORTH, number["topped"], number["thin"], number["fat"], number["up"])
            if shots
            else prior
        )
    return found
