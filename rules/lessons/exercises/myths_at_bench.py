"""Sayings of the bench: two grams are a point; tape bends the ball.

Facts of the trade (common practice): 2 g a point and three points for half an inch are bench rules; pages for
golfers promise a draw or a fade of a strip of tape, and technical writers say that the usual amount does
almost nothing.
"""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from rules.bench import rules_of_thumb
from rules.bench.balance import FULCRUM, POINT, mass_per_point
from rules.bench.shorten import shorten
from rules.bench.tape import tape_length
from rules.golf.curve import toe_curve
from rules.ladder.flown import clubhead
from rules.lessons.exercises.exercise import Figure, Name, Row, Value
from rules.lessons.exercises.settling import Settled, Verdict, between
from rules.units import UNITS

if TYPE_CHECKING:
    from rules.ladder.rung import Rung
    from rules.lessons.case import Case

_GRAM, _INCH = UNITS["g"].factor, UNITS["in"].factor
FELT = 0.5
"""Points by which a reading may be out at the bench (the trade's closest tolerance)."""
_CUTS = (0.25, 0.5, 1.0, 2.0)
"""Inches off the butt."""
_USUAL_HEAD, _USUAL_SHAFT = 212 * _GRAM, 65 * _GRAM
"""A fairway wood of 43 in before it is cut (common practice)."""
_SOLD = 43 * _INCH
_PLACES = (39, 41, 43, 45)
"""Inches from the butt at which the weight of a point is shown."""
_STRIPS = (2.0, 4.0, 8.0, 20.0)
"""Grams of tape."""
_LEVER = 0.030
"""From the centre of mass to tape at the toe, m (common practice: about 30 mm)."""
_MATTERS = 0.25
"""Part of a golfer's own spread sideways from which a bend would be noticed (house value)."""


def two_grams(case: Case, dice: Random) -> Settled:
    """Hold "2 g in the head are a point" against the sum for a club cut down.

    It holds where a club put right by the bench rule reads within half a point of where it was.
    """
    cut = dice.choice(_CUTS) * _INCH
    found = shorten(_SOLD, _SOLD - cut, _USUAL_HEAD, _USUAL_SHAFT)
    over = Figure(found.rule_overshoot, "points", difference=True)
    exact_at = FULCRUM + POINT / rules_of_thumb.HEAD_PER_POINT
    rows = [
        Row(
            "a_point_at",
            {
                "place": Figure(x * _INCH, "in"),
                "mass": Figure(mass_per_point(x * _INCH), "g", difference=True),
            },
        )
        for x in _PLACES
    ]
    rows += [
        Row("rule_is_exact_at", {"place": Figure(exact_at, "in")}),
        Row("cut_by_sum", {"cut": Figure(cut, "in"), "mass": Figure(found.restore, "g")}),
        Row("cut_by_rule", {"mass": Figure(found.rule_restore, "g"), "over": over}),
    ]
    verdict: Verdict = "fails" if found.rule_overshoot >= FELT else "holds"
    return Settled(verdict, {"cut": Figure(cut, "in"), "length": Figure(_SOLD, "in")}, tuple(rows))


def tape_bends(case: Case, dice: Random) -> Settled | None:
    """Hold "tape at the toe bends the ball" against gear effect on the case's own longer club.

    Tape draws the centre of mass toward it by `m d / (M + m)`, so that a ball met in the middle of the face
    is met that much heelward of it. Fails where that moves the landing by less than a quarter of what the
    golfer's own strikes do from heel to toe; else it stays open, since a rigid head leaves much out.
    """
    if case.outcome.picked is None:
        return None
    rung, mass = case.outcome.picked.longer, dice.choice(_STRIPS) * _GRAM
    head = clubhead(case.base, rung.kind, rung.spec)
    shift = mass * _LEVER / (head.mass + mass)
    bend = abs(_side(case, rung, -shift))
    own = abs(_side(case, rung, case.outcome.golfer.pattern.sd_toe))
    verdict = between(0.0, bend, _MATTERS * own)
    values: dict[str, Value] = {"tape": Figure(mass, "g"), "club": Name("club", rung.id)}
    rows = (
        Row("tape_length", {"length": Figure(tape_length(mass), "in"), "tape": Figure(mass, "g")}),
        Row("mass_shift", {"shift": Figure(shift, "mm"), "lever": Figure(_LEVER, "mm")}),
        Row("bend", {"side": Figure(bend, "yd", difference=True), "carry": Figure(rung.flown.centred, "yd")}),
        Row(
            "own_spread",
            {
                "side": Figure(own, "yd", difference=True),
                "mark": Figure(case.outcome.golfer.pattern.sd_toe, "mm"),
            },
        ),
        Row("bend_share", {"share": Figure(bend / own if own else 0.0, "%")}),
    )
    return Settled(verdict, values, rows)


def _side(case: Case, rung: Rung, toe: float) -> float:
    """Return how far off the path a ball lands that is met `toe` m toward the toe, m."""
    golfer = case.outcome.golfer
    delivered = (rung.spec.loft + golfer.number("delivered_loft_change"), golfer.number("attack"))
    head = clubhead(case.base, rung.kind, rung.spec)
    return toe_curve(rung.flown.speed, delivered, head, toe, golfer.density).side
