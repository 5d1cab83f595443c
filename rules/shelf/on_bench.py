"""Parts of the shelf as the bench's arithmetic takes them."""

from __future__ import annotations

from rules.bench import build
from rules.shelf.parts import Grip, Head, Shaft
from rules.shelf.shelf import Shelf


def head(part: Head, shelf: Shelf) -> build.Head:
    """Give a head, its ports empty, with the shop's setback."""
    return build.Head(
        mass=part.mass,
        setback=shelf.shop.calibration.setback,
        hosel_length=part.hosel_length,
        insertion=part.insertion,
        mass_tolerance=part.mass_tolerance,
    )


def shaft(part: Shaft, loft: float) -> build.Shaft:
    """Give a raw shaft with its tip trim for a loft (rad)."""
    return build.Shaft(
        mass=part.mass,
        raw_length=part.raw_length,
        balance=part.balance,
        tip_trim=part.tip_trim(loft),
        parallel_tip=None if part.taper else part.parallel_tip,
        mass_tolerance=part.mass_tolerance,
    )


def grip(part: Grip) -> build.Grip:
    """Give a grip."""
    return build.Grip(mass=part.mass, centre=part.balance)


def club(head_part: Head, shaft_part: Shaft, grip_part: Grip, length: float, shelf: Shelf) -> build.Build:
    """Put a club of a playing length (m) together on paper, its ports empty.

    Raises what the bench raises: OutOfRange, BeyondTheRules, ShaftTooShort, TipTrimTooLong.
    """
    return build.Build(
        length=length,
        head=head(head_part, shelf),
        shaft=shaft(shaft_part, head_part.loft),
        grip=grip(grip_part),
        glue_and_ferrule=shelf.shop.calibration.glue_and_ferrule,
    )
