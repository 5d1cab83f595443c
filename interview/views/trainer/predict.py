"""What a trainee expects: each decision with what he predicts, and the facts that he says drive it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Row, cells, clipped, padded, row, wrapped
from interview.views.trainer.said import headed, said

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs

_TITLE = 8
"""Cells of a decision's title."""


@dataclass(frozen=True, slots=True)
class PredictLine:
    """One decision, and what is predicted of it."""

    id: str
    """Such as `pairing` or `longer.length`."""
    title: str
    role: str
    """longer or shorter; empty for the pair."""
    predicted: str = ""
    """In words; empty while nothing is predicted."""
    facts: tuple[str, ...] = ()
    """Titles of the facts that are said to drive it."""


@dataclass(frozen=True, slots=True)
class PredictView:
    """A whole prediction, as far as it has got."""

    title: str
    lines: tuple[PredictLine, ...]

    @property
    def done(self) -> int:
        """Return how many decisions are predicted."""
        return sum(bool(line.predicted) for line in self.lines)


@dataclass(frozen=True, slots=True)
class Pickable:
    """Something that can be picked from a list."""

    id: str
    name: str
    about: str = ""
    """More about it in a few words."""
    taken: bool = False
    """Whether it is picked already."""


def predict_rows(view: PredictView, width: int, glyphs: Glyphs) -> Picture:
    """Return the decisions by club, each with what is predicted and why."""
    rows: list[Row] = []
    for role in dict.fromkeys(line.role for line in view.lines):
        lines = [line for line in view.lines if line.role == role]
        body = tuple(one for line in lines for one in _line(line, width, glyphs))
        rows += headed(said(f"predict.{role or 'pair'}"), body, width)
    return tuple(rows)


def _line(one: PredictLine, width: int, glyphs: Glyphs) -> Picture:
    """Return one decision: its sign, title and prediction, and the facts that are named for it."""
    title = min(_TITLE, max(4, width // 2))
    sign = (glyphs.known, "pick") if one.predicted else (glyphs.open, "dim")
    room = max(1, width - title - 3)
    shown = clipped(one.predicted, room) if one.predicted else said("predict.nothing")
    lead = (Ink(f"{sign[0]} ", sign[1]), Ink(padded(one.title, title), "plain"), " ")  # type: ignore[arg-type]
    head = row(*lead, Ink(clipped(shown, room), "strong" if one.predicted else "dim"), target=one.id)
    if not one.facts:
        return (head,)
    text = said("predict.because", facts=", ".join(one.facts))
    return (head, *(row("    ", *more.inks, target=one.id) for more in wrapped(text, width - 4, "ghost")))


def options_rows(options: tuple[Pickable, ...], width: int, glyphs: Glyphs) -> Picture:
    """Return what can be picked, one row each; what is picked already has a sign."""
    if not options:
        return wrapped(said("predict.no_option"), width, "dim")
    return tuple(_option(one, width, glyphs) for one in options)


def _option(one: Pickable, width: int, glyphs: Glyphs) -> Row:
    """Return one thing that can be picked."""
    sign = Ink(f"{glyphs.yes if one.taken else ' '} ", "pick")
    room = max(4, width - 2 - cells(one.about) - 1) if one.about and width >= 40 else width - 2
    about = one.about if one.about and width >= 40 else ""
    name = Ink(
        padded(one.name, room) if about else clipped(one.name, room), "strong" if one.taken else "plain"
    )
    return row(sign, name, Ink(f" {about}" if about else "", "dim"), target=one.id)


def narrowed(options: tuple[Pickable, ...], typed: str) -> tuple[Pickable, ...]:
    """Return the options in whose words every typed word begins one; those picked already come first."""
    wanted = _split(typed)
    found = [
        one for one in options if all(any(word.startswith(part) for word in _words(one)) for part in wanted)
    ]
    return tuple(sorted(found, key=lambda one: not one.taken)) if not wanted else tuple(found)


def _words(one: Pickable) -> list[str]:
    """Return the words that an option is found by."""
    return _split(f"{one.name} {one.about} {one.id}")


def _split(text: str) -> list[str]:
    """Return the words of a text, whatever joins them."""
    return text.casefold().replace("-", " ").replace("+", " ").split()
