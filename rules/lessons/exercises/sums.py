"""Bench sums: what the scale will read, and what must go back into the head after a cut.

Parts come from the shelf. What the trainee is told is rounded as a bench note writes it, and the key is
worked out from the rounded figures, so that a pencil comes to the same.
"""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING, NamedTuple

from rules.bench.balance import FULCRUM, Part, balance, finished
from rules.bench.build import Build
from rules.bench.shorten import shorten
from rules.lessons.exercises.exercise import Exercise, Figure, Row, Value
from rules.problems import Problem
from rules.shelf import on_bench
from rules.units import UNITS

if TYPE_CHECKING:
    from rules.lessons.case import Case

_GRAM, _INCH, _OZ_IN = UNITS["g"].factor, UNITS["in"].factor, UNITS["oz*in"].factor
_TENTH, _EIGHTH = 0.1 * _GRAM, _INCH / 8
FINE_POINTS, NOTHING_POINTS = 0.5, 3.0
"""A reading within half a point earns all (the trade's closest tolerance), one three points off nothing."""
FINE_MASS, NOTHING_MASS = 1.0 * _GRAM, 6.0 * _GRAM
"""A mass within a gram earns all, one six grams off nothing."""
_CUTS = (0.5, 0.75, 1.0, 1.5, 2.0)
"""Inches off the butt."""


def _to(value: float, step: float) -> float:
    """Round to a step."""
    return round(value / step) * step


class _Club(NamedTuple):
    """A club from the shelf as a bench note writes it."""

    build: Build
    parts: tuple[Part, ...]
    """Every mass, rounded to a tenth of a gram and an eighth of an inch."""


def _club(case: Case, dice: Random) -> _Club | None:
    """Put together a club from the shelf; None where the shelf has nothing that goes together."""
    shelf = case.house.shelf
    heads = sorted(shelf.heads_for("right"), key=lambda head: head.id)
    for head in dice.sample(heads, len(heads)):
        shafts = sorted(shelf.shafts_for(head.kind), key=lambda shaft: shaft.id)
        if not (shafts and shelf.grips):
            continue
        length = dice.choice((41, 41.5, 42, 42.5) if head.kind == "fairway" else (39, 39.5, 40)) * _INCH
        try:
            build = on_bench.club(head, dice.choice(shafts), dice.choice(shelf.grips), length, shelf)
        except Problem:
            continue
        return _Club(build, tuple(_noted(part) for part in build.parts if part.mass > 0))
    return None


def _noted(part: Part) -> Part:
    """Return a part as a bench note writes it."""
    return Part(_to(part.mass, _TENTH), _to(part.position, _EIGHTH), 0.0, part.name)


def reading(case: Case, id: str, seed: int) -> Exercise | None:
    """Ask what the scale reads: of a club in parts, or of a finished one; None where none can be built."""
    dice = Random(f"reading {case.id} {seed}")
    made = _club(case, dice)
    if made is None:
        return None
    whole = balance(made.parts)
    if dice.random() < 0.5:
        return _of_parts(case, id, made)
    total, point = _to(whole.total, _GRAM), _to(whole.balance_point, _EIGHTH)
    moment = total * (point - FULCRUM)
    values: dict[str, Value] = {"total": Figure(total, "g"), "point": Figure(point, "in")}
    rows = (Row("moment_of_club", {**values, "moment": Figure(moment, "oz*in")}),)
    return _reading(case, id, "finished", values, rows, finished(total, point).points)


def _of_parts(case: Case, id: str, made: _Club) -> Exercise:
    """Ask of a club in parts."""
    values: dict[str, Value] = {"length": Figure(made.build.length, "in")}
    rows = []
    for part in made.parts:
        told: dict[str, Value] = {
            "part": part.name,
            "mass": Figure(part.mass, "g"),
            "place": Figure(part.position, "in"),
        }
        rows.append(Row("part", {**told, "moment": Figure(part.moment, "oz*in")}))
    whole = balance(made.parts)
    rows.append(Row("sum_of_moments", {"moment": Figure(whole.moment, "oz*in")}))
    return _reading(case, id, "parts", values, tuple(rows), whole.points)


def _reading(
    case: Case, id: str, topic: str, values: dict[str, Value], rows: tuple[Row, ...], points: float
) -> Exercise:
    """Put an exercise on a scale reading together."""
    told = Row("reading", {"reading": Figure(points, "points")})
    return Exercise(
        id, "reading", case.id, topic, values, (), "", (*rows, told), (), Figure(points, "points"),
        FINE_POINTS, NOTHING_POINTS,
    )  # fmt: skip


def putting_back(case: Case, id: str, seed: int) -> Exercise | None:
    """Ask what must go back into the head after a cut at the butt; None where no club can be built."""
    dice = Random(f"putting back {case.id} {seed}")
    made = _club(case, dice)
    if made is None:
        return None
    before = made.build.length + dice.choice((0.0, 0.5, 1.0)) * _INCH
    cut = dice.choice(_CUTS) * _INCH
    head, shaft = (_to(mass, _GRAM) for mass in (made.build.head.mass, made.build.shaft.mass))
    found = shorten(before, before - cut, head, shaft)
    values: dict[str, Value] = {
        "before": Figure(before, "in"), "after": Figure(before - cut, "in"),
        "head": Figure(head, "g"), "shaft": Figure(shaft, "g"),
    }  # fmt: skip
    rows = (
        Row("points_lost", {"points": Figure(-found.points_change, "points", difference=True)}),
        Row(
            "per_point",
            {
                "mass": Figure(found.mass_per_point, "g", difference=True),
                "length": Figure(before - cut, "in"),
            },
        ),
        Row("restored", {"mass": Figure(found.restore, "g")}),
        Row(
            "by_rule",
            {
                "mass": Figure(found.rule_restore, "g"),
                "points": Figure(-found.rule_points_change, "points", difference=True),
                "over": Figure(found.rule_overshoot, "points", difference=True),
            },
        ),
    )
    return Exercise(
        id, "putting_back", case.id, "putting_back", values, (), "", rows, (), Figure(found.restore, "g"),
        FINE_MASS, NOTHING_MASS,
    )  # fmt: skip
