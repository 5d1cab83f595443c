"""What may fill each part of a rung: heads, shafts, tips and grips in stock, with their facts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.bench.tip import fit as tip_fit
from rules.facts.known import Known, assumed
from rules.facts.wanted import FLEXES, flex_wanted
from rules.golf.impact import Clubhead
from rules.golf.quadrature import Face
from rules.ladder.meeting import meeting
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.golfer import Golfer
    from rules.facts.subject import Kind
    from rules.ladder.decide import Place
    from rules.shelf import Shelf
    from rules.shelf.parts import Head, Shaft

GRIP_SIZES = ("undersize", "standard", "midsize", "oversize")
"""Grip sizes, smallest first (common practice)."""
_STANDARD_HAND = parse("7.25 in", "m")
_HAND_STEP = parse("0.75 in", "m")
"""Hand length at the middle of a standard grip, and what one grip size is worth (common practice)."""
_EXTRA_TRIMS = (0.0, parse("0.5 in", "m"), parse("1 in", "m"))
_FITS = {"fits": "straight_fit", "shim": "thin_sleeve", "sleeve": "deep_sleeve", "refused": "no_fit"}
_FACE_MASS = parse("215 g", "kg")


@dataclass(frozen=True, slots=True)
class Option:
    """One candidate of a decision: its id, the part it stands for, and its facts."""

    id: str
    part: object
    facts: Mapping[str, Known]


def head_options(base: RuleBase, golfer: Golfer, place: Place) -> list[Option]:
    """Return the heads that may fill a place, each with how it meets the golfer's lies."""
    delivered = place.loft + golfer.number("delivered_loft_change")
    grip = assumed(base, "spin-grip")
    met = [
        meeting(golfer, Face(h.loft, h.face_height, h.cg_up_face), delivered, _free(h, grip))
        for h in place.heads
    ]
    least = min((one.loss for one in met), default=0.0)
    waits = golfer.strike_waits | golfer.known["attack"].waits | golfer.known["delivered_loft_change"].waits
    options = []
    for head, one in zip(place.heads, met, strict=True):
        facts = {
            "face_height": Known(head.face_height),
            "face_loss": Known(min(0.4, one.loss), waits=waits),
            "face_loss_excess": Known(
                min(0.4, one.loss - least), waits=waits if len(met) > 1 else frozenset()
            ),
            "tight_meeting": Known(min(0.04, max(-0.04, one.tight)), waits=waits),
            "sole_width": Known(head.sole_width),
            "sole_camber": Known(head.sole_camber),
            "head_face_angle": Known(head.face_angle),
            "head_offset": Known(head.offset),
            "head_lie": Known(head.lie),
        }
        options.append(Option(head.id, head, facts))
    return options


def _free(head: Head, spin_grip: float) -> Clubhead:
    """Return a head as a free body at a usual finished mass; heads of one place differ little in it."""
    return Clubhead(
        _FACE_MASS, head.restitution, spin_grip, head.cg_depth, head.moi_vertical, head.moi_heel_toe
    )


def shaft_options(
    base: RuleBase, shelf: Shelf, golfer: Golfer, kind: Kind, head: Head | None, length: float
) -> list[Option]:
    """Return the shafts made for a kind and long enough, with mass and flex against what is wanted."""
    speed, tempo = golfer.known["driver_head_speed"], golfer.known["tempo"]
    wanted = golfer.known["shaft_mass_wanted"]
    mass = wanted.number + (assumed(base, "hybrid-shaft-over-wood") if kind == "hybrid" else 0.0)
    flex = flex_wanted(speed.number, tempo.word)
    options = []
    for shaft in shelf.shafts_for(kind):
        if shaft.raw_length < length:
            continue
        facts = {
            "shaft_mass": Known(shaft.mass),
            "shaft_mass_excess": Known(shaft.mass - mass, waits=wanted.waits),
            "flex_step": Known(FLEXES.index(shaft.flex) - flex, waits=speed.waits | tempo.waits),
            "shaft_stocked": Known(float(min(1000, 1000 if shaft.count is None else shaft.count))),
            "tip_fit": Known(_fit(shaft, head)),
        }
        options.append(Option(shaft.id, shaft, facts))
    return options


def _fit(shaft: Shaft, head: Head | None) -> str:
    """Return how a shaft's tip meets a head's bore, in the words of the fact `tip_fit`."""
    if head is None:
        return "straight_fit"
    return _FITS[tip_fit(shaft.tip, head.bore, tip_taper=shaft.taper).verdict]


def tip_options(
    base: RuleBase, head: Head | None, shaft: Shaft | None, loft: float, length: float
) -> list[Option]:
    """Return how far the tip may be trimmed beyond the shaft's own note, as length and parallel tip allow."""
    if shaft is None:
        return []
    options: list[Option] = []
    insertion = head.insertion if head else 0.0
    for extra in _EXTRA_TRIMS:
        trim = shaft.tip_trim(loft) + extra
        room = shaft.taper or trim + insertion <= shaft.parallel_tip
        if (extra and shaft.taper) or not room or shaft.raw_length - trim < length:
            continue
        name = "as-noted" if extra == 0 else f"{extra / parse('1 in', 'm'):g}-in-more"
        options.append(Option(name, extra, {"tip_extra": Known(extra)}))
    return options or [Option("as-noted", 0.0, {"tip_extra": Known(0.0)})]


def grip_options(base: RuleBase, shelf: Shelf, golfer: Golfer) -> list[Option]:
    """Return the grips in stock, with size against what the hand asks for."""
    hand = golfer.known["hand_length"]
    wanted = min(3.0, max(0.0, 1 + (hand.number - _STANDARD_HAND) / _HAND_STEP))
    return [
        Option(
            grip.id,
            grip,
            {"grip_step": Known(_size(grip.size) - wanted, waits=hand.waits), "grip_mass": Known(grip.mass)},
        )
        for grip in shelf.grips
        if grip.in_stock
    ]


def _size(size: str) -> float:
    """Return a grip size as a place on the scale of sizes."""
    return float(GRIP_SIZES.index(size)) if size in GRIP_SIZES else 1.0


def by_loft(heads: Sequence[Head]) -> dict[tuple[str, float], tuple[Head, ...]]:
    """Group heads into places: one kind, and lofts within a quarter of a degree of each half degree."""
    degree = parse("1 deg", "rad")
    grouped: dict[tuple[str, float], list[Head]] = {}
    for head in heads:
        grouped.setdefault((head.kind, round(head.loft / degree * 2) / 2), []).append(head)
    return {key: tuple(group) for key, group in sorted(grouped.items())}
