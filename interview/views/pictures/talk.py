"""The talk: what was said, row by row, and the question that is up."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Role, Row, cells, clipped, padded, row, wrapped
from interview.views.pictures.topics import sign

if TYPE_CHECKING:
    from interview.views.bay.talk import AskView, QuestionView, TalkView
    from interview.views.pictures.glyphs import Glyphs

_BEGIN = (
    "Type as the golfer talks, in any order:",
    "an answer, a number of a choice, or the name of any question with its answer, such as 'tempo smooth'.",
    "Units as people say them: 92 mph, 5'11\", about 180.",
)
"""What stands where the talk will be, before anything was said."""


def said_rows(talk: TalkView, width: int, glyphs: Glyphs) -> Picture:
    """Return what was said so far, the last at the bottom; choosing a row goes back to its question."""
    if not talk.said:
        return tuple(one for text in _BEGIN for one in wrapped(text, width, "ghost"))
    longest = max(cells(one.short or one.title) for one in talk.said)
    name = max(4, min(longest, 30, width // 2 - 1))
    return tuple(each for one in talk.said for each in _said(one, name, width, glyphs))


def _said(one: QuestionView, name: int, width: int, glyphs: Glyphs) -> Iterator[Row]:
    """Yield the rows of one answer: what does not fit beside its question's name goes on below it."""
    role: Role = "dim" if one.standing == "dormant" else "strong"
    title = padded(one.short or one.title, name)
    room = max(1, width - name - 3)
    first, *below = _broken(one.said, room, max(1, width - 4))
    lead = (Ink(f"{sign(one, glyphs)} ", "dim"), Ink(title, "dim"), Ink(" "))
    yield row(*lead, Ink(clipped(first, room), role), target=one.id)
    for more in below:
        yield row("    ", Ink(clipped(more, max(1, width - 4)), role), target=one.id)


def _broken(said: str, room: int, below: int) -> list[str]:
    """Break what was said into a first row of so many cells and further ones, between its parts."""
    if cells(said) <= room or room <= 8:
        return [said]
    lines, wide = [""], room
    for part in said.split("; "):
        joined = f"{lines[-1]}; {part}" if lines[-1] else part
        if cells(joined) < wide or (not lines[-1] and len(lines) > 1):
            lines[-1] = joined
        else:
            lines[-1] += ";" if lines[-1] else ""
            lines.append(part)
            wide = below
    return lines


def ask_rows(talk: TalkView, width: int, glyphs: Glyphs) -> Picture:
    """Return the question that is up, or what is said when none is."""
    if talk.ask is not None:
        return asked_rows(talk.ask, width)
    rows = wrapped(talk.ending, width, "strong")
    return (*rows, *wrapped(talk.firm, width, "plain"), *wrapped(talk.next, width, "dim"))


def asked_rows(ask: AskView, width: int) -> Picture:
    """Return one question: its topic, its words, its choices numbered, and how to answer."""
    rows = [row(Ink(clipped(ask.topic.upper(), width), "head"))]
    rows += wrapped(ask.text, width, "strong")
    rows += _choices(ask.choices, width)
    if ask.hint:
        rows += wrapped(ask.hint, width, "dim")
    if ask.said:
        rows += wrapped(f"So far: {ask.said}", width, "plain")
    if ask.note:
        rows += wrapped(ask.note, width, "dim")
    return tuple(rows)


def _choices(choices: tuple[str, ...], width: int) -> list[Row]:
    """Return the choices with their numbers, in as many columns as they fit into."""
    if not choices:
        return []
    longest = max(cells(choice) for choice in choices) + 4
    columns = 1 if len(choices) < 4 else max(1, min(3, width // longest))
    high = -(-len(choices) // columns)
    rows = []
    for at in range(high):
        pieces: list[Ink | str] = []
        for number in range(at, len(choices), high):
            room = width // columns
            key, name = str(number + 1), padded(choices[number], max(1, room - 4))
            pieces += [Ink(f"{key:>2} ", "key", key), Ink(name, "plain", key), " "]
        rows.append(row(*pieces))
    return rows
