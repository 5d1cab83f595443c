"""`trial --json`: a trial as plain data, the unit of each number in its key or beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from interview.views.numbers import in_unit, number, step_in_unit, thousandths
from interview.views.trial.beliefs import UNITS
from rules.evidence.change import label, lead, pick, reasons

if TYPE_CHECKING:
    from interview.views.trial.text import Import
    from rules.evidence.change import Change
    from rules.evidence.comparing import Comparison
    from rules.evidence.intervals import Figure
    from rules.evidence.summary import ClubBalls
    from rules.evidence.trial import Trial
    from rules.facts.weighed import Weighed
    from rules.fitting import Outcome
    from rules.golf.delivery import Delivery, Estimate
    from rules.units import System

SCHEMA = 1
"""The version of what is printed."""
_MEASURED_IN = {"usable": "", "carry": "yd", "side": "yd", "scatter": "mm"}

Json = dict[str, Any]
"""A JSON object."""


def trial_json(
    trial: Trial, session_id: str, taken: Import | None = None, system: System = "imperial"
) -> Json:
    """Return a trial as plain data; `system` governs sentences only, never the numbers."""
    return {
        "schema": SCHEMA,
        "session": session_id,
        "rules_digest": trial.change.after.house.digest,
        "import": _import(taken),
        "clubs": [_club(club, trial) for club in trial.clubs],
        "comparisons": [_comparison(one) for one in trial.comparisons],
        "level": trial.rules.level,
        "beliefs": [_belief(one) for one in trial.beliefs],
        "recommendation": _change(trial.change, system),
        "remarks": [{"remark": remark, "clubs": clubs} for remark, clubs in trial.remarks],
    }


def _import(taken: Import | None) -> Json | None:
    """Return what came of a file; None where none was given."""
    if taken is None:
        return None
    table = taken.table
    return {
        "file": taken.file,
        "added": taken.added,
        "clubs_added": [club["name"] for club in table.clubs] if taken.added else [],
        "left_out": [{"line": row.line, "why": row.sentence} for row in table.rejected],
        "columns": dict(table.used),
        "columns_not_used": list(table.unused),
        "units_taken": dict(table.units_taken),
    }


def _figure(figure: Figure | None, symbol: str) -> Json | None:
    """Return a figure with its interval; an end that nobody knows is null."""
    if figure is None:
        return None
    return {
        "value": in_unit(figure.value, symbol),
        "low": in_unit(figure.low, symbol),
        "high": in_unit(figure.high, symbol),
        "balls": figure.balls,
    }


def _club(club: ClubBalls, trial: Trial) -> Json:
    hope, delivery = trial.expected.get(club.club), trial.deliveries.get(club.club)
    return {
        "club": club.club,
        "kind": club.kind,
        "loft_deg": in_unit(club.loft, "deg", 2),
        "owned": club.owned,
        "balls": club.balls,
        "teed_left_out": club.teed,
        "outcomes": dict(club.outcomes),
        "usable": _usable(club),
        "carry_yd": _carry(club),
        "side_yd": None if club.side is None else {**_off(club), "mean": in_unit(club.side.mean, "yd")},
        "strike_mm": _marks(club),
        "readings": _readings(club),
        "ground": [
            {"surface": one.surface, "indoors": one.indoors, "balls": balls}
            for one, balls in club.conditions.items()
        ],
        "expected": None
        if hope is None
        else {"carry_yd": _estimate(hope.carry, "yd"), "usable_share": _estimate(hope.usable, "")},
        "delivery": None if delivery is None else _delivery(delivery),
    }


def _usable(club: ClubBalls) -> Json | None:
    count = club.usable
    if count is None:
        return None
    ends = {"low": number(count.low), "high": number(count.high)}
    return {"number": count.number, "of": count.of, "share": number(count.share), **ends}


def _carry(club: ClubBalls) -> Json | None:
    carry = club.carry
    if carry is None:
        return None
    return {
        "all": _figure(carry.all, "yd"),
        "typical": in_unit(carry.typical, "yd"),
        "poorer_third": in_unit(carry.poorer, "yd"),
        "got_up": _figure(carry.got_up, "yd"),
        "spread": _figure(carry.spread, "yd"),
    }


def _off(club: ClubBalls) -> Json:
    return {"off": _figure(club.side.off, "yd")} if club.side else {}


def _marks(club: ClubBalls) -> Json | None:
    marks = club.marks
    if marks is None:
        return None
    return {
        "toe": in_unit(marks.toe, "mm"),
        "high": in_unit(marks.high, "mm"),
        "sd_toe": in_unit(marks.sd_toe, "mm"),
        "sd_high": in_unit(marks.sd_high, "mm"),
        "scatter": _figure(marks.scatter, "mm"),
        "marks": marks.number,
    }


def _readings(club: ClubBalls) -> Json:
    units = {"head_speed": "mph", "ball_speed": "mph", "launch": "deg", "spin": "rpm"}
    return {f"{name}_{units[name]}": in_unit(value, units[name], 1) for name, value in club.readings.items()}


def _estimate(one: Estimate | None, symbol: str) -> Json | None:
    if one is None:
        return None
    return {"value": in_unit(one.value, symbol), "spread": step_in_unit(one.spread, symbol)}


def _delivery(one: Delivery) -> Json:
    return {
        "head_speed_mph": _estimate(one.speed, "mph"),
        "loft_deg": _estimate(one.loft, "deg"),
        "attack_deg": _estimate(one.attack, "deg"),
        "restitution": _estimate(one.restitution, ""),
        "misfit": number(one.misfit),
    }


def _comparison(one: Comparison) -> Json:
    symbol, found = _MEASURED_IN[one.measure], one.difference
    return {
        "club": one.club,
        "against": one.against,
        "measure": one.measure,
        "unit": symbol or None,
        "balls": list(one.balls),
        "ground": None if one.ground is None else one.ground._asdict(),
        "difference": None if found is None else in_unit(found.value, symbol),
        "low": None if found is None else in_unit(found.low, symbol),
        "high": None if found is None else in_unit(found.high, symbol),
        "p": None if found is None else number(found.p, 6),
        "p_corrected": number(one.corrected, 6),
        "deals": None if found is None else found.deals,
        "exact": None if found is None else found.exact,
        "verdict": one.verdict,
        "better": one.better,
        "matters": in_unit(one.matters, symbol),
        "more_balls_each": one.more,
        "more_balls_for": in_unit(one.aimed_at, symbol),
    }


def _belief(one: Weighed) -> Json:
    symbol = UNITS[one.fact]
    return {
        "fact": one.fact,
        "unit": symbol,
        "believed": _estimate(one.before, symbol),
        "balls_say": _estimate(one.seen, symbol),
        "now": _estimate(one.after, symbol),
        "balls": one.balls,
        "weight_of_balls": number(one.weight),
    }


def _change(found: Change, system: System) -> Json:
    return {
        "before": _pick(found.before),
        "after": _pick(found.after),
        "changed": found.pick_changed,
        "moved": [
            {"what": one.what, "before": _value(one.before, one.unit), "after": _value(one.after, one.unit),
             "unit": one.unit or None}
            for one in found.moved
        ],
        "reasons": [
            {"rule": one.rule, "points": thousandths(one.moved), "text": one.line.text(system),
             "of_rival": one.of_rival}
            for one in reasons(found)
        ],
    }  # fmt: skip


def _pick(outcome: Outcome) -> Json:
    return {"pick": pick(outcome), "label": label(outcome), "margin": thousandths(lead(outcome))}


def _value(value: float | str | None, symbol: str) -> float | str | None:
    return value if value is None or isinstance(value, str) else in_unit(value, symbol)
