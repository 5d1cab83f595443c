"""A decided rung, flown for this golfer: centred, and over his strikes and lies."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache, partial
from typing import TYPE_CHECKING, NamedTuple

from rules.facts.known import assumed
from rules.facts.mishits import at_loft
from rules.facts.usual import USUAL_FACE, usual_head
from rules.golf.flight import fly
from rules.golf.impact import Clubhead
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


class Flying:
    """All that the flights of one golfer's clubs have in common: swing, strikes, lies, mishits and air."""

    def __init__(self, base: RuleBase, golfer: Golfer) -> None:
        self.base, self.golfer = base, golfer
        self._change, self._attack = golfer.number("delivered_loft_change"), golfer.number("attack")
        self._driver = golfer.number("driver_head_speed")
        self._worth = worth(base, golfer)
        self._apex = suiting_apex(self._driver)

    @property
    def hangs_on(self) -> tuple[object, ...]:
        """All of the golfer that a flight hangs on."""
        golfer = self.golfer
        missed = tuple(golfer.mishits.items())
        return (
            self._driver, self._change, self._attack, golfer.pattern, golfer.lies.met, missed, golfer.density
        )  # fmt: skip

    def blow(self, kind: Kind, spec: Spec) -> Blow:
        """Return all that the flights of one club hang on."""
        base, golfer = self.base, self.golfer
        usual, ratio = usual_length(base, kind, spec.loft), speed_ratio(base, kind, spec.loft)
        return Blow(
            speed=club_speed(self._driver, ratio) * length_factor(base, spec.length, usual),
            loft=spec.loft + self._change,
            attack=self._attack,
            head=clubhead(base, kind, spec),
            pattern=golfer.pattern.scattered(scatter_factor(base, spec.length, usual)),
            lies=golfer.lies.met,
            face=face(kind, spec),
            outcomes=at_loft(base, golfer.mishits[kind], spec.loft),
            worth=self._worth,
            density=golfer.density,
        )

    def club(self, kind: Kind, spec: Spec, flier: Flier | None = None) -> Flown:
        """Fly a club: the clean strike, and six strikes over scatter and lies.

        Expected carry weighs clean strikes against topped, thin and fat balls. A `flier` (a surface over
        one law) serves where many thousands are flown.
        """
        blow = self.blow(kind, spec)
        return _flown(blow, self._apex, flier or partial(fly, density=blow.density))

    def remembered(self, kind: Kind, spec: Spec) -> Flown:
        """Fly a club by the first law, or remember how it flew."""
        return _remembered(self.blow(kind, spec), self._apex)


def flown(base: RuleBase, golfer: Golfer, kind: Kind, spec: Spec, flier: Flier | None = None) -> Flown:
    """Fly one club of a golfer's as `Flying.club` does; without a flier it is not flown a second time."""
    flying = Flying(base, golfer)
    return flying.club(kind, spec, flier) if flier else flying.remembered(kind, spec)


@lru_cache(maxsize=1024)
def _remembered(blow: Blow, apex: float) -> Flown:
    """Fly a blow by the first law, or remember how it flew: benches ask for the same club again."""
    return _flown(blow, apex, partial(fly, density=blow.density))


def _flown(blow: Blow, apex: float, flier: Flier) -> Flown:
    """Fly a blow; `apex` is the one that suits the golfer's speed, m."""
    met = six_strikes(blow.pattern, blow.lies, blow.face, blow.attack)
    played = play(blow.speed, (blow.loft, blow.attack), blow.head, met, blow.outcomes, blow.worth, flier)
    launch, clean = played.launch, played.centred
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
