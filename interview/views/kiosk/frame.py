"""A page on its way to a browser, and what a browser may say: one line of JSON each, and nothing else.

What a browser says is judged here before anything hears of it: a key out of a short list, the word of a
tile on the very page that it was shown, a size, or that somebody touched something.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from interview.views.kiosk.page import Page
    from interview.views.kiosk.paint import Painted

LONGEST = 256
"""Characters of one thing that a browser says."""
WIDEST = 300
"""Cells that a browser may be wide or high."""
_KEYS = {
    "ArrowUp": "up", "ArrowDown": "down", "ArrowLeft": "left", "ArrowRight": "right", "Enter": "enter",
    " ": "space", "Escape": "escape", "Tab": "tab", "Shift+Tab": "shift+tab", "PageUp": "pageup",
    "PageDown": "pagedown", "Backspace": "backspace", "Delete": "delete", ".": "full_stop", ",": "full_stop",
    "+": "plus",
}  # fmt: skip
"""Keys that a page has a use for, by their names in a browser; beside them, letters and digits."""


class Heard(NamedTuple):
    """What a browser said."""

    key: str = ""
    """A key, by the name it has on the screen of a terminal."""
    press: str = ""
    """The word of a tile."""
    page: int = -1
    """The number of the page that the tile was on."""
    size: tuple[int, int] | None = None
    """Cells that the browser is wide and high."""


def frame(number: int, page: Page, painted: Painted, cursor: str, at: int) -> str:
    """Return a page as one line: its rows, its tiles with their places, and how far it is scrolled."""
    tiles = {tile.press: tile for tile in page.pressable}
    shown: dict[str, Any] = {
        "page": number,
        "at": at,
        "rows": [[[ink.role, ink.text] for ink in row.inks] for row in painted.rows],
        "tiles": [
            [*spot, tiles[spot.press].text, spot.press == cursor, tiles[spot.press].marked]
            for spot in painted.spots
        ],
    }
    return json.dumps(shown, separators=(",", ":"))


def heard(line: str) -> Heard | None:
    """Return what a browser said; None when it is nothing that a browser has to say.

    `Heard()` alone tells that somebody touched the page.
    """
    try:
        said = json.loads(line) if len(line) <= LONGEST else None
    except (ValueError, RecursionError):
        return None
    if not isinstance(said, dict):
        return None
    key, press, page = said.get("key"), said.get("press"), said.get("page")
    if isinstance(key, str):
        name = _key(key)
        return Heard(key=name) if name else None
    if isinstance(press, str) and type(page) is int:
        return Heard(press=press, page=page)
    if "size" in said:
        size = _size(said["size"])
        return Heard(size=size) if size else None
    return Heard() if "touched" in said else None


def _key(name: str) -> str:
    """Return the name of a key on a terminal; empty where a page has no use for it."""
    if len(name) == 1 and name.isascii() and name.isalnum():
        return name
    return _KEYS.get(name, "")


def _size(said: object) -> tuple[int, int] | None:
    """Return a size of one cell or more; None for what is none."""
    if not isinstance(said, list) or len(said) != 2 or any(type(one) is not int for one in said):
        return None
    wide, high = (max(1, min(WIDEST, one)) for one in said)
    return wide, high
