"""A decided rung, flown for this golfer: centred, over his strikes and lies, and in the second law."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from rules.facts.known import assumed
from rules.facts.mishits import at_loft
from rules.facts.usual import USUAL_FACE, usual_head
from rules.golf.flight import fly
from rules.golf.impact import Clubhead, strike
from rules.golf.outcome import Flier, Worth, play
from rules.golf.quadrature import Face
from rules.ladder.meeting import strikes
from rules.ladder.rung import Flown
from rules.ladder.start import length_factor, scatter_factor, speed_ratio, suiting_apex, usual_length

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.golfer import Golfer
    from rules.facts.subject import Kind
    from rules.ladder.rung import Spec

_USUAL_CG = {"fairway": 0.0185, "hybrid": 0.0175}
"""Centre of mass up the face of a head of which nothing was measured, m (assumption)."""


def face(kind: Kind, spec: Spec) -> Face:
    """Return the face of a rung: the shop's measures, or those of a usual head."""
    if spec.head is None:
        return Face(spec.loft, USUAL_FACE[kind], _USUAL_CG[kind])
    return Face(spec.loft, spec.head.face_height, spec.head.cg_up_face)


def clubhead(base: RuleBase, kind: Kind, spec: Spec) -> Clubhead:
    """Return the head as a free body: the shop's measures, or those of a usual head."""
    head = spec.head
    if head is None:
        return replace(usual_head(base, kind), mass=spec.impact_mass)
    return Clubhead(
        spec.impact_mass, head.restitution, assumed(base, "spin-grip"), head.cg_depth, head.moi_vertical,
        head.moi_heel_toe,
    )  # fmt: skip


def head_speed(base: RuleBase, golfer: Golfer, kind: Kind, loft: float, length: float) -> float:
    """Return the head speed of a club at its length, m/s: the set's law, then one club's own."""
    usual = usual_length(base, kind, loft)
    ratio = speed_ratio(base, kind, loft)
    return golfer.number("driver_head_speed") * ratio * length_factor(base, length, usual)


def worth(base: RuleBase, golfer: Golfer) -> Worth:
    """Return what a mishit carries and what apex counts as got up, for this golfer's speed."""
    wanted, carried = suiting_apex(golfer.number("driver_head_speed")), assumed(base, "mishit-carry")
    return Worth(
        topped=carried * 0.5,
        thin=min(1.0, carried * 1.3),
        fat=carried * 0.9,
        useless_apex=wanted * assumed(base, "useful-apex-low"),
        useful_apex=wanted * assumed(base, "useful-apex-full"),
    )


def flown(base: RuleBase, golfer: Golfer, kind: Kind, spec: Spec, flier: Flier | None = None) -> Flown:
    """Fly a rung: the clean strike in both laws, and six strikes over scatter and lies.

    Expected carry weighs clean strikes against topped, thin and fat balls. A `flier` (a surface over
    the first law) serves where many thousands are flown; the second law is then left out of the band.
    """
    speed = head_speed(base, golfer, kind, spec.loft, spec.length)
    attack, head = golfer.number("attack"), clubhead(base, kind, spec)
    loft = spec.loft + golfer.number("delivered_loft_change")
    wider = scatter_factor(base, spec.length, usual_length(base, kind, spec.loft))
    met = strikes(golfer, face(kind, spec), wider)
    outcomes = at_loft(base, golfer.mishits[kind], spec.loft)
    played = play(
        speed, (loft, attack), head, met, outcomes, worth(base, golfer),
        flier or partial(fly, density=golfer.density),
    )  # fmt: skip
    launch, clean = strike(speed, loft, attack, head), played.centred
    other = fly(launch, golfer.density, "second").carry if flier is None else clean.carry
    return Flown(
        speed=speed,
        ball_speed=launch.speed,
        launch=launch.angle,
        spin=launch.spin,
        centred=clean.carry,
        expected=played.expected,
        low=min(clean.carry, other),
        high=max(clean.carry, other),
        apex=clean.apex,
        descent=clean.descent,
        usable=played.usable_share,
        height_share=clean.apex / suiting_apex(golfer.number("driver_head_speed")),
    )
