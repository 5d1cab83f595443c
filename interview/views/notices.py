"""Cautions and advice, safety first."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from interview.views.sources import OtherSchool, SourceView, other_school, source_of

if TYPE_CHECKING:
    from rules.engine.ledger import Notice
    from rules.units import System

TOPICS = ("body", "bench", "bay", "bag", "rules_of_golf", "claim", "fit", "evidence")
"""Topics of cautions in the order in which they are said: what can hurt comes first."""


class NoticeView(NamedTuple):
    """One caution, or one step of the plan to prove the clubs."""

    rule: str
    topic: str
    text: str
    teaches: str
    source: SourceView
    contested: OtherSchool | None


def cautions(notices: Iterable[Notice], system: System) -> tuple[NoticeView, ...]:
    """Return the cautions, what can hurt first; a topic of a shop's own rules comes last."""
    found = [_view(notice, system) for notice in notices if notice.kind == "caution"]
    return tuple(sorted(found, key=lambda one: _rank(one.topic)))


def proofs(notices: Iterable[Notice], rules: Iterable[str], system: System) -> tuple[NoticeView, ...]:
    """Return the plan to prove the clubs, step by step as the rule base declares its rules."""
    place = {id: index for index, id in enumerate(rules)}
    found = [_view(notice, system) for notice in notices if notice.kind == "advise"]
    return tuple(sorted(found, key=lambda one: place.get(one.rule, len(place))))


def _rank(topic: str) -> int:
    return TOPICS.index(topic) if topic in TOPICS else len(TOPICS)


def _view(notice: Notice, system: System) -> NoticeView:
    rule = notice.rule
    return NoticeView(
        rule.id,
        notice.topic,
        notice.text(system),
        rule.teaches,
        source_of(rule.source),
        other_school(rule.contested),
    )
