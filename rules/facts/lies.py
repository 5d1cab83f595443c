"""Lies as heights of the ball above the path of the sole; never averaged into one height."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from rules.facts.known import assumed
from rules.golf.quadrature import Lie

if TYPE_CHECKING:
    from rules.engine import RuleBase

_RAISE = {
    "tight_fairway": "raise-tight", "fairway": "raise-fairway", "rough": "raise-rough",
    "heavy_rough": "raise-heavy", "sand": "raise-sand", "tee": "raise-tee",
}  # fmt: skip
LIES = tuple(_RAISE)
"""Every lie there is, by name."""
_FIRMER = {"firm": -0.0005, "average": 0.0, "soft": 0.0005}


@dataclass(frozen=True, slots=True)
class NamedLie:
    """One lie: its name, its share of the shots, and how far it raises the ball, m."""

    name: str
    share: float
    low: float
    high: float

    @property
    def middle(self) -> float:
        """The middle of its heights, m."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Lies:
    """The lies a golfer meets, tightest first, and the tightest that matters to him."""

    named: tuple[NamedLie, ...]
    tightest: NamedLie
    met: tuple[Lie, ...]
    """The same, as the strike computations take them."""


def lies(base: RuleBase, shares: Mapping[str, float], turf: str) -> Lies:
    """Return the lies that the golfer meets, and the tightest that matters: at least a fifth of his shots.

    Heights are the declared ranges about their declared middles. Firm ground lets the ball sit half a
    millimetre closer to the path of the sole, soft ground half a millimetre further (assumption), never
    below it. Where no lie reaches a fifth, the most usual one is taken.
    """
    named = [_named(base, name, share, turf) for name, share in shares.items() if share > 0]
    named.sort(key=lambda lie: (lie.middle, lie.name))
    least = assumed(base, "matters-share")
    tightest = next((lie for lie in named if lie.share >= least), max(named, key=lambda lie: lie.share))
    return Lies(tuple(named), tightest, tuple(Lie(lie.share, lie.low, lie.high) for lie in named))


def _named(base: RuleBase, name: str, share: float, turf: str) -> NamedLie:
    """Return one lie with its heights, about the declared middle and no wider than the declared range."""
    middle = assumed(base, _RAISE[name])
    low, high = cast("tuple[float, float]", base.assumptions[_RAISE[name]].range)
    half = max(0.0, min(middle - low, high - middle))
    shift = _FIRMER[turf] if name != "tee" else 0.0
    return NamedLie(name, share, max(0.0, middle - half + shift), max(0.0, middle + half + shift))
