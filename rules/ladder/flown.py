"""A decided rung, flown for this golfer: centred, and over his strikes and lies."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache, partial
from typing import TYPE_CHECKING, NamedTuple

from rules.facts.known import assumed
from rules.facts.mishits import at_loft
from rules.facts.usual import USUAL_FACE, usual_head
from rules.golf.flight import fly
from rules.golf.impact import Clubhead, strike
from rules.golf.outcome import Flier, Outcomes, Worth, play
from rules.golf.quadrature import Face, Lie, six_strikes
from rules.golf.speed import club_speed
from rules.golf.strike import StrikePattern
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
    return club_speed(golfer.number("driver_head_speed"), ratio) * length_factor(base, length, usual)


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


class Blow(NamedTuple):
    """All that the flights of one rung hang on."""

    speed: float
    loft: float
    """As delivered, rad."""
    attack: float
    head: Clubhead
    pattern: StrikePattern
    lies: tuple[Lie, ...]
    face: Face
    outcomes: Outcomes
    worth: Worth
    density: float


def flown(base: RuleBase, golfer: Golfer, kind: Kind, spec: Spec, flier: Flier | None = None) -> Flown:
    """Fly a rung: the clean strike, and six strikes over scatter and lies.

    Expected carry weighs clean strikes against topped, thin and fat balls. A `flier` (a surface over
    one law) serves where many thousands are flown. What an answer leaves as it was is not flown again.
    """
    wider = scatter_factor(base, spec.length, usual_length(base, kind, spec.loft))
    blow = Blow(
        speed=head_speed(base, golfer, kind, spec.loft, spec.length),
        loft=spec.loft + golfer.number("delivered_loft_change"),
        attack=golfer.number("attack"),
        head=clubhead(base, kind, spec),
        pattern=golfer.pattern.scattered(wider),
        lies=golfer.lies.met,
        face=face(kind, spec),
        outcomes=at_loft(base, golfer.mishits[kind], spec.loft),
        worth=worth(base, golfer),
        density=golfer.density,
    )
    apex = suiting_apex(golfer.number("driver_head_speed"))
    return _read(blow, apex, flier) if flier else _remembered(blow, apex)


@lru_cache(maxsize=1024)
def _remembered(blow: Blow, apex: float) -> Flown:
    """Fly a blow by the first law, or remember how it flew: most answers leave most rungs alone."""
    return _flown(blow, apex, partial(fly, density=blow.density))


@lru_cache(maxsize=1024)
def _read(blow: Blow, apex: float, flier: Flier) -> Flown:
    """Read a blow off a surface, or remember how it was read."""
    return _flown(blow, apex, flier)


_six = lru_cache(maxsize=1024)(six_strikes)
"""Strikes over lies, remembered: they hang on neither speed nor head."""


def _flown(blow: Blow, apex: float, flier: Flier) -> Flown:
    """Fly a blow; `apex` is the one that suits the golfer's speed, m."""
    met = _six(blow.pattern, blow.lies, blow.face, blow.attack)
    played = play(blow.speed, (blow.loft, blow.attack), blow.head, met, blow.outcomes, blow.worth, flier)
    launch, clean = strike(blow.speed, blow.loft, blow.attack, blow.head), played.centred
    return Flown(
        speed=blow.speed,
        ball_speed=launch.speed,
        launch=launch.angle,
        spin=launch.spin,
        density=blow.density,
        centred=clean.carry,
        expected=played.expected,
        apex=clean.apex,
        descent=clean.descent,
        usable=played.usable_share,
        height_share=clean.apex / apex,
    )
