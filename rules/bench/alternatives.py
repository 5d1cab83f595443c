"""When the ports cannot hold it: what else brings the balance back, each computed and none chosen.

A heavier head and another head put mass where it is wanted. A lighter grip and a longer club only move
the reading: the first leaves the head as it was, the second gives back some of what shortening won.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal

from rules.bench.balance import HEAVIEST, mass_per_point
from rules.bench.build import Build
from rules.bench.problems import BeyondTheRules, ShaftTooShort, require
from rules.units import UNITS

_INCH = UNITS["in"].factor
_GRAM = UNITS["g"].factor

LONGER_BY = 0.25 * _INCH
"""The least change of length worth building, m (common practice)."""
GRIP_LIGHTER_BY = 5 * _GRAM
"""The usual step between grips, one point by the bench rule, kg."""

Kind = Literal["heavier_head", "other_head", "lighter_grip", "longer"]


@dataclass(frozen=True, slots=True)
class Alternative:
    """One way out: what it is, how much of it (SI), and what it does to the reading."""

    kind: Kind
    amount: float
    """Head mass, grip mass (kg) or length (m) that it means."""
    points: float
    """Points it gives."""
    leaves: float
    """Points still wanting afterwards; negative when it overshoots."""
    name: str = ""
    """Which head or grip, when one from the shelf is meant."""


def alternatives(
    build: Build,
    target_points: float,
    *,
    heads: Mapping[str, float] | None = None,
    grips: Mapping[str, float] | None = None,
) -> tuple[Alternative, ...]:
    """Ways to bring a club that reads too light up to a target (points from D0), the best fit first.

    `heads` and `grips` are masses (kg) on the shelf by name; without grips one 5 g lighter stands for
    them, and without heads the exact mass is named. Returns nothing when the club is not short.
    """
    short = target_points - build.reading.points
    if short <= 0:
        return ()
    found = [_heavier_head(build, short), *_longer(build, short)]
    found += [_other_head(build, short, name, mass) for name, mass in (heads or {}).items()]
    found += _lighter_grips(build, short, grips)
    return tuple(sorted(found, key=lambda one: (abs(one.leaves), one.kind, one.name)))


def _result(
    kind: Kind, amount: float, changed: Build, build: Build, short: float, name: str = ""
) -> Alternative:
    """Compare the changed club with the one it came from."""
    points = changed.reading.points - build.reading.points
    return Alternative(kind, amount, points, short - points, name)


def _heavier_head(build: Build, short: float) -> Alternative:
    """Return the bare head mass that needs nothing further."""
    mass = build.head.mass + short * mass_per_point(build.head_position)
    changed = replace(build, head=replace(build.head, mass=require("head mass", mass, 0, HEAVIEST, "g")))
    return _result("heavier_head", mass, changed, build, short)


def _other_head(build: Build, short: float, name: str, mass: float) -> Alternative:
    """Return what a head from the shelf gives in its place."""
    changed = replace(build, head=replace(build.head, mass=mass))
    return _result("other_head", mass, changed, build, short, name)


def _lighter_grips(build: Build, short: float, grips: Mapping[str, float] | None) -> list[Alternative]:
    """Return what each lighter grip gives; a heavier one would make it worse."""
    usual = {"": build.grip.mass - GRIP_LIGHTER_BY} if grips is None else grips
    lighter = {name: mass for name, mass in usual.items() if 0 < mass < build.grip.mass}
    return [
        _result("lighter_grip", mass, _with_grip(build, mass), build, short, name)
        for name, mass in lighter.items()
    ]


def _with_grip(build: Build, mass: float) -> Build:
    """Return the same club with a grip of another mass."""
    return replace(build, grip=replace(build.grip, mass=mass))


def _longer(build: Build, short: float) -> list[Alternative]:
    """Return what a quarter inch more gives, cut from the same raw shaft; nothing when it cannot be built."""
    length = build.length + LONGER_BY
    try:
        changed = replace(build, length=length)
    except (BeyondTheRules, ShaftTooShort):
        return []
    return [_result("longer", length, changed, build, short)]
