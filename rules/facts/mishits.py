"""How often a ball is topped, thin or fat, by type of club and by lie; counted balls correct it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from rules.facts.known import Known, assumed
from rules.facts.weighed import Weighed
from rules.golf.delivery import Estimate
from rules.golf.outcome import Outcomes, over_lies
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.lies import Lies
    from rules.facts.subject import Kind
    from rules.facts.tried import Tried

_MOST, _LEAST = 0.6, 0.01
_DEGREE = parse("1 deg", "rad")
_MIDDLE_LOFT = 18 * _DEGREE
_PARTS = {"topped": 0.2, "thin": 0.5, "fat": 0.3}
"""How mishits divide when nobody said how the ball is missed (assumption)."""
_NAMED = 2.0
"""A mishit the golfer names himself counts this many times in the division (assumption)."""
_PRIOR_WORTH = 6.0
"""The answers count as this many balls against those that were hit and counted (assumption)."""
TRIAL_LIE = "fairway"
"""The lie that balls of a trial are taken to be hit from."""
_ALL = 0.97
"""No count makes every ball a mishit for good."""


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


@dataclass(frozen=True, slots=True)
class Believed:
    """What is believed of mishits before any ball is counted, for a club hit off usual turf."""

    base: RuleBase
    asked: Mapping[str, Known]
    skill: float

    def usual(self, kind: Kind) -> Outcomes:
        """Return the shares of topped, thin and fat balls to expect off a trial's turf, whatever the loft."""
        mishit = share(self.base, self.asked, self.skill, kind, TRIAL_LIE)
        return _divide(self.asked["contact"].words, mishit)

    def outcomes(self, club: Tried) -> Outcomes:
        """Return the shares of topped, thin and fat balls to expect of a club in a trial."""
        return at_loft(self.base, self.usual(club.kind), club.loft)

    def cells(self, club: Tried, count: int) -> list[tuple[float, float]]:
        """Return cells of (share of clean strikes, weight) that stand for how uncertain that share is.

        A beta distribution worth as many balls as the answers are, cut in cells that narrow toward nought.
        """
        clean = self.outcomes(club).clean
        a, b = _PRIOR_WORTH * (1.0 - clean), _PRIOR_WORTH * clean
        places = [(i + 0.5) / count for i in range(count)]
        weights = [s ** (3 * a - 1) * (1.0 - s**3) ** (b - 1) for s in places]
        total = math.fsum(weights)
        return [(1.0 - s**3, w / total) for s, w in zip(places, weights, strict=True)]


def mishits(
    base: RuleBase, asked: Mapping[str, Known], skill: float, met: Lies,
    tried: Sequence[Tried] = (), climbs: Mapping[str, float] = MappingProxyType({}),
) -> dict[Kind, Outcomes]:  # fmt: skip
    """Return the shares of topped, thin and fat balls over the golfer's lies, for each type of club.

    Balls off the ground that were counted draw them toward their counts. `climbs` gives, by club, the share
    of clean strikes that get up: a thin ball of a club that hardly climbs is in part the loft's doing.
    """
    believed = Believed(base, asked, skill)
    contact = asked["contact"].words
    kinds: tuple[Kind, Kind] = ("fairway", "hybrid")
    found: dict[Kind, Outcomes] = {}
    for kind in kinds:
        prior = over_lies(
            [(lie.share, _divide(contact, share(base, asked, skill, kind, lie.name))) for lie in met.named]
        )
        clubs = [club for club in tried if club.kind == kind]
        found[kind] = _counted(prior, [_tally(believed, prior, c, climbs.get(c.name, 1.0)) for c in clubs])
    return found


@dataclass(frozen=True, slots=True)
class _Tally:
    """The counted balls of one club: mishits, and how many usual balls they stand for."""

    topped: float
    thin: float
    fat: float
    balls: float
    """Balls, each counted as often as its club and lie are mishit against his usual mix."""
    on_turf: float
    """Of these, the balls that could have been seen to be fat: a mat hides it."""


def _tally(believed: Believed, prior: Outcomes, club: Tried, climbs: float) -> _Tally:
    """Count a club's balls off the ground."""
    noted = [shot for shot in club.off_ground if shot.outcome is not None]
    expected = believed.outcomes(club)
    mishit, usual = 1.0 - expected.clean, 1.0 - prior.clean
    exposure = mishit / usual if usual > 0.0 else 1.0
    seen = [shot.outcome for shot in noted]
    low = expected.clean * (1.0 - climbs)
    share_thin = expected.thin / (expected.thin + low) if low > 0.0 else 1.0
    hidden = sum(shot.surface == "mat" and shot.outcome != "fat" for shot in noted)
    return _Tally(
        seen.count("topped"), share_thin * seen.count("thin"), seen.count("fat"), exposure * len(noted),
        exposure * (len(noted) - hidden),
    )  # fmt: skip


def _counted(prior: Outcomes, tallies: Sequence[_Tally]) -> Outcomes:
    """Draw shares toward counts: the answers count as so many balls of their own (Dirichlet)."""
    balls = _PRIOR_WORTH + math.fsum(one.balls for one in tallies)
    on_turf = _PRIOR_WORTH + math.fsum(one.on_turf for one in tallies)
    topped = (_PRIOR_WORTH * prior.topped + math.fsum(one.topped for one in tallies)) / balls
    thin = (_PRIOR_WORTH * prior.thin + math.fsum(one.thin for one in tallies)) / balls
    fat = (_PRIOR_WORTH * prior.fat + math.fsum(one.fat for one in tallies)) / on_turf
    # Usual balls may be fewer than balls, so that the shares could add up to more than all of them.
    shrink = min(1.0, _ALL / max(topped + thin + fat, 1e-9))
    return Outcomes(topped * shrink, thin * shrink, fat * shrink)


def weighed_mishits(
    believed: Believed, tried: Sequence[Tried], met: Lies, after: Mapping[Kind, Outcomes],
    climbs: Mapping[str, float],
) -> tuple[Weighed, ...]:  # fmt: skip
    """Return belief and count of mishits side by side, for each type of club of which balls were counted.

    Both are over the golfer's lies with a usual loft: balls of a club that is mishit oftener stand for more
    of those, and a thin one of a club that hardly climbs is in part the loft's doing (`climbs` as in
    `mishits`). Spreads are those of shares known as well as so many balls would make them.
    """
    if not any(shot.outcome for club in tried for shot in club.off_ground):
        return ()
    before = mishits(believed.base, believed.asked, believed.skill, met)
    found = []
    for kind, outcomes in after.items():
        clubs = [club for club in tried if club.kind == kind]
        count = sum(shot.outcome is not None for club in clubs for shot in club.off_ground)
        if not count:
            continue
        tallies = [_tally(believed, before[kind], club, climbs.get(club.name, 1.0)) for club in clubs]
        n = math.fsum(one.balls for one in tallies)
        seen = _seen(tallies, n)
        old, new = 1.0 - before[kind].clean, 1.0 - outcomes.clean
        found.append(
            Weighed(
                f"mishits_{kind}",
                _share(old, _PRIOR_WORTH),
                # Agresti and Coull: two of each added, or none of six would be known for certain.
                Estimate(seen, _share((seen * n + 2) / (n + 4), n + 4).spread),
                _share(new, _PRIOR_WORTH + n),
                count,
            )
        )
    return tuple(found)


def _seen(tallies: Sequence[_Tally], balls: float) -> float:
    """Return the share of mishits that tallies tell of usual balls; a mat hides fat ones."""
    low = math.fsum(one.topped + one.thin for one in tallies) / balls
    on_turf = math.fsum(one.on_turf for one in tallies)
    fat = math.fsum(one.fat for one in tallies) / on_turf if on_turf > 0.0 else 0.0
    return min(1.0, low + fat)


def _share(value: float, worth: float) -> Estimate:
    """Return a share with the spread of one that so many balls tell of."""
    return Estimate(value, math.sqrt(value * (1.0 - value) / (worth + 1.0)))
