"""The wording: every sentence of the interview in three voices, read strictly from `en*.toml`.

A text's braces hold names only. {left} and {right} are mirrored for a left-hander; {unit} is the unit a
bare number takes; whatever else a phrase names is handed over when it is said.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from interview.text import one_line
from rules.problems import Problem

if TYPE_CHECKING:
    from rules.engine.language import Fact

Voice = Literal["fitter", "customer", "trainer"]
Hand = Literal["right", "left"]

_BRACES = re.compile(r"\{([a-z_]+)\}")
_SENTENCES = ("customer", "fitter", "trainer", "why")
_IN_QUESTIONS = frozenset(("left", "right", "unit"))
_SIDES: Mapping[Hand, Mapping[str, str]] = {
    "right": {"left": "left", "right": "right"},
    "left": {"left": "right", "right": "left"},
}


class WordingProblem(Problem):
    """A sentence that is missing or malformed in the wording, by its key."""

    def __init__(self, key: str, message: str) -> None:
        self.key = key
        super().__init__(f"wording: {key}: {message}")


@dataclass(frozen=True, slots=True)
class Label:
    """One choice of a question: its word in the session file and how it reads."""

    word: str
    text: str


@dataclass(frozen=True, slots=True)
class Asked:
    """A question as one person sees it."""

    id: str
    text: str
    """The question itself."""
    hint: str
    """How to answer it; may be empty for a choice."""
    why: str
    """Why it is asked, in plain words."""
    teaches: str
    """Why it is asked, for the trainer."""
    choices: tuple[Label, ...]
    """The choices in order; empty for a number."""

    def label(self, word: str) -> str:
        """Return how a choice reads; the word itself when it has no label."""
        return next((c.text for c in self.choices if c.word == word), word.replace("_", " "))


@dataclass(frozen=True, slots=True)
class Words:
    """All the wording of one language."""

    questions: Mapping[str, Mapping[str, Any]]
    topics: Mapping[str, Any]
    units: Mapping[str, str]
    phrases: Mapping[str, Any]

    def asked(self, fact: Fact, voice: Voice, hand: Hand = "right") -> Asked:
        """Return a question in a voice, mirrored for the hand.

        The trainer reads the fitter's question. A question that a shop has added and that has no wording
        is asked by its title.
        """
        row = self.questions.get(fact.id, {})
        place = {**_SIDES[hand], "unit": self.unit(fact.unit)}
        column = 0 if voice == "customer" else 1
        texts = {key: fill(str(row.get(key, "")), place) for key in (*_SENTENCES, "hint")}
        labels = row.get("choices", {})
        return Asked(
            id=fact.id,
            text=texts["customer" if voice == "customer" else "fitter"] or f"{_upper(fact.title)}?",
            hint=texts["hint"],
            why=texts["why"] or fact.text,
            teaches=texts["trainer"] or fact.text,
            choices=tuple(
                Label(v, fill(labels[v][column], place) if v in labels else v.replace("_", " "))
                for v in fact.values
            ),
        )

    def short(self, fact: Fact) -> str:
        """Return a question's name in few letters, for a list; its title where it has no shorter one."""
        return str(self.questions.get(fact.id, {}).get("short") or _upper(fact.title))

    def share(self, question: str, part: str) -> str:
        """Return what the trade calls one part of a question that is answered in shares."""
        labels = self.questions.get(question, {}).get("choices", {})
        return str(labels[part][1]) if part in labels else part.replace("_", " ")

    def topic(self, topic: str, voice: Voice = "fitter") -> str:
        """Return the name of a topic; one that a shop has added keeps its own."""
        return _in_voice(self.topics.get(topic, _upper(topic.replace("_", " "))), voice)

    def unit(self, symbol: str) -> str:
        """Return a unit as it is spoken, such as `miles an hour`."""
        return self.units.get(symbol, symbol)

    def say(self, key: str, voice: Voice = "fitter", **values: object) -> str:
        """Return a phrase by its dotted key with its braces filled; WordingProblem when there is none."""
        found: Any = self.phrases
        for part in key.split("."):
            found = found.get(part) if isinstance(found, Mapping) else None
        if not isinstance(found, str) and not (isinstance(found, Mapping) and "fitter" in found):
            raise WordingProblem(key, "there is no such phrase")
        return fill(_in_voice(found, voice), {name: str(value) for name, value in values.items()})


def _upper(text: str) -> str:
    """Begin a text with a capital and leave the rest alone."""
    return text[:1].upper() + text[1:]


def _in_voice(found: Any, voice: Voice) -> str:
    """Return a phrase for a voice: one text for all, or one each with the fitter's also the trainer's."""
    if isinstance(found, str):
        return found
    return str(found.get(voice) or found["fitter"])


def fill(text: str, values: Mapping[str, str]) -> str:
    """Put values in the place of names in braces. Nothing else in a text is ever interpreted.

    Raises WordingProblem for a name that was not handed over.
    """

    def value(match: re.Match[str]) -> str:
        if match.group(1) not in values:
            raise WordingProblem(one_line(text, 60), f"nothing was given for {{{match.group(1)}}}")
        return values[match.group(1)]

    return _BRACES.sub(value, text)


@cache
def words(language: str = "en") -> Words:
    """Return the wording of a language, read once; WordingProblem when something is missing."""
    folder = Path(__file__).parent
    merged: dict[str, dict[str, Any]] = {"question": {}, "topic": {}, "unit": {}, "say": {}}
    for file in sorted(folder.glob(f"{language}*.toml")):
        for section, rows in tomllib.loads(file.read_text(encoding="utf-8")).items():
            if section not in merged:
                raise WordingProblem(section, f"this section of {file.name} is not known")
            for key, row in rows.items():
                if key in merged[section]:
                    raise WordingProblem(f"{section}.{key}", f"{file.name} words it a second time")
                merged[section][key] = row
    for fault in _question_faults(merged["question"]):
        raise fault
    return Words(merged["question"], merged["topic"], merged["unit"], merged["say"])


def _question_faults(questions: Mapping[str, Any]) -> Iterator[WordingProblem]:
    """Find questions without one of their sentences, with unknown keys or unknown braces."""
    for id, row in questions.items():
        for key in _SENTENCES:
            if not str(row.get(key, "")).strip():
                yield WordingProblem(f"question.{id}", f"the sentence '{key}' is missing")
        for key in row:
            if key not in (*_SENTENCES, "hint", "choices", "short"):
                yield WordingProblem(f"question.{id}", f"'{key}' is not known here")
        labels = row.get("choices", {})
        if any(not isinstance(pair, list) or len(pair) != 2 for pair in labels.values()):
            yield WordingProblem(
                f"question.{id}.choices", "each choice has two labels, customer's and fitter's"
            )
        texts = [str(row.get(key, "")) for key in (*_SENTENCES, "hint")]
        texts += [label for pair in labels.values() for label in pair]
        for name in {name for text in texts for name in _BRACES.findall(text)} - _IN_QUESTIONS:
            yield WordingProblem(f"question.{id}", f"{{{name}}} cannot stand in a question")
