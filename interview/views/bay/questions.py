"""The interview as the bay shows it: the map of topics, what was said, and the question that is up."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.conversation import answer_text, progress
from interview.conversation.progress import Standing, standing
from interview.views.bay.talk import AskView, QuestionView, TalkView, TopicView
from rules.facts.asked import applicable

if TYPE_CHECKING:
    from interview.conversation import Conversation, State

SPINE = ("game", "speed", "lies", "miss", "confidence")
"""Topics that carry an interview: handicap, speed, lies, miss and confidence."""
KEYS = "123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
"""Keys that go to a question, one each, in the order of the rule base."""


def talk_view(conversation: Conversation, state: State) -> TalkView:
    """Return the talk of a state."""
    seen = progress(conversation.base, state)
    topics = tuple(_topics(conversation, state))
    by_id = {one.id: one for topic in topics for one in topic.questions}
    voice = state.session.voice
    ending = ""
    if state.asking is None:
        ending = conversation.wording.say(f"interview.{state.stage}", voice, count=len(state.open))
    return TalkView(
        topics=topics,
        said=tuple(by_id[id] for id in state.session.answered if id in by_id),
        ask=_ask(conversation, state),
        ending=ending,
        answered=seen.answered,
        open=seen.open,
        needless=seen.needless,
        refusal=state.refusal.sentence if state.refusal else "",
        next=_next(state),
    )


def _next(state: State) -> str:
    """Say what can be done where no question is up."""
    if state.asking is not None or state.halted:
        return ""
    rest = "Enter asks what is left all the same. " if state.open or state.needless else ""
    return f"{rest}F11 makes the sheets."


def _topics(conversation: Conversation, state: State) -> Iterator[TopicView]:
    """Yield the topics with their questions, each with its key."""
    number = 0
    for topic in progress(conversation.base, state).topics:
        questions = []
        for id, how in topic.questions.items():
            key = KEYS[number] if number < len(KEYS) else ""
            questions.append(_question(conversation, state, id, key, how))
            number += 1
        title = conversation.wording.topic(topic.topic, state.session.voice)
        yield TopicView(topic.topic, title, topic.topic in SPINE, tuple(questions))


def _question(conversation: Conversation, state: State, id: str, key: str, how: Standing) -> QuestionView:
    """Return one question of the map."""
    fact = conversation.base.facts[id]
    return QuestionView(
        id=id,
        key=key,
        title=fact.title[:1].upper() + fact.title[1:],
        standing=how,
        said=said_text(conversation, state, id),
        up=id == state.asking,
        short=conversation.wording.short(fact),
    )


def said_text(conversation: Conversation, state: State, id: str) -> str:
    """Return what was answered to a question, in words; empty without an answer."""
    answer = state.session.subject.answers.get(id)
    if answer is None:
        return ""
    fact = conversation.base.facts[id]
    asked = conversation.wording.asked(fact, state.session.voice, state.hand)
    return answer_text(fact, asked, answer, conversation.wording, state.session.units)


def _ask(conversation: Conversation, state: State) -> AskView | None:
    """Return the question on the screen."""
    id = state.asking
    if id is None:
        return None
    fact, voice = conversation.base.facts[id], state.session.voice
    asked = conversation.wording.asked(fact, voice, state.hand)
    how = standing(state, id, applicable(conversation.base, state.session.subject.answers))
    note = (
        conversation.wording.say(f"interview.{how}", voice)
        if how in ("dormant", "hidden", "needless")
        else ""
    )
    return AskView(
        id=id,
        topic=conversation.wording.topic(fact.ask.topic if fact.ask else "", voice),
        text=asked.text,
        hint=asked.hint,
        choices=tuple(choice.text for choice in asked.choices),
        said=said_text(conversation, state, id),
        note=note,
        stake=state.outcome.questions.stakes.get(id, 0.0),
        why=asked.why if voice == "customer" else asked.teaches,
        turn=state.turn,
    )
