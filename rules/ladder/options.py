"""What may fill each part of a rung: heads, shafts, tips and grips in stock, with their facts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from rules.bench.tip import fit as tip_fit
from rules.facts.known import NOTHING, Known, assumed
from rules.facts.wanted import FLEXES, flex_wanted
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


_FACE_FACTS = frozenset(("face_loss", "face_loss_excess", "tight_meeting"))


AFTER_HEAD = ("driver_head_speed", "hand", "hand_length", "shaft_mass_wanted", "tempo")
"""Of these, what options other than heads are worked out from."""


class Option(NamedTuple):
    """One candidate of a decision: its id, the part it stands for, and its facts."""

    id: str
    part: object
    seen: Seen
    """Its facts, as the judge reads them."""
    waits: Mapping[str, frozenset[str]]
    """Open questions behind those of its facts that hang on the golfer."""


def head_options(judge: Deciding, place: Place) -> list[Option]:
    """Return the heads that may fill a place, each with how it meets the golfer's lies."""
    if len(place.heads) == 1 and not judge.traces and only_ranks(judge):
        (head,) = place.heads
        return [Option(head.id, head, _head_facts(judge, head), {})]
    known = judge.golfer.known
    delivered = place.loft + known["delivered_loft_change"].number
    met = [judge.meets(head, delivered) for head in place.heads]
    least = min([one.loss for one in met], default=0.0)
    waits = judge.golfer.strike_waits | known["attack"].waits | known["delivered_loft_change"].waits
    behind = {
        "face_loss": waits,
        "face_loss_excess": waits if len(met) > 1 else NOTHING,
        "tight_meeting": waits,
    }
    options = []
    for head, one in zip(place.heads, met, strict=True):
        moving = {
            "face_loss": min(0.4, one.loss),
            "face_loss_excess": min(0.4, one.loss - least),
            "tight_meeting": min(0.04, max(-0.04, one.tight)),
        }
        seen = {**_head_facts(judge, head), **judge.derived(moving, behind)}
        options.append(Option(head.id, head, seen, behind))
    return options


def only_ranks(judge: Deciding) -> bool:
    """Say whether how a face meets the lies does no more than rank heads.

    Then a head without a rival need not be held against them, and what goes with a head not either.
    """
    return judge.house.once(("face facts rank",), lambda: (_only_ranks(judge),))[0]  # type: ignore[no-any-return]


def _only_ranks(judge: Deciding) -> bool:
    others = [rule for rule in judge.base.rules.values() if rule.decision and rule.decision != "head"]
    return not judge.base.plan("head").rule_outs and not any(rule.reads & _FACE_FACTS for rule in others)


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


def shaft_options(judge: Deciding, kind: Kind, head: Head | None, shafts: Sequence[Shaft]) -> list[Option]:
    """Return shafts made for a kind, with mass and flex against what is wanted."""
    known = judge.golfer.known
    speed, tempo, wanted = known["driver_head_speed"], known["tempo"], known["shaft_mass_wanted"]
    mass = wanted.number + (assumed(judge.base, "hybrid-shaft-over-wood") if kind == "hybrid" else 0.0)
    flex = flex_wanted(judge.base, speed.number, tempo.word)
    waits = {"shaft_mass_excess": wanted.waits, "flex_step": speed.waits | tempo.waits}
    options = []
    for shaft in shafts:
        moving = {"shaft_mass_excess": shaft.mass - mass, "flex_step": FLEXES.index(shaft.flex) - flex}
        seen = {**_shaft_facts(judge, shaft, head), **judge.derived(moving, waits)}
        options.append(Option(shaft.id, shaft, seen, waits))
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
    key = ("tips", judge.traces, head and head.id, shaft.id, loft, length)
    return judge.house.once(key, lambda: _tips(judge, head, shaft, loft, length))  # type: ignore[no-any-return]


def _tips(judge: Deciding, head: Head | None, shaft: Shaft, loft: float, length: float) -> list[Option]:
    """Return the ways to trim a tip."""
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
    waits = {"grip_step": hand.waits}
    options = []
    for grip in [grip for grip in judge.shelf.grips if grip.in_stock]:
        moving = judge.derived({"grip_step": _size(grip.size) - wanted}, waits)
        options.append(Option(grip.id, grip, {**_grip_facts(judge, grip), **moving}, waits))
    return options


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
