"""Ink: what a picture is made of. Rows of text in roles, for any width, in full signs or in seven bits.

A role says what a piece of text is, never how it is coloured; whoever shows it gives roles their looks.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple
from unicodedata import combining, east_asian_width

from interview.broken import broken
from interview.text import clean

Role = Literal[
    "plain", "strong", "dim", "head", "pick", "for", "against", "mark", "alert", "rule", "key", "ghost"
]  # fmt: skip
"""Ordinary words; words that matter most; words beside them; a heading; what was picked; what speaks for it
and against it; a mark in a picture; what a person must see; lines and frames; a key to press; what was said
or done by a person and is only hinted at."""


class Ink(NamedTuple):
    """A piece of text in one role."""

    text: str
    role: Role = "plain"
    target: str = ""
    """What clicking this piece stands for, where that is another thing than its row's; else empty."""


class Row(NamedTuple):
    """One row of a picture."""

    inks: tuple[Ink, ...] = ()
    target: str = ""
    """What choosing this row stands for; empty where there is nothing to choose."""


Picture = tuple[Row, ...]
"""A picture: its rows, from the top."""
Piece = str | Ink
"""What a row is put together from."""


def cells(text: str) -> int:
    """Return how many cells of a terminal a text takes up."""
    if text.isascii():
        return len(text)
    return sum(0 if combining(c) else 2 if east_asian_width(c) in "WF" else 1 for c in text)


def safe(text: str) -> str:
    """Return a text on one line with nothing in it that could steer a terminal."""
    return text if text.isprintable() else clean(text).replace("\n", " ").replace("\t", " ")


def row(*pieces: Piece, target: str = "") -> Row:
    """Put pieces together to a row."""
    inks = (piece if isinstance(piece, Ink) else Ink(piece) for piece in pieces)
    return Row(tuple(ink._replace(text=safe(ink.text)) for ink in inks if ink.text), target)


def width_of(one: Row) -> int:
    """Return how many cells a row takes up."""
    return sum(cells(ink.text) for ink in one.inks)


def clipped(text: str, width: int, more: str = "…") -> str:
    """Return a text in no more than so many cells, with a sign that it goes on."""
    if cells(text) <= width:
        return text
    if width <= cells(more):
        return more[:width] if width > 0 else ""
    return f"{_first(text, width - cells(more)).rstrip()}{more}"


def _first(text: str, width: int) -> str:
    """Return as much of a text as so many cells hold."""
    if text.isascii():
        return text[:width]
    taken, used = [], 0
    for letter in text:
        used += cells(letter)
        if used > width:
            break
        taken.append(letter)
    return "".join(taken)


def padded(text: str, width: int, *, right: bool = False) -> str:
    """Return a text in exactly so many cells: cut, or filled up with blanks (on its left, where `right`)."""
    cut = clipped(text, width)
    blanks = " " * (width - cells(cut))
    return blanks + cut if right else cut + blanks


def fitted(one: Row, width: int) -> Row:
    """Return a row in exactly so many cells."""
    inks, left = [], width
    for ink in one.inks:
        text = ink.text if cells(ink.text) <= left else clipped(ink.text, left)
        if text:
            inks.append(ink._replace(text=text))
        left -= cells(text)
        if text is not ink.text:
            break
    if left > 0:
        inks.append(Ink(" " * left))
    return Row(tuple(inks), one.target)


def wrapped(text: str, width: int, role: Role = "plain", *, indent: str = "", target: str = "") -> Picture:
    """Return a text as rows broken at blanks, not within a quantity; rows after the first stand indented."""
    lines = broken(safe(text), width, rest=indent if width > 12 else "")
    return tuple(row(Ink(line, role), target=target) for line in lines)


def between(left: Sequence[Piece], right: Sequence[Piece], width: int, *, target: str = "") -> Row:
    """Return a row with something at its left end and something at its right; the right one stays whole."""
    start, end = row(*left), row(*right)
    room = width - width_of(end)
    if room <= 0:
        return Row(fitted(end, width).inks, target)
    return Row(fitted(start, room).inks + end.inks, target)


def beside(pictures: Sequence[tuple[Picture, int]], gap: Piece = " ") -> Picture:
    """Return pictures beside one another, each in its own width, as high as the highest."""
    height = max((len(picture) for picture, _ in pictures), default=0)
    return tuple(_line(pictures, gap, at) for at in range(height))


def _line(pictures: Sequence[tuple[Picture, int]], gap: Piece, at: int) -> Row:
    """Return one row of several pictures beside one another."""
    inks: list[Ink] = []
    target = ""
    for number, (picture, width) in enumerate(pictures):
        if number:
            inks.append(gap if isinstance(gap, Ink) else Ink(gap))
        one = picture[at] if at < len(picture) else Row()
        inks += fitted(one, width).inks
        target = target or one.target
    return Row(tuple(inks), target)


def legend(pairs: Iterable[tuple[str, str]], width: int) -> Picture:
    """Return signs with what they mean, in as many rows as they take."""
    rows: list[list[Ink]] = [[]]
    for sign, meaning in pairs:
        used = sum(cells(ink.text) for ink in rows[-1])
        if rows[-1] and used + cells(sign) + cells(meaning) + 4 > width:
            rows.append([])
        rows[-1] += [Ink(f"{sign} ", "strong"), Ink(f"{meaning}   ", "dim")]
    return tuple(Row(tuple(inks)) for inks in rows)


def plain(picture: Iterable[Row]) -> str:
    """Return a picture as plain text, without blanks at the ends of its lines."""
    return "\n".join("".join(ink.text for ink in one.inks).rstrip() for one in picture)


def target_at(one: Row, cell: int) -> str:
    """Return what clicking a cell of a row stands for: its piece's target, else the row's."""
    for ink in one.inks:
        cell -= cells(ink.text)
        if cell < 0:
            return ink.target or one.target
    return one.target


def targets(picture: Iterable[Row]) -> Iterator[tuple[int, str]]:
    """Yield the rows that can be chosen, each once: the first row of every target, with its place."""
    seen = set()
    for at, one in enumerate(picture):
        if one.target and one.target not in seen:
            seen.add(one.target)
            yield at, one.target
