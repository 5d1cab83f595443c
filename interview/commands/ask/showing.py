"""What the line-by-line interview prints: a question, its reason, the list of all, and where it stands."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.conversation import Conversation, State, answer_text, progress
from interview.conversation.progress import standing
from rules.facts.asked import applicable

if TYPE_CHECKING:
    from interview.wording.words import Asked
    from rules.units import System


def asked(conversation: Conversation, state: State, question: str) -> Asked:
    """Return a question in the voice of the session, for the golfer's hand."""
    fact = conversation.base.facts[question]
    return conversation.wording.asked(fact, state.session.voice, state.hand)


def topic_line(conversation: Conversation, state: State, topic: str) -> str:
    """Return the line that opens a topic and says how far the interview is."""
    seen = progress(conversation.base, state)
    return conversation.wording.say(
        "ask.topic",
        state.session.voice,
        topic=conversation.wording.topic(topic, state.session.voice),
        answered=seen.answered,
        open=seen.open,
    )


def question_lines(conversation: Conversation, state: State, question: str, units: System) -> Iterator[str]:
    """Yield the lines of one question: its text, its choices numbered, what was said before, the hint."""
    words = asked(conversation, state, question)
    yield words.text
    for number, choice in enumerate(words.choices, 1):
        yield f"  {number}  {choice.text}"
    if words.hint:
        yield f"({words.hint})"
    fact = conversation.base.facts[question]
    answer = state.session.subject.answers.get(question)
    if answer is not None:
        said = answer_text(fact, words, answer, conversation.wording, units)
        yield conversation.wording.say("ask.said_before", state.session.voice, answer=said)
    how = standing(state, question, applicable(conversation.base, state.session.subject.answers))
    if how in ("dormant", "hidden", "needless"):
        yield conversation.wording.say(f"interview.{how}", state.session.voice)


def why(conversation: Conversation, state: State, question: str) -> str:
    """Return why a question is asked: plainly for the customer, in trade words for everyone else."""
    words = asked(conversation, state, question)
    return words.why if state.session.voice == "customer" else words.teaches


def list_lines(conversation: Conversation, state: State, units: System) -> Iterator[str]:
    """Yield every question with what was said to it, topic by topic."""
    wording, voice = conversation.wording, state.session.voice
    for topic in progress(conversation.base, state).topics:
        yield wording.topic(topic.topic, voice)
        for question, how in topic.questions.items():
            if how != "hidden":
                said = _said(conversation, state, question, how, units)
                yield f"  {_called(conversation, state, question)}: {said}"


def _called(conversation: Conversation, state: State, question: str) -> str:
    """Return the name that a question goes by in a list: a customer reads its title."""
    return conversation.base.facts[question].title if state.session.voice == "customer" else question


def _said(conversation: Conversation, state: State, question: str, how: str, units: System) -> str:
    """Return what was said to a question, and how it stands where that has to be told."""
    fact = conversation.base.facts[question]
    answer = state.session.subject.answers.get(question)
    text = answer_text(fact, asked(conversation, state, question), answer, conversation.wording, units)
    mark = "" if how in ("known", "unknown") else conversation.wording.say(f"ask.standing.{how}")
    return ", ".join(part for part in (text, mark) if part)
