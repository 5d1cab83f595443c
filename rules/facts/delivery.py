"""How the head is delivered: attack angle, and delivered loft against the stamped one.

Delivered loft is the largest unknown of the whole road: two degrees move every speed at which a loft
stops paying by 9 to 12 mph. It is a fact with a wide spread that evidence corrects at once.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from rules.facts.known import Known, assumed, waiting
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase

_ATTACK_SPREAD = parse("1.5 deg", "rad")
_SLOW, _FAST = parse("90 mph", "m/s"), parse("105 mph", "m/s")
_AIRBORNE_PASS = 4.0
"""Balls of six that should get up: the four-of-six test (common practice)."""


def attack(base: RuleBase, asked: Mapping[str, Known]) -> Known:
    """Return the attack angle in rad: as measured, else as the turf mark suggests."""
    told = asked["attack_angle"]
    if told.value is not None:
        return told
    mark = asked["turf_mark"]
    value = assumed(base, f"attack-{mark.word}")
    waits = mark.waits | told.waits if mark.waits else mark.waits
    return Known(value, "derived" if mark.how != "assumed" else "assumed", _ATTACK_SPREAD, waits)


def _clamp(value: float) -> float:
    return min(1.0, max(0.0, value))


def delivered_loft_change(base: RuleBase, asked: Mapping[str, Known], skill: Known, speed: Known) -> Known:
    """Return delivered loft less stamped loft, rad, before any flight was measured.

    Between house values for a skilled and fast, a middling and a novice golfer, in straight lines:
    skilled from a 10 down to a 3 handicap and from 90 to 105 mph, novice from 12 up to 28. Usual
    flight shifts it, and so does what stays low: balls of six or low-face marks, whichever says more.
    """
    middling = assumed(base, "delivered-loft-middling")
    novice = _clamp((skill.number - 12) / 16)
    skilled = _clamp((10 - skill.number) / 7) * _clamp((speed.number - _SLOW) / (_FAST - _SLOW))
    value = middling
    value += novice * (assumed(base, "delivered-loft-novice") - middling)
    value += skilled * (assumed(base, "delivered-loft-skilled") - middling)
    flight, airborne, contact = asked["flight"], asked["airborne_of_six"], asked["contact"]
    value += {"low": -1, "high": 1}.get(flight.word, 0) * assumed(base, "flight-loft-shift")
    value += _staying_low(base, airborne, contact)
    parts = (skill, speed, flight, airborne, contact)
    return Known(value, "derived", assumed(base, "delivered-loft-spread"), waiting(parts))


def _staying_low(base: RuleBase, airborne: Known, contact: Known) -> float:
    """Return the loft that balls which stay low tell of, rad, from 0 down.

    Low-face marks and balls that do not get up are two signs of one strike: the stronger counts, not both.
    """
    marked = assumed(base, "low-face-loft-shift") if "low_face" in contact.words else 0.0
    failed = 0.0 if airborne.value is None else max(0.0, _AIRBORNE_PASS - airborne.number)
    return min(marked, -failed * assumed(base, "airborne-loft-shift"))
