"""Finished clubs teach the shop's calibration: setback, ferrule and glue, and what its ruler reads short."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rules.bench.calibrate import FinishedClub
from rules.workbench.checks import measured
from rules.workbench.faults import NothingKnown

if TYPE_CHECKING:
    from rules.facts.subject import Reading
    from rules.workbench.club import Club


def finished_club(name: str, club: Club, reading: Reading) -> FinishedClub:
    """Return a finished club as calibration takes it: parts as planned or as weighed, readings as read.

    The length is the official one, against the 60-degree plane, so the ruler stays as it is; where it was
    not read the planned one stands. Parts that were not weighed one by one leave their own tolerance in
    the residual; a club whose parts were is put right for them first (`weighed.as_weighed`). Raises
    NothingKnown for a club of unknown parts, ReadingsDisagree.
    """
    build = club.build
    if build is None:
        raise NothingKnown(club.role)
    read = measured(club, build, reading)
    return FinishedClub(
        name=name,
        head=build.head.mass,
        shaft=build.cut_shaft.mass,
        shaft_centre=build.cut_shaft.position,
        grip=build.grip.mass,
        grip_centre=build.grip.centre,
        hosel_length=build.head.hosel_length,
        added=sum(one.mass for one in build.added),
        plane_length=build.length if reading.length is None else reading.length,
        total=reading.total,
        moment=None if read is None else read.moment,
    )
