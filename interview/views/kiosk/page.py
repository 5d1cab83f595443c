"""A page of the kiosk as data: what is said, what can be pressed, and what is drawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

Shape = Literal["tiles", "keypad"]
"""Tiles as large as there is room for, or a keypad of three columns."""


@dataclass(frozen=True, slots=True)
class Tile:
    """Something to press, with a finger, the mouse or a key."""

    press: str
    """The word that pressing it stands for."""
    text: str
    key: str = ""
    """The key that presses it, as it is printed on the tile; empty where only the cursor does."""
    picture: tuple[str, ...] = ()
    """A small picture that helps to answer: a few lines of equal width."""
    marked: bool = False
    """Whether it is what was said before, or one of several chosen."""


class Bar(NamedTuple):
    """How far one club flies, beside the others."""

    name: str
    share: float
    """Its length, of the longest one's."""
    value: str
    """The distance in words."""
    new: bool = False
    """Whether it is one of the two clubs."""


@dataclass(frozen=True, slots=True)
class Page:
    """One page."""

    heading: str
    text: tuple[str, ...] = ()
    """Paragraphs below the heading."""
    tiles: tuple[Tile, ...] = ()
    """What the page is about: choices, the keypad."""
    foot: tuple[Tile, ...] = ()
    """What can always be pressed, in one row at the foot."""
    above: str = ""
    """A word or two in the top line: the topic."""
    progress: str = ""
    """How far the interview is, in the top line."""
    share: float = 0.0
    """How far it is, from 0 to 1."""
    entry: str | None = None
    """What was typed so far, where something is typed; None elsewhere."""
    notice: str = ""
    """What must be told about the last press."""
    caption: str = ""
    """What the bars below the text show."""
    bars: tuple[Bar, ...] = ()
    """Distances beside one another, to one scale."""
    shape: Shape = "tiles"
    cursor: str | None = None
    """The word of the tile that the cursor begins on; empty for none, None for the first."""
    code: str = ""
    """A ticket's code, shown large."""

    @property
    def pressable(self) -> tuple[Tile, ...]:
        """Return every tile, those at the foot last."""
        return (*self.tiles, *self.foot)

    def by_key(self, key: str) -> Tile | None:
        """Return the tile that a key presses."""
        return next((tile for tile in self.pressable if tile.key and tile.key.lower() == key.lower()), None)

    @property
    def first(self) -> str:
        """Return the word of the tile that the cursor begins on; empty where it begins on none."""
        if self.cursor is not None:
            return self.cursor
        return self.pressable[0].press if self.pressable else ""
