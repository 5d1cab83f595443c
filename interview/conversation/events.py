"""What may happen in an interview, in the past tense: the person did something about a question.

`turn` is the turn the person saw. An event of an earlier turn is dropped, so that keys typed ahead never
answer a question that was not on the screen yet; None stands for an event that names its question anyway.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Answered:
    """An answer was given, or an earlier one revised, to any question at any time."""

    question: str
    said: object
    """Typed text, or the TOML value of an answer."""
    turn: int | None = None


@dataclass(frozen=True, slots=True)
class NotKnown:
    """ "I don't know" was said: the question is closed."""

    question: str
    turn: int | None = None


@dataclass(frozen=True, slots=True)
class PassedOver:
    """A question was passed over: it stays open. An answer it may already have is kept."""

    question: str
    turn: int | None = None


@dataclass(frozen=True, slots=True)
class Withdrew:
    """An answer was taken back: its question is open again."""

    question: str
    turn: int | None = None


@dataclass(frozen=True, slots=True)
class WentTo:
    """A question was gone to, to answer or revise it; nothing changes until something is said."""

    question: str
    turn: int | None = None


@dataclass(frozen=True, slots=True)
class WentBack:
    """The question shown before was gone back to."""

    turn: int | None = None


@dataclass(frozen=True, slots=True)
class WentOn:
    """The interview had nothing left that matters, and the person wants to go on all the same."""

    turn: int | None = None


@dataclass(frozen=True, slots=True)
class FoundSteady:
    """Every plausible completion of the open questions was found to give the same pick."""

    turn: int | None = None


@dataclass(frozen=True, slots=True)
class FoundOpen:
    """Some plausible answer was found to change the pick after all."""

    turn: int | None = None


Event = Answered | NotKnown | PassedOver | Withdrew | WentTo | WentBack | WentOn | FoundSteady | FoundOpen
"""Anything that may happen."""
