"""Progress that tells the truth: by topic, what is known, closed, open, passed over and needless."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from interview.conversation.state import State
from rules.facts.asked import applicable

if TYPE_CHECKING:
    from rules.engine import RuleBase

Standing = Literal["known", "unknown", "open", "skipped", "needless", "dormant", "hidden"]
"""Answered; closed by "I don't know"; worth asking; worth asking and passed over; open but unable to matter;
answered but not applying just now; neither answered nor applying."""


@dataclass(frozen=True, slots=True)
class TopicProgress:
    """How far one topic is: every question of it with its standing, in the declared order."""

    topic: str
    questions: Mapping[str, Standing]

    def count(self, *standings: Standing) -> int:
        """Return how many questions stand so."""
        return sum(standing in standings for standing in self.questions.values())


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the whole interview is."""

    topics: tuple[TopicProgress, ...]

    @property
    def answered(self) -> int:
        """Return how many questions are answered or closed and act."""
        return sum(topic.count("known", "unknown") for topic in self.topics)

    @property
    def open(self) -> int:
        """Return how many could still change something; more can come, if an answer brings a question up."""
        return sum(topic.count("open", "skipped") for topic in self.topics)

    @property
    def needless(self) -> int:
        """Return how many are open and cannot change anything."""
        return sum(topic.count("needless") for topic in self.topics)


def standing(state: State, question: str, applies: frozenset[str]) -> Standing:
    """Return how one question stands."""
    answer = state.session.subject.answers.get(question)
    if answer is not None:
        if question not in applies:
            return "dormant"
        return "unknown" if answer.unknown else "known"
    if question in state.open:
        return "skipped" if question in state.session.record.skipped else "open"
    return "needless" if question in applies else "hidden"


def progress(base: RuleBase, state: State) -> Progress:
    """Return how far an interview is, topic by topic in the order of the rule base."""
    applies = applicable(base, state.session.subject.answers)
    asked = sorted(
        ((fact.ask.order, id, fact.ask.topic) for id, fact in base.facts.items() if fact.ask is not None)
    )
    topics = (
        TopicProgress(topic, {id: standing(state, id, applies) for _, id, of in asked if of == topic})
        for topic in base.topics
    )
    return Progress(tuple(topic for topic in topics if topic.questions))
