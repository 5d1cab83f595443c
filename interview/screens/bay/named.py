"""Which questions a typed name means, and where a line parts into a name and an answer."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from interview.conversation import Conversation, State

_NAME_THEN = re.compile(r"^(.+?)\s*[=:]\s*(.+)$")
_LETTERS = re.compile(r"[a-z0-9']+")


def splits(text: str) -> Iterator[tuple[str, str]]:
    """Yield the ways in which a line may be a name and an answer: where a sign parts them, else by words."""
    match = _NAME_THEN.match(text)
    if match:
        yield match.group(1), match.group(2)
        return
    yield text, ""
    words = text.split(" ")
    for at in range(len(words) - 1, 0, -1):
        yield " ".join(words[:at]), " ".join(words[at:])


def turned(text: str) -> Iterator[tuple[str, str]]:
    """Yield the ways in which a line may be an answer and then a name, such as `18 handicap`."""
    words = text.split(" ")
    for at in range(1, len(words)):
        yield " ".join(words[at:]), " ".join(words[:at])


def find_questions(conversation: Conversation, state: State, name: str) -> tuple[str, ...]:
    """Return the questions whose name begins like what was typed, the likeliest first.

    A name that is typed in full comes before one that only begins so, an open question before the others,
    and the one that the interview would ask earlier before a later one.
    """
    wanted = _LETTERS.findall(name.lower().replace("_", " "))
    if not wanted or not any(letter.isalpha() for letter in name):
        return ()
    place = {id: at for at, id in enumerate(state.open)}
    found = []
    for at, (id, fact) in enumerate(conversation.base.facts.items()):
        if fact.ask is None:
            continue
        short = conversation.wording.short(fact).lower()
        words = _LETTERS.findall(f"{id.replace('_', ' ')} {fact.title} {short}".lower())
        if all(any(word.startswith(part) for word in words) for part in wanted):
            exact = wanted in (_LETTERS.findall(fact.title.lower()), id.split("_"), _LETTERS.findall(short))
            first = words[0].startswith(wanted[0])
            found.append((not exact, not first, id not in place, place.get(id, at), id))
    return tuple(one[-1] for one in sorted(found))


def find_question(conversation: Conversation, state: State, name: str) -> str | None:
    """Return the likeliest question whose name begins like what was typed."""
    return next(iter(find_questions(conversation, state, name)), None)
