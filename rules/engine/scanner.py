"""Where each key and value of a TOML text stands. tomllib knows the values but not their places.

The text has been read by tomllib before, so it is valid TOML; the scanner only follows it.
"""

from __future__ import annotations

import re
import tomllib
from typing import NamedTuple

Path = tuple[str | int, ...]
"""Keys and indices, from the outside in."""


class Span(NamedTuple):
    """Offsets of a key (or table header) and of its value."""

    key: int
    value: int


_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_STRING = re.compile(
    r'"""(?:\\.|[^\\])*?"""+' r"|'''.*?'''+" r'|"(?:\\.|[^"\\\n])*"' r"|'[^'\n]*'", re.DOTALL
)
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_PLAIN = re.compile(r"[^,\]}\n#]*")


class Scanner:
    """Follows one TOML text and notes where each path stands."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.spans: dict[Path, Span] = {}
        self._at = 0
        self._lengths: dict[Path, int] = {}
        """How many tables each array of tables has so far."""

    def scan(self) -> dict[Path, Span]:
        """Return the span of every path."""
        table: Path = ()
        self._skip(_BLANK)
        while self._at < len(self.text):
            if self.text[self._at] == "[":
                table = self._header()
            else:
                self._pair(table)
            self._skip(_BLANK)
        return self.spans

    def _skip(self, pattern: re.Pattern[str]) -> str:
        """Move past what matches and return it."""
        match = pattern.match(self.text, self._at)
        found = match.group() if match else ""
        self._at += len(found)
        return found

    def _header(self) -> Path:
        """Follow `[a.b]` or `[[a.b]]` and return the path of the table it opens."""
        start = self._at
        double = self.text.startswith("[[", start)
        self._at += 2 if double else 1
        path: Path = ()
        keys = self._keys()
        for depth, (key, _) in enumerate(keys):
            path = (*path, key)
            if double and depth == len(keys) - 1:
                index = self._lengths.get(path, 0)
                self.spans.setdefault(path, Span(start, start))
                self._lengths[path] = index + 1
                path = (*path, index)
            elif path in self._lengths:
                path = (*path, self._lengths[path] - 1)
            else:
                self.spans.setdefault(path, Span(start, start))
        self.spans[path] = Span(start, start)
        self._at += 2 if double else 1
        return path

    def _keys(self) -> list[tuple[str, int]]:
        """Follow a dotted key and return its parts with their offsets."""
        keys: list[tuple[str, int]] = []
        while True:
            self._skip(_SPACE)
            start = self._at
            raw = self._skip(_BARE_KEY) or self._skip(_STRING)
            keys.append((raw if raw[:1] not in ('"', "'") else _unquote(raw), start))
            self._skip(_SPACE)
            if self.text[self._at] != ".":
                return keys
            self._at += 1

    def _pair(self, table: Path) -> None:
        """Follow `key = value` inside a table."""
        path = table
        start = self._at
        for key, start in self._keys():
            path = (*path, key)
            self.spans.setdefault(path, Span(start, start))
        self._at += 1
        self._skip(_SPACE)
        self.spans[path] = Span(start, self._at)
        self._value(path)

    def _value(self, path: Path) -> None:
        """Follow a value of any sort."""
        opening = self.text[self._at]
        if opening in "\"'":
            self._skip(_STRING)
        elif opening == "[":
            self._array(path)
        elif opening == "{":
            self._inline(path)
        else:
            self._skip(_PLAIN)

    def _array(self, path: Path) -> None:
        """Follow an array, noting each element."""
        self._at += 1
        index = 0
        while True:
            self._skip(_BLANK)
            if self.text[self._at] == "]":
                self._at += 1
                return
            if self.text[self._at] == ",":
                self._at += 1
                continue
            here = (*path, index)
            self.spans[here] = Span(self._at, self._at)
            self._value(here)
            index += 1

    def _inline(self, path: Path) -> None:
        """Follow an inline table."""
        self._at += 1
        while True:
            self._skip(_BLANK)
            if self.text[self._at] == "}":
                self._at += 1
                return
            if self.text[self._at] == ",":
                self._at += 1
                continue
            self._pair(path)


def _unquote(raw: str) -> str:
    """Return what a quoted key says."""
    return next(iter(tomllib.loads(f"{raw} = 0")))
