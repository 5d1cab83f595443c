"""What a typed line means in the bay: an answer, another question's answer, a question to go to, a word.

A golfer does not talk in the order of a form. What fits the question on the screen answers it; what begins
with the name of another question answers that one, or goes to it when nothing follows.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from interview.conversation import means_unknown, typed
from interview.text import one_line
from rules.facts.answers import AnswerProblem, read_answer, write_answer
from rules.units import UnitError, unit

if TYPE_CHECKING:
    from interview.conversation import Conversation, State

Kind = Literal[
    "nothing", "answer", "unknown", "skip", "back", "go", "why", "help", "sheets", "what_if", "unread"
]  # fmt: skip
"""What a line is for."""
_WORDS: dict[str, Kind] = {
    "-": "skip", "skip": "skip", "pass": "skip", "back": "back", "?": "why", "why": "why", "why?": "why",
    "help": "help", "sheets": "sheets", "sheet": "sheets",
}  # fmt: skip
_WHAT_IF = re.compile(r"^what if\b[\s:,]*(.*)$", re.IGNORECASE)
_NAME_THEN = re.compile(r"^(.+?)\s*[=:]\s*(.+)$")
_UNIT = re.compile(r"\d\s*([a-z/°]+)(?:,?\s+(?:measured|said|estimated|or so|a guess))?$", re.IGNORECASE)
_LETTERS = re.compile(r"[a-z0-9']+")


@dataclass(frozen=True, slots=True)
class Heard:
    """One line as it was meant."""

    kind: Kind
    question: str = ""
    """The question it is about; empty where it is about none."""
    text: str = ""
    """What was answered, as typed."""
    words: str = ""
    """What will be done when it is entered, for the person to see before."""


def heard(conversation: Conversation, state: State, line: str) -> Heard:
    """Return what a line means while a question is up, or while none is."""
    text, up = one_line(line, 400), state.asking or ""
    if not text:
        return Heard("nothing", up)
    if text.lower() in _WORDS:
        return Heard(_WORDS[text.lower()], up, words=_said_of(_WORDS[text.lower()]))
    if means_unknown(text):
        return Heard("unknown", up, words="not known")
    if supposed := _WHAT_IF.match(text):
        return Heard("what_if", text=supposed[1], words="try it on a copy")
    if up and (reads := _reads(conversation, state, up, text)) is not None:
        return Heard("answer", up, text, reads)
    return (
        _named(conversation, state, text) or _by_unit(conversation, state, text) or Heard("unread", up, text)
    )


def _said_of(kind: Kind) -> str:
    """Return in a word what a word does."""
    said = {"skip": "pass it over", "back": "go back", "why": "why it is asked", "help": "help"}
    return {**said, "sheets": "show the sheets"}.get(kind, "")


def _reads(conversation: Conversation, state: State, question: str, text: str) -> str | None:
    """Return an answer as it is understood; None when the question cannot take it."""
    from interview.conversation import answer_text

    fact = conversation.base.facts[question]
    asked = conversation.wording.asked(fact, state.session.voice, state.hand)
    if means_unknown(text):
        return conversation.wording.say("interview.unknown")
    try:
        answer = read_answer(fact, typed(fact, asked, text))
        again = read_answer(fact, write_answer(fact, answer))
    except AnswerProblem:
        return None
    return answer_text(fact, asked, again, conversation.wording, state.session.units)


def _named(conversation: Conversation, state: State, text: str) -> Heard | None:
    """Read a line that begins with the name of a question."""
    for name, rest in _splits(text):
        question = find_question(conversation, state, name)
        if question is None:
            continue
        title = conversation.base.facts[question].title
        if not rest:
            return Heard("go", question, words=f"go to {title}")
        reads = _reads(conversation, state, question, rest)
        if reads is not None:
            kind: Kind = "unknown" if means_unknown(rest) else "answer"
            return Heard(kind, question, rest, f"{title}: {reads}")
    return None


def _by_unit(conversation: Conversation, state: State, text: str) -> Heard | None:
    """Read a quantity whose unit tells what it answers: the first open question of its kind."""
    symbol = _UNIT.search(text)
    if symbol is None:
        return None
    try:
        dimension = unit(symbol.group(1)).dimension
    except UnitError:
        return None
    for question in state.open:
        fact = conversation.base.facts[question]
        if fact.kind == "number" and fact.unit and unit(fact.unit).dimension == dimension:
            reads = _reads(conversation, state, question, text)
            if reads is not None:
                return Heard("answer", question, text, f"{fact.title}: {reads}")
    return None


def _splits(text: str) -> Iterator[tuple[str, str]]:
    """Yield the ways in which a line may be a name and an answer: where a sign parts them, else by words."""
    match = _NAME_THEN.match(text)
    if match:
        yield match.group(1), match.group(2)
        return
    yield text, ""
    words = text.split(" ")
    for at in range(len(words) - 1, 0, -1):
        yield " ".join(words[:at]), " ".join(words[at:])


def find_question(conversation: Conversation, state: State, name: str) -> str | None:
    """Return the question whose name begins like what was typed, open ones before the others."""
    wanted = _LETTERS.findall(name.lower().replace("_", " "))
    if not wanted or not any(letter.isalpha() for letter in name):
        return None
    open_ones = state.open
    found = []
    for id, fact in conversation.base.facts.items():
        if fact.ask is None:
            continue
        words = _LETTERS.findall(f"{id.replace('_', ' ')} {fact.title}".lower())
        if not all(any(word.startswith(part) for word in words) for part in wanted):
            continue
        exact = wanted in (_LETTERS.findall(fact.title.lower()), id.split("_"))
        first = words[0].startswith(wanted[0])
        found.append((not exact, not first, id not in open_ones, len(words), id))
    return min(found)[-1] if found else None
