"""Sayings about distance: longer is farther; the number on the sole says how far.

Facts of the trade (common practice): half an inch costs almost no distance; sole numbers mislead, and stamped
loft is up to two degrees out.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, product
from random import Random
from typing import TYPE_CHECKING

from rules.ladder.flown import flown
from rules.ladder.rung import trade_name
from rules.lessons.exercises.exercise import Figure, Name, Row, Value
from rules.lessons.exercises.settling import Settled, Verdict, between
from rules.units import UNITS

if TYPE_CHECKING:
    from rules.ladder.rung import Flown, Rung
    from rules.lessons.case import Case

_INCH, _YARD, _DEGREE = UNITS["in"].factor, UNITS["yd"].factor, UNITS["deg"].factor
LENGTH_LAWS = ("speed-per-inch", "scatter-per-inch")
"""Assumptions behind what an inch does: both are swung over their declared ranges."""
TOLD = 1.0 * _YARD
"""A carry is told in yards: less than one of them is no difference (house value)."""
_MOST = 43.5 * _INCH
"""No club of this trade is built longer."""
_STAMP = 2.0 * _DEGREE
"""By how much a stamped loft may be out (common practice)."""


def longer_farther(case: Case, dice: Random) -> Settled | None:
    """Hold "longer is farther" against speed gained and scatter grown, on the case's own club.

    Both laws of length are swung over their ranges. It holds where even the least gain is a yard an inch,
    fails where not even the most is, and is open between.
    """
    if case.outcome.picked is None:
        return None
    rung = dice.choice((case.outcome.picked.longer, case.outcome.picked.shorter))
    longer = rung.spec.length + _INCH
    if longer > _MOST:
        return None
    gains = [_gain(case, rung, laws) for laws in _laws(case)]
    rows = [
        Row("at_length", {"length": Figure(at, "in"), **_carries(_flown(case, rung, at))})
        for at in (rung.spec.length - _INCH, rung.spec.length, longer)
    ]
    rows.append(Row("gain", {"gain": Figure(_gain(case, rung, {}), "yd", difference=True)}))
    band = {
        "low": Figure(min(gains), "yd", difference=True),
        "high": Figure(max(gains), "yd", difference=True),
    }
    rows.append(Row("gain_band", band))
    values: dict[str, Value] = {"club": Name("club", rung.id), "length": Figure(rung.spec.length, "in")}
    return Settled(between(min(gains), max(gains), TOLD), values, tuple(rows))


def _laws(case: Case) -> list[dict[str, float]]:
    """Return the laws of length at every pairing of the ends of their ranges."""
    ends = [case.base.assumptions[id].range or (0.0, 0.0) for id in LENGTH_LAWS]
    return [dict(zip(LENGTH_LAWS, pair, strict=True)) for pair in product(*ends)]


def _gain(case: Case, rung: Rung, laws: dict[str, float]) -> float:
    """Return what an inch adds to the carry expected, m, with some assumptions at other values."""
    more, now = (_flown(case, rung, rung.spec.length + by, laws) for by in (_INCH, 0.0))
    return more.expected - now.expected


def _flown(case: Case, rung: Rung, length: float, laws: dict[str, float] | None = None) -> Flown:
    """Fly a club at another length, all else as it is."""
    base = case.base.with_assumptions(laws) if laws else case.base
    return flown(base, case.outcome.golfer, rung.kind, replace(rung.spec, length=length))


def _carries(flight: Flown) -> dict[str, Figure]:
    return {
        "speed": Figure(flight.speed, "mph"), "centred": Figure(flight.centred, "yd", difference=True),
        "expected": Figure(flight.expected, "yd", difference=True),
    }  # fmt: skip


def number_on_sole(case: Case, dice: Random) -> Settled | None:
    """Hold "the number on the sole says how far" against the shop's heads, flown for this golfer.

    It holds where clubs of one name carry closer together than clubs of different names do; fails where two
    of one name are farther apart than two of different names. A loft two degrees off its stamp is shown.
    """
    rungs = [rung for rung in case.outcome.rungs if rung.state == "new"]
    alike = [pair for pair in combinations(rungs, 2) if pair[0].label == pair[1].label]
    others = [pair for pair in combinations(rungs, 2) if pair[0].label != pair[1].label]
    if not alike or not others:
        return None
    widest, nearest = max(alike, key=_apart), min(others, key=lambda pair: (_apart(pair), pair[0].id))
    verdict: Verdict = "fails" if _apart(widest) > _apart(nearest) else "holds"
    stamped = dice.choice(rungs)
    rows = (
        Row("one_name", _two(widest)),
        Row("two_names", _two(nearest)),
        _off_the_stamp(case, stamped),
    )
    name = trade_name(widest[0].kind, widest[0].spec.loft / _DEGREE)
    return Settled(verdict, {"name": name}, rows)


def _apart(pair: tuple[Rung, Rung]) -> float:
    """Return how far apart two clubs carry, m."""
    return abs(pair[0].flown.centred - pair[1].flown.centred)


def _two(pair: tuple[Rung, Rung]) -> dict[str, Figure | Name]:
    return {
        "one": Name("club", pair[0].id), "other": Name("club", pair[1].id),
        "carry": Figure(pair[0].flown.centred, "yd", difference=True),
        "other_carry": Figure(pair[1].flown.centred, "yd", difference=True),
        "apart": Figure(_apart(pair), "yd", difference=True),
    }  # fmt: skip


def _off_the_stamp(case: Case, rung: Rung) -> Row:
    """Return the line that says what a stamp two degrees out does to a carry."""
    weak, strong = (
        flown(case.base, case.outcome.golfer, rung.kind, replace(rung.spec, loft=rung.spec.loft + by)).centred
        for by in (_STAMP, -_STAMP)
    )
    carries = {"weak": Figure(weak, "yd"), "strong": Figure(strong, "yd")}
    return Row("stamp", {"club": Name("club", rung.id), "loft": Figure(_STAMP, "deg"), **carries})
