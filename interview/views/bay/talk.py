"""The talk at one moment, as frozen views: nothing here reads a rule or an answer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from interview.conversation.progress import Standing


@dataclass(frozen=True, slots=True)
class QuestionView:
    """One question on the map."""

    id: str
    key: str
    """The key that goes to it; empty when there are more questions than keys."""
    title: str
    standing: Standing
    said: str = ""
    """The answer in words; empty without one."""
    up: bool = False
    """Whether it is the question on the screen."""
    short: str = ""
    """The title in few letters; empty where it is short as it is."""


@dataclass(frozen=True, slots=True)
class TopicView:
    """One topic on the map."""

    id: str
    title: str
    spine: bool
    questions: tuple[QuestionView, ...]

    @property
    def shown(self) -> tuple[QuestionView, ...]:
        """Return the questions that there is something to show of: neither hidden nor without a place."""
        return tuple(one for one in self.questions if one.standing != "hidden")

    @property
    def short(self) -> str:
        """Return a name of one word."""
        return self.title if " " not in self.title else self.id.replace("_", " ").capitalize()

    @property
    def up(self) -> bool:
        """Return whether the question on the screen belongs here."""
        return any(one.up for one in self.questions)


@dataclass(frozen=True, slots=True)
class AskView:
    """The question on the screen."""

    id: str
    topic: str
    text: str
    hint: str
    choices: tuple[str, ...]
    said: str
    """What was answered before; empty without an answer."""
    note: str
    """What should be known of how it stands; empty where it is plainly open."""
    stake: float
    """Points that still hang on it, 0 where none do."""
    why: str
    turn: int


@dataclass(frozen=True, slots=True)
class TalkView:
    """The whole talk at one moment."""

    topics: tuple[TopicView, ...]
    said: tuple[QuestionView, ...]
    """What was answered, in the order in which it was."""
    ask: AskView | None
    ending: str
    """What is said when no question is up; empty otherwise."""
    answered: int
    open: int
    needless: int
    refusal: str = ""
    """Why the last answer was not taken."""
    firm: str = ""
    """How firm the pick is, said where no question is up."""
    next: str = ""
    """What can be done where no question is up."""
