"""Spot the impossible claim: carries told at several speeds, one of them beyond what physics allows.

The key is what the rules say of each claim when a golfer makes it; the ceiling is shown with the answer.
"""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING, NamedTuple

from rules.facts.answers import Answer
from rules.facts.golfer import golfer
from rules.facts.subject import Subject
from rules.golf.speed import carry_ceiling
from rules.lessons.exercises.exercise import Exercise, Figure, Option, Row
from rules.units import parse

if TYPE_CHECKING:
    from rules.lessons.case import Case

CLAIMS = 4
"""Claims to choose from."""
EXCESS = "claimed_excess"
"""The fact that says by how much a claim passes the ceiling."""
_YARD = parse("1 yd", "m")
_MPH = parse("1 mph", "m/s")
_AIR = ("temperature", "altitude")


class Claim(NamedTuple):
    """A carry told at a head speed. SI."""

    speed: float
    carry: float


def claim(case: Case, id: str, seed: int) -> Exercise | None:
    """Ask which of four claims cannot be; None where the rules know no such thing."""
    dice = Random(f"claim {case.id} {seed}")
    density = case.outcome.golfer.density
    speeds = sorted(dice.sample(range(66, 116, 2), CLAIMS))
    wrong = dice.randrange(CLAIMS - 1)
    claims = []
    for place, speed in enumerate(speeds):
        share = dice.uniform(1.08, 1.2) if place == wrong else dice.uniform(0.82, 0.97)
        ceiling = carry_ceiling(speed * _MPH, density)
        claims.append(Claim(speed * _MPH, round(share * ceiling / _YARD) * _YARD))
    dice.shuffle(claims)
    refused = [one for one in claims if not_believed(case, one)]
    return _exercise(case, id, claims, refused[0]) if len(refused) == 1 else None


def not_believed(case: Case, claim: Claim) -> bool:
    """Say whether a caution about claims speaks when a golfer in the case's air tells this one."""
    answers = {id: case.subject.answers[id] for id in _AIR if id in case.subject.answers}
    answers |= {"driver_speed": Answer(claim.speed, "measured"), "driver_carry": Answer(claim.carry)}
    views = golfer(case.base, Subject(answers), case.house.shelf).views
    notices = case.base.notices("golfer", views)
    return any(one.topic == "claim" and EXCESS in one.rule.reads for one in notices)


def _exercise(case: Case, id: str, claims: list[Claim], key: Claim) -> Exercise:
    """Put the exercise together."""
    rows = []
    for one in sorted(claims):
        ceiling = carry_ceiling(one.speed, case.outcome.golfer.density)
        told = {**_told(one), "ceiling": Figure(ceiling, "yd"), "beyond": Figure(one.carry - ceiling, "yd")}
        rows.append(Row("beyond" if one.carry > ceiling else "within", told))
    ids = {one: f"claim-{number}" for number, one in enumerate(claims, 1)}
    return Exercise(
        id=id,
        kind="claim",
        case=case.id,
        topic="claim",
        values={},
        options=tuple(Option(ids[one], _told(one)) for one in claims),
        key=ids[key],
        working=tuple(rows),
        told=tuple(question for question in _AIR if question in case.subject.answers),
    )


def _told(claim: Claim) -> dict[str, Figure]:
    return {"speed": Figure(claim.speed, "mph"), "carry": Figure(claim.carry, "yd")}
