"""Parts of the shelf as the bench's arithmetic takes them."""

from __future__ import annotations

from rules.bench import build
from rules.shelf.parts import Grip, Head, Shaft
from rules.shelf.shelf import Shelf
from rules.units import parse

_SETBACK_DOUBT = parse("0.5 in", "m")
"""How far the setback may be out while a shop has not calibrated it: one spread of its declared range."""


def head(part: Head, shelf: Shelf) -> build.Head:
    """Give a head, its ports empty, with the shop's setback and how far that may be out."""
    return build.Head(
        mass=part.mass,
        setback=shelf.shop.calibration.setback,
        hosel_length=part.hosel_length,
        insertion=part.insertion,
        mass_tolerance=part.mass_tolerance,
        setback_tolerance=_SETBACK_DOUBT if "setback" in shelf.shop.calibration.assumed else 0.0,
    )


def shaft(part: Shaft, loft: float, tip_extra: float = 0.0) -> build.Shaft:
    """Give a raw shaft with its tip trim for a loft (rad), and what is taken off the tip beyond that (m)."""
    return build.Shaft(
        mass=part.mass,
        raw_length=part.raw_length,
        balance=part.balance,
        tip_trim=part.tip_trim(loft) + tip_extra,
        parallel_tip=None if part.taper else part.parallel_tip,
        mass_tolerance=part.mass_tolerance,
    )


def grip(part: Grip) -> build.Grip:
    """Give a grip."""
    return build.Grip(mass=part.mass, centre=part.balance)


def club(
    head_part: Head, shaft_part: Shaft, grip_part: Grip, length: float, shelf: Shelf, tip_extra: float = 0.0
) -> build.Build:
    """Put a club of a playing length (m) together on paper, its ports empty.

    Setback, ferrule and glue are the shop's own calibration.

    Raises what the bench raises: OutOfRange, BeyondTheRules, ShaftTooShort, TipTrimTooLong.
    """
    return build.Build(
        length=length,
        head=head(head_part, shelf),
        shaft=shaft(shaft_part, head_part.loft, tip_extra),
        grip=grip(grip_part),
        glue_and_ferrule=shelf.shop.calibration.glue_and_ferrule,
    )
