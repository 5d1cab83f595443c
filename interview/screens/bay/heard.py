"""What a typed line means in the bay: an answer, another question's answer, a question to go to, a word.

A golfer does not talk in the order of a form. What fits the question on the screen answers it; what begins
or ends with the name of another question answers that one, or goes to it when nothing follows; a quantity
goes by its unit, and words that only one question takes, such as `slice`, need no name at all.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

from interview.conversation import answer_text, means_unknown, typed
from interview.screens.bay.clubs import owned_line, reading
from interview.screens.bay.named import find_questions, splits, turned
from interview.text import one_line
from rules.facts.answers import Answer, AnswerProblem, read_answer, write_answer
from rules.units import UnitError, unit

if TYPE_CHECKING:
    from interview.conversation import Conversation, State

Kind = Literal[
    "nothing", "answer", "unknown", "skip", "back", "go", "why", "help", "sheets", "what_if", "note", "club",
    "rest", "unclear", "unread",
]  # fmt: skip
"""What a line is for; `rest` says that nothing more is known.

`unclear` could be an answer to several questions, `unread` to none.
"""
WORDS: dict[str, Kind] = {
    "-": "skip", "skip": "skip", "pass": "skip", "back": "back", "?": "why", "why": "why", "why?": "why",
    "help": "help", "sheets": "sheets", "sheet": "sheets", "rest dk": "rest", "that is all": "rest",
    "that's all": "rest", "nothing more": "rest",
}  # fmt: skip
"""Words that are no answer; `BayScreen` leads each somewhere."""
_WHAT_IF = re.compile(r"^what if\b[\s:,]*(.*)$", re.IGNORECASE)
_NOTE = re.compile(r"^(?:name|note)\b[\s:=,]*(.+)$", re.IGNORECASE)
_UNIT = re.compile(r"\d\s*([a-z/°]+)(?:,?\s+(?:meas\w*|said|est\w*|or so|a guess))?$", re.IGNORECASE)
_FEET = re.compile(r"^\d'\s*\d")
"""Feet and inches, as nothing but a person's build is told."""
_SHORTEST = 3
"""Letters of a word that may stand for an answer without its question's name."""


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


class _Read(NamedTuple):
    """An answer as it is understood."""

    words: str
    likely: bool
    """Whether a golfer may well say so: a number within the range that is plausible for its question."""
    whole: bool
    """Whether every word was typed to its end."""


def heard(conversation: Conversation, state: State, line: str) -> Heard:
    """Return what a line means while a question is up, or while none is."""
    text, up = one_line(line, 400), state.asking or ""
    if not text:
        return Heard("nothing", up)
    if text.lower() in WORDS:
        return Heard(WORDS[text.lower()], up, words=_said_of(WORDS[text.lower()]))
    if means_unknown(text):
        return Heard("unknown", up, words="not known")
    if (ordered := _ordered(text)) is not None:
        return ordered
    if up and (read := _read(conversation, state, up, text)) is not None:
        return Heard("answer", up, text, read.words)
    return (
        _named(conversation, state, splits(text))
        or _by_unit(conversation, state, text)
        or _by_word(conversation, state, text)
        or _named(conversation, state, turned(text))
        or _misread(conversation, state, splits(text))
        or Heard("unread", up, text)
    )


def _said_of(kind: Kind) -> str:
    """Return in a word what a word does."""
    said = {"skip": "pass it over", "back": "go back", "why": "why it is asked", "help": "help"}
    said |= {"sheets": "show the sheets", "rest": "nothing that is still open is known"}
    return said.get(kind, "")


def _ordered(text: str) -> Heard | None:
    """Read a line that is no answer but an order with something after it."""
    if supposed := _WHAT_IF.match(text):
        return Heard("what_if", text=supposed[1], words="try it on a copy")
    if noted := _NOTE.match(text):
        return Heard("note", text=noted[1], words=f"whose fitting this is: {noted[1]}")
    if (club := owned_line(text)) is not None:
        return Heard("club", text=club, words=f"a club already owned: {reading(club)[0]}")
    return None


def _read(conversation: Conversation, state: State, question: str, text: str) -> _Read | None:
    """Return an answer as it is understood; None when the question cannot take it."""
    fact = conversation.base.facts[question]
    asked = conversation.wording.asked(fact, state.session.voice, state.hand)
    if means_unknown(text):
        return _Read(conversation.wording.say("interview.unknown"), likely=True, whole=True)
    try:
        answer = read_answer(fact, typed(fact, asked, text))
        again = read_answer(fact, write_answer(fact, answer))
    except AnswerProblem:
        return None
    words = answer_text(fact, asked, again, conversation.wording, state.session.units)
    return _Read(words, _is_likely(answer, fact.plausible), _is_whole(answer, text))


def _is_likely(answer: Answer, plausible: object) -> bool:
    """Return whether a number lies within what is plausible; anything else is as likely as not."""
    if isinstance(plausible, tuple) and isinstance(answer.value, float | int):
        return bool(plausible[0] <= answer.value <= plausible[1])
    return True


def _is_whole(answer: Answer, text: str) -> bool:
    """Return whether what was typed is the answer's own words, none of them cut short."""
    said = answer.value if isinstance(answer.value, Iterable) else ()
    words = {answer.value} if isinstance(answer.value, str) else set(said)
    return set(re.findall(r"[a-z]+", text.lower())) <= words


def _named(conversation: Conversation, state: State, parts: Iterable[tuple[str, str]]) -> Heard | None:
    """Read a line that holds the name of a question; of several that could be meant, the likeliest."""
    for name, rest in parts:
        found = find_questions(conversation, state, name)
        if found and not rest:
            return Heard("go", found[0], words=f"go to {conversation.base.facts[found[0]].title}")
        reads = [(question, _read(conversation, state, question, rest)) for question in found]
        taken = [(question, read) for question, read in reads if read is not None]
        if taken:
            question, read = next((one for one in taken if one[1].likely), taken[0])
            kind: Kind = "unknown" if means_unknown(rest) else "answer"
            return Heard(kind, question, rest, f"{conversation.base.facts[question].title}: {read.words}")
    return None


def _misread(conversation: Conversation, state: State, parts: Iterable[tuple[str, str]]) -> Heard | None:
    """Take a line that names a question for an answer to it, though it cannot be read: it then says why."""
    for name, rest in parts:
        found = find_questions(conversation, state, name) if rest else ()
        if found:
            return Heard("unread", found[0], rest)
    return None


def _by_unit(conversation: Conversation, state: State, text: str) -> Heard | None:
    """Read a quantity whose unit tells what it answers.

    It is the first open question that is asked in that unit and for which so much is likely, else the first
    that is asked in it, else the first that takes such a quantity at all.
    """
    symbol = _UNIT.search(text)
    try:
        own = unit("in" if _FEET.match(text) else symbol.group(1) if symbol else "")
    except UnitError:
        return None
    facts = conversation.base.facts
    alike = [id for id in state.open if facts[id].kind == "number" and facts[id].unit]
    alike = [id for id in alike if unit(facts[id].unit).dimension == own.dimension]
    reads = [(id, _read(conversation, state, id, text)) for id in alike]
    taken = [
        (unit(facts[id].unit) != own, not read.likely, id, read) for id, read in reads if read is not None
    ]
    if not taken:
        return None
    *_, question, read = min(taken, key=lambda one: one[:2])
    return Heard("answer", question, text, f"{facts[question].title}: {read.words}")


def _by_word(conversation: Conversation, state: State, text: str) -> Heard | None:
    """Read words that one question alone takes, such as `slice`, `thin heel` or `tight 30 fairway 50`.

    Words typed to their end come before words cut short, and open questions before answered ones.
    """
    words = re.findall(r"[a-z]+", text.lower())
    if not words or min(map(len, words)) < _SHORTEST:
        return None
    facts, answers = conversation.base.facts, state.session.subject.answers
    asked = [*state.open, *(id for id in answers if id not in state.open)]
    worded = [id for id in asked if facts[id].values and set(facts[id].values) != {"yes", "no"}]
    reads = [(id, _read(conversation, state, id, text)) for id in worded]
    taken = [(id, read) for id, read in reads if read is not None]
    for whole in (True, False):
        for still_open in (True, False):
            here = [one for one in taken if one[1].whole is whole and (one[0] in state.open) is still_open]
            if len(here) == 1:
                return Heard("answer", here[0][0], text, f"{facts[here[0][0]].title}: {here[0][1].words}")
            if here:
                named = " or ".join(f"'{facts[id].title} {text}'" for id, _ in here)
                return Heard("unclear", text=text, words=f"which: {named}?")
    return None
