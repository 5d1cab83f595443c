"""From what a person types to what an answer is read from: numbers of choices, labels, `about 85`.

People leave commas out and cut words short: `thin heel`, `tight 30 fairway 50`, `85 meas` are read too.

Nothing here judges an answer; `rules.facts.answers` does, and words what is wrong with it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from interview.text import one_line
from rules.facts.answers import AnswerProblem, match_word

if TYPE_CHECKING:
    from interview.wording.words import Asked
    from rules.engine.language import Fact

_UNKNOWN = frozenset(
    (
        "dk", "idk", "dunno", "unknown", "unsure", "not sure", "no idea", "do not know", "dont know",
        "i do not know", "i dont know", "i am not sure", "im not sure", "i have no idea", "no clue",
    )
)  # fmt: skip
"""Ways to say "I don't know", without apostrophes."""
_ABOUT = re.compile(
    r"^(?:~|about |around |roughly |approximately |approx\.? |maybe |perhaps )\s*", re.IGNORECASE
)
_HOW = re.compile(
    r"[\s,(]+(meas(?:ured)?\.?|said|est(?:imated)?\.?|guessed|a guess|guess|or so|or thereabouts)\)?$",
    re.IGNORECASE,
)
_LETTERS = re.compile(r"[a-z0-9']+")
_PARTS = re.compile(r"\s*(?:[,;/&]|\band\b|\bplus\b)\s*", re.IGNORECASE)
_SHARE_AFTER = re.compile(r"^(.*?)\s*[:=]?\s*(\d+(?:\.\d+)?)\s*%?$")
_SHARE_BEFORE = re.compile(r"^(\d+(?:\.\d+)?)\s*%?\s+(?:of\s+)?(\D.*)$")
_PLAIN_YES = frozenset(("yes", "y", "yeah", "yep", "yup"))
_PLAIN_NO = frozenset(("no", "n", "nope", "nah"))


def means_unknown(text: str) -> bool:
    """Return whether typed text says "I don't know"."""
    plain = re.sub(r"['’]", "", one_line(text).lower()).strip(" .!,")
    return plain in _UNKNOWN


def typed(fact: Fact, asked: Asked, text: str) -> object:
    """Return typed text as something that `read_answer` reads.

    A number may say how it is known (`85 mph measured`, `about 85`); choices may be given by their number
    in the list, their word or their label; sets and shares as several of these, shares with numbers.
    AnswerProblem when shares are given to some of several things and not to the others.
    """
    line = one_line(text, 400)
    if fact.kind == "number":
        return _number(line)
    if fact.kind == "choice":
        return choice_word(asked, line) or line
    if fact.kind == "set":
        return [word for part in _listed(line) for word in _choices(asked, part)] or line
    return _shares(fact, asked, line)


def _number(line: str) -> object:
    """Split off how a number is known, where that is said."""
    about = _ABOUT.match(line)
    if about:
        return {"value": line[about.end() :], "how": "estimated"}
    how = _HOW.search(line)
    if how:
        return {"value": line[: how.start()], "how": _how(how.group(1).lower())}
    return line


def _how(word: str) -> str:
    """Return how a number is known, from the word that says so."""
    return "measured" if word.startswith("meas") else "said" if word == "said" else "estimated"


def _listed(line: str) -> list[str]:
    """Split a list of things; numbers of choices may stand with blanks alone between them."""
    if re.fullmatch(r"[\d\s]+", line):
        return line.split()
    return [part for part in _PARTS.split(line) if part]


def _choices(asked: Asked, part: str) -> list[str]:
    """Return the choices that a part means: one, or several with blanks alone between them."""
    words = part.split()
    for end in range(len(words), 0, -1):
        word = choice_word(asked, " ".join(words[:end]))
        if word is not None:
            return [word, *_choices(asked, " ".join(words[end:]))]
    return [part] if part else []


def choice_word(asked: Asked, text: str) -> str | None:
    """Return the choice that typed text means: its number, its word, or enough of its label; else None."""
    plain = text.strip().rstrip(".").lower()
    if plain.isascii() and plain.isdigit():
        number = int(plain[:6])
        return asked.choices[number - 1].word if 1 <= number <= len(asked.choices) else None
    words = tuple(choice.word for choice in asked.choices)
    first = _LETTERS.findall(plain)[:1]
    if set(words) == {"yes", "no"} and first and first[0] in _PLAIN_YES | _PLAIN_NO:
        return "yes" if first[0] in _PLAIN_YES else "no"
    return match_word(plain, words) or _by_label(asked, plain)


def _by_label(asked: Asked, plain: str) -> str | None:
    """Find the one choice whose label holds every typed word, beginnings allowed."""
    wanted = _LETTERS.findall(plain)
    exact = [c.word for c in asked.choices if _LETTERS.findall(c.text.lower()) == wanted]
    found = exact or [c.word for c in asked.choices if wanted and _holds(c.text, wanted)]
    return found[0] if len(found) == 1 else None


def _holds(label: str, wanted: Sequence[str]) -> bool:
    has = _LETTERS.findall(label.lower())
    return all(any(word.startswith(part) for word in has) for part in wanted)


def _shares(fact: Fact, asked: Asked, line: str) -> object:
    """Read shares: word and number, number and word, words alone that share evenly, or numbers in order."""
    if (ordered := _in_order(asked, line)) is not None:
        return ordered
    shares: dict[str, float] = {}
    bare = 0
    for part in _listed(_parted(line)):
        for name, number in _share(asked, part):
            bare += number is None
            shares[name] = shares.get(name, 0.0) + (1.0 if number is None else number)
    if bare and bare < len(shares):
        raise AnswerProblem(fact.id, f"{fact.title}: give every one of them a share, or none of them")
    return shares or line


def _in_order(asked: Asked, line: str) -> dict[str, float] | None:
    """Read numbers alone, `30 50 20`, as the shares of the choices in their order; the rest have none.

    They are shares as soon as one of them is larger than there are choices; else they number the choices.
    """
    numbers = re.split(r"[\s,/%]+", line.strip(" %"))
    if len(numbers) < 2 or not all(one.isascii() and one.isdigit() and len(one) < 4 for one in numbers):
        return None
    shares = [float(one) for one in numbers]
    if max(shares) <= len(asked.choices) or len(shares) > len(asked.choices):
        return None
    return {choice.word: share for choice, share in zip(asked.choices, shares, strict=False) if share}


def _parted(line: str) -> str:
    """Put the commas that were left out between words and their numbers: `tight 30 fairway 50`."""
    if re.search(r"[,;/&]", line):
        return line
    if re.match(r"\d+(?:\.\d+)?\s*%?\s+\D", line):
        return re.sub(r"(?<=[a-z])\s+(?=\d+(?:\.\d+)?\s*%?\s)", ", ", line, flags=re.IGNORECASE)
    return re.sub(r"(?<=\s)(\d+(?:\.\d+)?\s?%?)\s+(?=[a-z])", r"\1, ", line, flags=re.IGNORECASE)


def _share(asked: Asked, part: str) -> list[tuple[str, float | None]]:
    """Split one part into the choice it means and its number, or into several without a number."""
    whole = choice_word(asked, part)
    if whole is not None:
        return [(whole, None)]
    for pattern, name_at in ((_SHARE_AFTER, 1), (_SHARE_BEFORE, 2)):
        match = pattern.match(part)
        if match and match.group(name_at).strip():
            name = match.group(name_at)
            return [(choice_word(asked, name) or name, float(match.group(3 - name_at)))]
    return [(word, None) for word in _choices(asked, part)]
