"""The finished club goes back up the road: as a club he owns, with the loft it really plays."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from rules.facts.answers import Answer
from rules.facts.subject import OwnedClub, Reading
from rules.ladder.assembly import HEAVIEST
from rules.ladder.flown import flown
from rules.workbench.as_built import excess
from rules.workbench.checks import effective, measured

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.golfer import Golfer
    from rules.golf.outcome import Flier
    from rules.ladder.rung import Flown
    from rules.workbench.club import Club


def delivered(club: Club, reading: Reading) -> OwnedClub:
    """Return a finished club as one that the golfer owns: what was measured, and what was planned besides.

    Its loft is the effective one, the face squared by geometry. It counts as measured if a gauge read it,
    as said (stamped) otherwise. Raises ReadingsDisagree for readings that contradict each other.
    """
    rung, build = club.rung, club.build
    own = rung.owned
    if build is None or rung.spec.head is None:
        assert own is not None
        return _his_own(club, own, reading)
    read = measured(club, build, reading)
    loft = effective(club, reading)
    room = rung.spec.head.capacity - (club.plan.added if club.plan else 0.0)
    return OwnedClub(
        name=f"{rung.label}, as built",
        kind=rung.kind,
        loft=Answer(rung.spec.loft if loft is None else loft, "said" if reading.loft is None else "measured"),
        length=build.length if reading.length is None else reading.length,
        swing_weight=build.reading.points if read is None else read.points,
        total=build.reading.total if reading.total is None else reading.total,
        can_add=max(0.0, room),
        head=rung.spec.head.id,
    )


def _his_own(club: Club, own: OwnedClub, reading: Reading) -> OwnedClub:
    """Return his own club with what was read of it."""
    loft = reading.loft
    return replace(
        own,
        loft=own.loft if loft is None else Answer(loft, "measured"),
        length=club.rung.spec.length if reading.length is None else reading.length,
        swing_weight=club.rung.spec.balance if reading.swing_weight is None else reading.swing_weight,
        total=own.total if reading.total is None else reading.total,
    )


def as_flown(
    base: RuleBase, golfer: Golfer, club: Club, reading: Reading, flier: Flier | None = None
) -> Flown:
    """Fly a finished club as it was measured: its effective loft, its length, the mass behind the ball.

    It is flown as any club he owns is, with its own head instead of a usual one. The plan stands for
    whatever was not read.
    """
    spec = club.rung.spec
    loft = effective(club, reading)
    length = spec.length if reading.length is None else reading.length
    mass = min(HEAVIEST, spec.impact_mass + _head_excess(club, reading))
    changed = replace(spec, loft=spec.loft if loft is None else loft, length=length, impact_mass=mass)
    return flown(base, golfer, club.rung.kind, changed, flier)


def _head_excess(club: Club, reading: Reading) -> float:
    """Return the mass over the plan that the scale puts into the head, kg; nought where it cannot be told."""
    if club.build is None:
        return 0.0
    found = excess(club.build, reading, measured(club, club.build, reading))
    return found.mass if found is not None and found.part == "head" else 0.0
