"""What one typed line means: an answer, or one of a few plain words that steer the interview."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.text import one_line

if TYPE_CHECKING:
    from rules.engine.language import Fact

_WORDS = {
    "?": "why", "why": "why", "why?": "why",
    "-": "skip", "skip": "skip", "pass": "skip",
    "back": "back", "list": "list", "help": "help", "on": "on", "go on": "on",
    "done": "done", "stop": "done", "finish": "done", "quit": "quit", "exit": "quit", "save": "quit",
    "clear": "clear", "withdraw": "clear", "balls": "balls", "shots": "balls",
}  # fmt: skip
_WITH_QUESTION = re.compile(r"(go to|goto|go|clear|withdraw|why|skip)\s+(.+)", re.IGNORECASE)
_KEEP = re.compile(r"keep(?:\s+(?:it\s+)?in)?\s+(\S.*)", re.IGNORECASE)
_NAMED = re.compile(r"([A-Za-z0-9_ -]{2,40}?)\s*[=:]\s*(.+)")
_AS = {
    "go": "go",
    "goto": "go",
    "go to": "go",
    "clear": "clear",
    "withdraw": "clear",
    "why": "why",
    "skip": "skip",
}


@dataclass(frozen=True, slots=True)
class Spoken:
    """One line as it was meant."""

    word: str
    """why, skip, back, list, help, on, done, quit, clear, go, balls, keep, answer, or nothing."""
    question: str | None = None
    """The question that was named; None for the one on the screen."""
    text: str = ""
    """What was answered, or the folder to keep it in."""


def spoken(line: str, questions: Mapping[str, str]) -> Spoken:
    """Return what a line means, given the names that questions go by (see `question_names`).

    `handicap = 18` answers a question by name, whichever is on the screen. A name is taken as one only
    where it is a question's, so that `tee: 20` stays an answer.
    """
    text = one_line(line, 400)
    if not text:
        return Spoken("nothing")
    word = _WORDS.get(text.lower())
    if word is not None:
        return Spoken(word)
    named = _NAMED.fullmatch(text)
    if named and (question := questions.get(_name(named.group(1)))) is not None:
        return Spoken("answer", question, named.group(2))
    if (keep := _KEEP.fullmatch(text)) is not None:
        return Spoken("keep", None, keep.group(1))
    order = _WITH_QUESTION.fullmatch(text)
    if order is not None:
        word, name = _AS[order.group(1).lower()], _name(order.group(2))
        if word == "go" or name in questions:
            return Spoken(word, questions.get(name, name))
    return Spoken("answer", None, text)


def question_names(facts: Mapping[str, Fact]) -> dict[str, str]:
    """Return the names that questions go by, each with its question's id: the id itself and the title."""
    asked = {id: fact for id, fact in facts.items() if fact.ask is not None}
    return {_name(fact.title): id for id, fact in asked.items()} | {id: id for id in asked}


def _name(text: str) -> str:
    """Return typed text as a question's id would be written."""
    return re.sub(r"[\s-]+", "_", text.strip().lower())
