"""From decided parts to a club on paper: what the bench computes balance with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rules.bench import build
from rules.units import parse

if TYPE_CHECKING:
    from rules.shelf import Shelf
    from rules.shelf.parts import Grip, Head, Shaft

HEAVIEST = parse("300 g", "kg")
"""No head of this trade weighs more; a target that would ask for it is not reached."""


def assemble(
    shelf: Shelf, head: Head, shaft: Shaft, grip: Grip, *, length: float, tip_extra: float = 0.0
) -> build.Build:
    """Put a head with empty ports, a shaft and a grip together at a playing length (m).

    Setback, ferrule and glue are the shop's own calibration. Raises the bench's own problems where the
    parts cannot be built.
    """
    learned = shelf.shop.calibration
    setback_known = "setback" not in learned.assumed
    return build.Build(
        length,
        build.Head(
            head.mass,
            learned.setback,
            head.hosel_length,
            head.insertion,
            head.mass_tolerance,
            0.0 if setback_known else parse("0.5 in", "m"),
        ),
        build.Shaft(
            shaft.mass,
            shaft.raw_length,
            shaft.balance,
            shaft.tip_trim(head.loft) + tip_extra,
            None if shaft.taper else shaft.parallel_tip,
            shaft.mass_tolerance,
        ),
        build.Grip(grip.mass, grip.balance),
        glue_and_ferrule=learned.glue_and_ferrule,
    )


def impact_mass(built: build.Build, head: Head, target: float) -> float:
    """Return the mass behind the ball once the target balance is reached as far as the ports allow, kg."""
    wanted = built.head_mass_for(target)
    return min(HEAVIEST, head.mass + head.capacity, max(head.mass, wanted))
