"""A decision explained as plain data; numbers in the unit beside them, points as points."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from interview.views.inquiry import audit, prices
from interview.views.inquiry.fill import would_change
from interview.views.inquiry.nearness import near_sentence
from interview.views.inquiry.words import Words
from interview.views.numbers import number, plain, thousandths
from interview.views.recommend_json import figures
from rules.inquiry.ledgers import WhyNot

if TYPE_CHECKING:
    from interview.views.inquiry.asked import Explained
    from rules.inquiry.leans import Lean
    from rules.inquiry.ledgers import WhyNotAmount
    from rules.inquiry.study import Study
    from rules.inquiry.sure import Sure

Json = dict[str, Any]


def explain_json(of: Explained, session_id: str) -> Json:
    """Return a decision explained as plain data."""
    one, said = of.decision, Words(of.outcome, of.system)
    return {
        "schema": 1,
        "session": session_id,
        "rules_digest": of.outcome.house.digest,
        "rules_changed_since": of.audit.record.rules_digest if of.audit and of.audit.rules else None,
        "audit": audit.data(of.audit) if of.audit is not None else None,
        **figures(one),
        "because": [
            {"rule": line.rule, "points": thousandths(line.points), "adjust": thousandths(line.adjust),
             "text": line.text, "source": {"kind": line.source.kind, "cite": line.source.cite}}
            for line in one.because
        ],
        "why_not": _against(of),
        "nearly": [
            {"rule": near.rule.id, "fact": near.fact, "text": near_sentence(near, said),
             "away": number(near.away, 4)}
            for near in of.near
        ],
        **prices.data(of),
        **_study(of),
    }  # fmt: skip


def _against(of: Explained) -> Json | None:
    """Return what it is held against."""
    it = of.against
    if it is None:
        return None
    if isinstance(it, WhyNot):
        return {
            "instead": it.rival,
            "margin": thousandths(it.margin),
            "same": thousandths(it.same),
            "ruled_out": [line.rule.id for line in it.ruled_out if line.rule is not None],
            "differences": [
                {"rule": one.rule.id, "points": thousandths(one.apart),
                 "pick": one.mine.text(of.system) if one.mine else None,
                 "instead": one.other.text(of.system) if one.other else None}
                for one in it.differences
            ],
        }  # fmt: skip
    return _amount(of, it)


def _amount(of: Explained, it: WhyNotAmount) -> Json:
    """Return what speaks against another amount."""
    lines = [(line, "against") for line in it.against] + [(line, "toward") for line in it.toward]
    return {
        "instead": thousandths(it.wanted),
        "short": thousandths(it.short),
        "lines": [
            {"rule": line.rule.id if line.rule else line.kind, "adjust": thousandths(line.adjust),
             "way": way, "text": line.text(of.system)}
            for line, way in lines
        ],
    }  # fmt: skip


def _study(of: Explained) -> Json:
    """Return what a study adds; null where none was made."""
    study = of.study
    if study is None:
        return dict.fromkeys(
            ("would_change", "unchanged_by", "overtake", "sure", "steady", "enough", "leans")
        )
    mine = would_change(of.outcome, study, of.system).get(of.decision.id, ())
    return {
        "would_change": [
            {"fact": c.fact, "from": c.now, "to": c.to, "unit": c.unit, "pick": c.pick} for c in mine
        ],
        "unchanged_by": list(of.idle),
        "overtake": _overtake(of, study),
        "sure": _sure(study.sure),
        "steady": study.steady.steady if study.steady else None,
        "enough": _enough(study),
        "leans": [_lean(of, lean) for lean in study.leans or () if lean.changes],
    }


def _enough(study: Study) -> Json | None:
    """Return the answers that are enough, and how many are needed at least."""
    if study.enough is None:
        return None
    few = study.enough
    return {
        "answers": list(few.answers), "given": few.given, "at_least": few.at_least, "proved": few.proved,
        "open_questions": "any" if few.anyhow else "usual",
    }  # fmt: skip


def _overtake(of: Explained, study: Study) -> Json | None:
    """Return the answers that would make the runner-up win."""
    if study.overtake is None:
        return None
    found = study.overtake
    facts = of.outcome.house.base.facts
    return {
        "pair": found.pair,
        "found": bool(found.trials),
        "every_value_tried_alone": found.alone,
        "tried_together": list(found.pool),
        "answers": [
            {"fact": one.fact, "to": plain(one.value, facts[one.fact].unit),
             "unit": facts[one.fact].unit or None}
            for one in found.trials
        ],
    }  # fmt: skip


def _sure(sure: Sure | None) -> Json | None:
    """Return how sure the pick is."""
    if sure is None:
        return None
    return {
        "share": number(sure.share), "standard_error": number(sure.error, 4), "draws": sure.tried,
        "near": number(sure.near),
        "others": [
            {"pair": one.pair, "share": number(one.share), "when": [when.fact for when in one.when]}
            for one in sure.others
        ],
    }  # fmt: skip


def _lean(of: Explained, lean: Lean) -> Json:
    """Return one thing that the outcome leans on."""
    assumption = of.outcome.house.base.assumptions.get(lean.id)
    unit = assumption.unit if assumption else ""
    return {
        "id": lean.id, "sort": lean.sort, "value": plain(lean.value, unit), "unit": unit or None,
        "changes_pick": lean.changes_pick,
        "swings": [{"to": plain(one.to, unit), "changes": list(one.changes)} for one in lean.swings],
    }  # fmt: skip
