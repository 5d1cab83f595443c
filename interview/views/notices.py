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


def cautions(notices: Iterable[Notice], rules: Iterable[str], system: System) -> tuple[NoticeView, ...]:
    """Return the cautions, what can hurt first and each topic as the rule base declares its rules.

    A topic of a shop's own rules comes last.
    """
    found = [_view(notice, system) for notice in notices if notice.kind == "caution"]
    place = _places(rules)
    return tuple(sorted(found, key=lambda one: (_rank(one.topic), place.get(one.rule, len(place)))))


def proofs(notices: Iterable[Notice], rules: Iterable[str], system: System) -> tuple[NoticeView, ...]:
    """Return the plan to prove the clubs, step by step as the rule base declares its rules."""
    found = [_view(notice, system) for notice in notices if notice.kind == "advise"]
    place = _places(rules)
    return tuple(sorted(found, key=lambda one: place.get(one.rule, len(place))))


def _places(rules: Iterable[str]) -> dict[str, int]:
    return {id: index for index, id in enumerate(rules)}


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
