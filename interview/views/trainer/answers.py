"""A case in plain view: everything that was said and seen of a golfer, and nothing that follows from it."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.conversation.answers import answer_text
from interview.views.pictures.ink import Ink, Picture, Row, cells, clipped, padded, row, wrapped
from interview.views.trainer.names import case_title
from interview.views.trainer.said import blocks, headed, said
from interview.wording.words import words
from rules.facts.asked import applicable
from rules.units import swing_weight_name
from rules.units import words as quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from interview.wording.words import Hand, Words
    from rules.facts.subject import OwnedClub, Subject
    from rules.lessons.case import Case
    from rules.units import System

_LABEL, _LONG_LABEL = 22, 34
"""Cells of a question's title, and where there is room for whole ones."""
_WIDE = 60
"""Cells from which on there is."""


@dataclass(frozen=True, slots=True)
class SaidLine:
    """One thing that was said."""

    id: str
    """Of the question."""
    title: str
    said: str
    """In words."""


@dataclass(frozen=True, slots=True)
class SaidTopic:
    """What was said of one topic."""

    title: str
    lines: tuple[SaidLine, ...]


@dataclass(frozen=True, slots=True)
class CaseSheet:
    """Everything that a fitter would know of a golfer before he decides."""

    title: str
    topics: tuple[SaidTopic, ...]
    clubs: tuple[str, ...] = ()
    """His own clubs, a sentence each."""
    balls: tuple[str, ...] = ()
    """Balls of a trial, a sentence a club."""


def case_sheet(case: Case, system: System, *, unanswered: bool = False) -> CaseSheet:
    """Return what was said and seen of the golfer of a case; with `unanswered` also what was not said."""
    wording, subject = words(), case.subject
    asked = applicable(case.base, subject.answers) if unanswered else frozenset[str]()
    topics = (
        SaidTopic(wording.topic(topic, "trainer"), tuple(_lines(topic, case, wording, system, asked)))
        for topic in case.base.topics
    )
    return CaseSheet(
        title=case_title(case.id),
        topics=tuple(topic for topic in topics if topic.lines),
        clubs=tuple(_club(one, system) for one in subject.owned),
        balls=tuple(_balls(subject)),
    )


def hand_of(subject: Subject) -> Hand:
    """Return the hand to word questions for; right unless somebody said otherwise."""
    known = subject.answers.get("hand")
    return "left" if known is not None and known.value == "left" else "right"


def _lines(
    topic: str, case: Case, wording: Words, system: System, open_too: frozenset[str]
) -> Iterator[SaidLine]:
    """Yield what was said of one topic, in the order of the rule base; of some also that nothing was."""
    for fact in case.base.facts.values():
        answer = case.subject.answers.get(fact.id)
        if fact.ask is None or fact.ask.topic != topic:
            continue
        if answer is not None:
            asked = wording.asked(fact, "trainer", hand_of(case.subject))
            yield SaidLine(fact.id, fact.title, answer_text(fact, asked, answer, wording, system))
        elif fact.id in open_too:
            yield SaidLine(fact.id, fact.title, said("answers.open"))


def _club(one: OwnedClub, system: System) -> str:
    """Return a club that he owns in a sentence."""
    loft = one.loft.value if one.loft is not None and isinstance(one.loft.value, float) else None
    carry = one.carry.value if one.carry is not None and isinstance(one.carry.value, float) else None
    parts = [
        "" if loft is None else quantity(loft, "deg", system),
        "" if one.length is None else quantity(one.length, "in", system),
        "" if one.swing_weight is None else swing_weight_name(one.swing_weight),
        "" if carry is None else said("answers.carry", far=quantity(carry, "yd", system)),
        "" if one.liked is None else said(f"answers.liked_{one.liked}"),
    ]
    about = ", ".join(part for part in parts if part)
    return f"{one.name}: {about}" if about else one.name


def _balls(subject: Subject) -> Iterator[str]:
    """Yield what became of the balls of a trial, a sentence a club."""
    for club in dict.fromkeys(shot.club for shot in subject.shots):
        balls = [shot for shot in subject.shots if shot.club == club]
        seen = Counter(shot.outcome for shot in balls if shot.outcome is not None)
        parts = ", ".join(f"{count} {name}" for name, count in seen.items())
        key = "answers.one_ball" if len(balls) == 1 else "answers.balls"
        yield said(key, club=club, count=len(balls), seen=parts or said("answers.not_said"))


def sheet_rows(view: CaseSheet, width: int, *, choose: bool = False) -> Picture:
    """Return a case as rows; with `choose` each answer can be chosen."""
    parts = [
        headed(topic.title.upper(), tuple(_rows(topic, width, choose=choose)), width) for topic in view.topics
    ]
    for title, texts in ((said("answers.clubs"), view.clubs), (said("answers.trial"), view.balls)):
        rows = tuple(one for text in texts for one in wrapped(text, width, indent="  "))
        parts.append(headed(title.upper(), rows, width))
    return blocks(parts)


def _rows(topic: SaidTopic, width: int, *, choose: bool) -> Iterator[Row]:
    """Yield the answers of one topic: title and answer side by side, or one below the other; neither cut."""
    label = min(_LONG_LABEL if width >= _WIDE else _LABEL, max(6, width // 2))
    for line in topic.lines:
        target = line.id if choose else ""
        room = max(label, cells(line.title))
        if room + 1 + cells(line.said) <= width:
            lead = Ink(padded(line.title, room), "dim")
            yield row(lead, " ", Ink(line.said, "strong"), target=target)
            continue
        yield row(Ink(clipped(line.title, width), "dim"), target=target)
        for one in wrapped(line.said, max(1, width - 2), "strong"):
            yield row("  ", *one.inks, target=target)
