"""What may fill each part of a rung: heads, shafts, tips and grips in stock, with their facts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.bench.tip import fit as tip_fit
from rules.facts.known import NOTHING, Known, assumed
from rules.facts.wanted import FLEXES, flex_wanted
from rules.golf.impact import Clubhead
from rules.golf.quadrature import Face
from rules.ladder.meeting import meeting
from rules.units import parse

if TYPE_CHECKING:
    from rules.facts.subject import Kind
    from rules.ladder.decide import Place
    from rules.ladder.deciding import Deciding, Seen
    from rules.shelf.parts import Grip, Head, Shaft

GRIP_SIZES = ("undersize", "standard", "midsize", "oversize")
"""Grip sizes, smallest first (common practice)."""
_INCH = parse("1 in", "m")
_EXTRA_TRIMS = (0.0, parse("0.5 in", "m"), _INCH)
_FITS = {"fits": "straight_fit", "shim": "thin_sleeve", "sleeve": "deep_sleeve", "refused": "no_fit"}
_FACE_MASS = parse("215 g", "kg")
READS = (
    "attack",
    "delivered_loft_change",
    "driver_head_speed",
    "hand",
    "hand_length",
    "shaft_mass_wanted",
    "tempo",
)
"""Facts of the golfer that the options below are worked out from; besides them his strikes and his lies."""


@dataclass(frozen=True, slots=True)
class Option:
    """One candidate of a decision: its id, the part it stands for, and its facts."""

    id: str
    part: object
    seen: Seen
    """Its facts, as the judge reads them."""
    moving: Mapping[str, Known]
    """Those of its facts that hang on the golfer, as they stand."""


def _option(judge: Deciding, id: str, part: object, fixed: Seen, moving: Mapping[str, Known]) -> Option:
    """Return a candidate from what no golfer changes and what hangs on this one."""
    return Option(id, part, {**fixed, **judge.views(moving)}, moving)


def head_options(judge: Deciding, place: Place) -> list[Option]:
    """Return the heads that may fill a place, each with how it meets the golfer's lies."""
    golfer = judge.golfer
    delivered = place.loft + golfer.number("delivered_loft_change")
    grip = assumed(judge.base, "spin-grip")
    met = [
        meeting(golfer, Face(h.loft, h.face_height, h.cg_up_face), delivered, free_head(h, grip))
        for h in place.heads
    ]
    least = min((one.loss for one in met), default=0.0)
    waits = golfer.strike_waits | golfer.known["attack"].waits | golfer.known["delivered_loft_change"].waits
    alone = waits if len(met) > 1 else NOTHING
    options = []
    for head, one in zip(place.heads, met, strict=True):
        moving = {
            "face_loss": Known(min(0.4, one.loss), waits=waits),
            "face_loss_excess": Known(min(0.4, one.loss - least), waits=alone),
            "tight_meeting": Known(min(0.04, max(-0.04, one.tight)), waits=waits),
        }
        options.append(_option(judge, head.id, head, _head_facts(judge, head), moving))
    return options


def _head_facts(judge: Deciding, head: Head) -> Seen:
    """Return what no golfer changes of a head."""
    return judge.part(
        "head",
        head.id,
        lambda: {
            "face_height": Known(head.face_height),
            "sole_width": Known(head.sole_width),
            "sole_camber": Known(head.sole_camber),
            "head_face_angle": Known(head.face_angle),
            "head_offset": Known(head.offset),
            "head_lie": Known(head.lie),
        },
    )


def free_head(head: Head, spin_grip: float) -> Clubhead:
    """Return a head as a free body at a usual finished mass; heads of one place differ little in it."""
    return Clubhead(
        _FACE_MASS, head.restitution, spin_grip, head.cg_depth, head.moi_vertical, head.moi_heel_toe
    )


def shaft_options(judge: Deciding, kind: Kind, head: Head | None, shafts: Sequence[Shaft]) -> list[Option]:
    """Return shafts made for a kind, with mass and flex against what is wanted."""
    known = judge.golfer.known
    speed, tempo, wanted = known["driver_head_speed"], known["tempo"], known["shaft_mass_wanted"]
    mass = wanted.number + (assumed(judge.base, "hybrid-shaft-over-wood") if kind == "hybrid" else 0.0)
    flex, waits = flex_wanted(judge.base, speed.number, tempo.word), speed.waits | tempo.waits
    options = []
    for shaft in shafts:
        moving = {
            "shaft_mass_excess": Known(shaft.mass - mass, waits=wanted.waits),
            "flex_step": Known(FLEXES.index(shaft.flex) - flex, waits=waits),
        }
        options.append(_option(judge, shaft.id, shaft, _shaft_facts(judge, shaft, head), moving))
    return options


def _shaft_facts(judge: Deciding, shaft: Shaft, head: Head | None) -> Seen:
    """Return what no golfer changes of a shaft in a head."""
    return judge.part(
        f"shaft in {head.bore if head else 'any'}",
        shaft.id,
        lambda: {
            "shaft_mass": Known(shaft.mass),
            "shaft_stocked": Known(float(min(1000, 1000 if shaft.count is None else shaft.count))),
            "tip_fit": Known(_fit(shaft, head)),
        },
    )


def _fit(shaft: Shaft, head: Head | None) -> str:
    """Return how a shaft's tip meets a head's bore, in the words of the fact `tip_fit`."""
    if head is None:
        return "straight_fit"
    return _FITS[tip_fit(shaft.tip, head.bore, tip_taper=shaft.taper).verdict]


def tip_options(
    judge: Deciding, head: Head | None, shaft: Shaft | None, loft: float, length: float
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
        options.append(_tip(judge, extra))
    return options or [_tip(judge, 0.0)]


def _tip(judge: Deciding, extra: float) -> Option:
    """Return one way to trim the tip."""
    name = "as-noted" if extra == 0 else f"{extra / _INCH:g}-in-more"
    return Option(name, extra, judge.part("tip", name, lambda: {"tip_extra": Known(extra)}), {})


def grip_options(judge: Deciding) -> list[Option]:
    """Return the grips in stock, with size against what the hand asks for."""
    hand = judge.golfer.known["hand_length"]
    standard, step = (assumed(judge.base, f"hand-for-a-{what}") for what in ("standard-grip", "grip-size"))
    wanted = min(3.0, max(0.0, 1 + (hand.number - standard) / step))
    return [
        _option(
            judge,
            grip.id,
            grip,
            _grip_facts(judge, grip),
            {"grip_step": Known(_size(grip.size) - wanted, waits=hand.waits)},
        )
        for grip in judge.shelf.grips
        if grip.in_stock
    ]


def _grip_facts(judge: Deciding, grip: Grip) -> Seen:
    """Return what no golfer changes of a grip."""
    return judge.part("grip", grip.id, lambda: {"grip_mass": Known(grip.mass)})


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
