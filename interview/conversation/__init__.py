"""The interview as a plain state machine: state and event in, state out; every screen shows the same."""

from __future__ import annotations

from interview.conversation.answers import answer_text
from interview.conversation.events import (
    Answered,
    Event,
    FoundOpen,
    FoundSteady,
    NotKnown,
    PassedOver,
    WentBack,
    WentOn,
    WentTo,
    Withdrew,
)
from interview.conversation.machine import Conversation
from interview.conversation.progress import Progress, TopicProgress, progress
from interview.conversation.state import Exchange, Refusal, State
from interview.conversation.typed import choice_word, means_unknown, typed

__all__ = [
    "Answered",
    "Conversation",
    "Event",
    "Exchange",
    "FoundOpen",
    "FoundSteady",
    "NotKnown",
    "PassedOver",
    "Progress",
    "Refusal",
    "State",
    "TopicProgress",
    "WentBack",
    "WentOn",
    "WentTo",
    "Withdrew",
    "answer_text",
    "choice_word",
    "means_unknown",
    "progress",
    "typed",
]
