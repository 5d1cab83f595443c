"""`recommend --json`: an outcome as plain data, the unit of each number in its key or beside it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from interview.views.numbers import in_unit, number, plain, step_in_unit, thousandths
from interview.views.outcome import outcome_view
from rules.units import swing_weight_name

if TYPE_CHECKING:
    from interview.views.club import BenchView, ClubView, GripView, ShaftView
    from interview.views.decisions import DecisionView
    from interview.views.facts import FactView
    from interview.views.gaps import GapsView
    from interview.views.leans import LeanView
    from interview.views.lines import LineView
    from interview.views.notices import NoticeView
    from interview.views.outcome import OutcomeView
    from interview.views.sources import SourceView
    from interview.views.study import Change, Study
    from rules.fitting import Outcome
    from rules.ladder.rung import Flown
    from rules.overrides import Overridden
    from rules.units import System

SCHEMA = 1
"""The version of what is printed."""

Json = dict[str, Any]
"""A JSON object."""


def to_json(
    outcome: Outcome, session_id: str, study: Study | None = None, system: System = "imperial"
) -> Json:
    """Return an outcome as plain data; `system` governs sentences only, never the numbers.

    Without a study sure, steady and changes_pick are null and would_change is empty.
    """
    return from_view(outcome_view(outcome, system, study), session_id, outcome.house.digest)


def from_view(view: OutcomeView, session_id: str, digest: str) -> Json:
    """Return the view of an outcome as plain data; `digest` is of the rules that it came from."""
    units = {id: fact.unit for id, fact in view.facts.items()}
    return {
        "schema": SCHEMA,
        "session": session_id,
        "rules_digest": digest,
        "settled": view.settled,
        "pairing": _pairing(view),
        "clubs": [_club(club) for club in view.clubs],
        "gaps_yd": _gaps(view.gaps),
        "decisions": [_decision(one, units, view.study) for one in view.decisions.values()],
        "facts": {id: _fact(fact) for id, fact in view.facts.items()},
        "assumptions": [_lean(one, view.study) for one in view.leans],
        "ruled_out": [
            {"candidate": one.candidate, "rule": one.rule, "text": one.text} for one in view.ruled_out
        ],
        "cautions": [_caution(one) for one in view.cautions],
        "prove_it": [one.text for one in view.proofs],
        "overrides": [_override(one) for one in view.overrides],
    }


def _pairing(view: OutcomeView) -> Json | None:
    pairing, study = view.pairing, view.study
    if pairing is None:
        return None
    return {
        "pick": pairing.pick,
        "runner_up": pairing.runner_up,
        "margin": thousandths(pairing.margin),
        "sure": number(study.sure),
        "steady": study.steady,
    }


def _club(club: ClubView) -> Json:
    """Return one club; what nobody knows of his own club is null."""
    return {
        "role": club.role,
        "kind": club.kind,
        "label": club.label,
        "loft_deg": in_unit(club.loft, "deg", 2),
        "head": club.head,
        "owned": club.owned,
        "length_in": in_unit(club.length, "in"),
        "face_height_mm": in_unit(club.face_height, "mm", 2),
        "lie_deg": in_unit(club.lie, "deg", 2),
        "face_angle_deg": in_unit(club.face_angle, "deg", 2),
        "bore_in": in_unit(club.bore, "in"),
        "shaft": _shaft(club.shaft),
        "grip": _grip(club.grip),
        **_bench(club, club.bench),
        **_flown(club.flown),
    }


def _shaft(shaft: ShaftView | None) -> Json | None:
    if shaft is None:
        return None
    return {
        "id": shaft.id,
        "mass_g": in_unit(shaft.mass, "g", 1),
        "flex": shaft.flex,
        "tip_in": in_unit(shaft.tip, "in"),
        "tip_trim_in": in_unit(shaft.tip_trim, "in"),
        "butt_trim_in": in_unit(shaft.butt_trim, "in"),
    }


def _grip(grip: GripView | None) -> Json | None:
    if grip is None:
        return None
    return {"mass_g": in_unit(grip.mass, "g", 1), "size": grip.size}


def _bench(club: ClubView, bench: BenchView | None) -> Json:
    """Return what scale and knife edge would say, and the mass that is added."""
    if bench is None:
        told = club.told_balance
        name = None if told is None else swing_weight_name(told)
        return {
            "swing_weight": name,
            "target_swing_weight": swing_weight_name(club.target),
            "total_g": in_unit(club.told_total, "g", 1),
            "balance_point_in": None,
            "inertia_kg_cm2": None,
            "head_mass_g": None,
            "added_g": in_unit(club.put_back, "g", 1),
            "ports": {},
        }
    return {
        "swing_weight": swing_weight_name(bench.balance),
        "target_swing_weight": swing_weight_name(club.target),
        "total_g": in_unit(bench.total, "g", 1),
        "balance_point_in": in_unit(bench.balance_point, "in", 2),
        "inertia_kg_cm2": in_unit(bench.inertia, "kg*cm2", 0),
        "head_mass_g": in_unit(bench.head_mass, "g", 1),
        "added_g": in_unit(bench.added, "g", 2),
        "ports": {port.name: in_unit(port.mass, "g", 2) for port in bench.ports},
    }


def _flown(flown: Flown) -> Json:
    """Return how a club flies; the descent is for comparing clubs only."""
    carries = {
        "expected": flown.expected,
        "centred": flown.centred,
        "low": flown.low,
        "high": flown.high,
    }
    return {
        "carry_yd": {name: in_unit(carry, "yd", 1) for name, carry in carries.items()},
        "apex_yd": in_unit(flown.apex, "yd", 1),
        "apex_ft": in_unit(flown.apex, "ft", 1),
        "descent_deg": in_unit(flown.descent, "deg", 1),
        "usable_share": number(flown.usable, 3),
    }


def _gaps(gaps: GapsView | None) -> Json:
    names = ("driver_to_longer", "longer_to_shorter", "shorter_to_iron")
    if gaps is None:
        return dict.fromkeys(names)
    return {name: in_unit(getattr(gaps, name), "yd", 1) for name in names}


def _decision(one: DecisionView, units: Mapping[str, str], study: Study) -> Json:
    """Return one decision with its ledger."""
    return {
        **figures(one),
        "because": [_line(line, one.role, units) for line in one.because],
        "runner_up": one.runner_up,
        "would_change": [_change(change) for change in study.would_change.get(one.id, ())],
    }


def figures(one: DecisionView) -> Json:
    """Return what a decision came to, without its ledger."""
    return {
        "decision": one.id,
        "pick": thousandths(one.pick) if isinstance(one.pick, int) else one.pick,
        "unit": one.unit,
        "start": thousandths(one.start),
        "score": thousandths(one.score),
        "settled": one.settled,
    }


def _line(line: LineView, role: str, units: Mapping[str, str]) -> Json:
    """Return one line of a ledger; a choice's gives points, an amount's adjusts."""
    known = {id: units.get(id) or units.get(f"{role}.{id}", "") for id in line.facts}
    moved = {"adjust": line.adjust} if line.points is None else {"points": line.points}
    return {
        "rule": line.rule,
        **{name: thousandths(value) for name, value in moved.items()},
        "text": line.text,
        "facts": {id: plain(value, known[id]) for id, value in line.facts.items()},
        "source": _source(line.source),
        "contested": line.contested is not None,
    }


def _source(source: SourceView) -> Json:
    return {"kind": source.kind, "cite": source.cite}


def _change(change: Change) -> Json:
    return {
        "fact": change.fact,
        "from": change.now,
        "to": change.to,
        "unit": change.unit,
        "pick": change.pick,
    }


def _fact(fact: FactView) -> Json:
    value = fact.value
    said: Any
    if isinstance(value, Mapping):
        said = {part: in_unit(share, fact.unit) for part, share in value.items()}
    else:
        said = plain(value, fact.unit)
    return {
        "value": said,
        "unit": fact.unit or None,
        "how": fact.how,
        "spread": step_in_unit(fact.spread, fact.unit),
        "open": fact.open,
    }


def _lean(one: LeanView, study: Study) -> Json:
    return {
        "id": one.id,
        "value": plain(one.value, one.unit),
        "range": [plain(end, one.unit) for end in one.range or ()],
        "unit": one.unit or None,
        "part": one.part or None,
        "text": one.text,
        "source": _source(one.source),
        "changes_pick": study.changes_pick.get(one.id),
    }


def _caution(one: NoticeView) -> Json:
    return {"topic": one.topic, "text": one.text, "rule": one.rule}


def _override(one: Overridden) -> Json:
    return {
        "decision": one.decision,
        "engine": one.engine,
        "fitter": one.fitter,
        "reason": one.reason,
        "price": {
            "points": number(one.points),
            "carry_yd": in_unit(one.carry, "yd", 1),
            "swing_weight_points": number(one.balance, 1),
        },
        "stale": one.stale,
    }
