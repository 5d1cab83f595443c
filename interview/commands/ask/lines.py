"""Lines in and lines out: a terminal, a screen reader, a dumb terminal or a pipe."""

from __future__ import annotations

import os
import sys
from typing import TextIO

from interview.broken import broken
from interview.commands.ask.waiting import await_line
from interview.text import clean

_WIDTH, _NARROWEST = 78, 16
_LONGEST = 4096
"""Characters of one line that are read; the rest of a longer one is thrown away, not taken as an answer."""


class Lines:
    """Reads and writes plain lines. Without a terminal, what was read is echoed, so that a log reads well."""

    def __init__(self, reader: TextIO | None = None, writer: TextIO | None = None) -> None:
        self._reader = reader if reader is not None else sys.stdin
        self._writer = writer if writer is not None else sys.stdout
        self._echo = self._reader is None or not self._reader.isatty()

    def say(self, text: str = "", indent: str = "") -> None:
        """Print text, wrapped at blanks, paths left whole; nothing in it can steer the terminal."""
        for line in clean(text).split("\n"):
            inner = indent + "  " if indent else ""
            wrapped = broken(line, self.width, indent, inner, whole_paths=True)
            print("\n".join(wrapped) if wrapped else "", file=self._writer)

    @property
    def width(self) -> int:
        """Return the letters of a line: as many as a narrow terminal has, or else as read well."""
        try:
            columns = os.get_terminal_size(self._writer.fileno()).columns
        except (OSError, ValueError, AttributeError):
            return _WIDTH
        return max(_NARROWEST, min(_WIDTH, columns - 1)) if columns > 0 else _WIDTH

    def ask(self) -> str | None:
        """Return the next line, or None when there is none left."""
        print("> ", end="", file=self._writer, flush=True)
        if not self._echo:
            await_line(self._reader.fileno())
        line = self._reader.readline(_LONGEST) if self._reader is not None else ""
        if not line:
            print(file=self._writer)
            return None
        if len(line) == _LONGEST and not line.endswith("\n"):
            self._throw_away()
        text = clean(line.rstrip("\r\n"))
        if self._echo:
            print(text, file=self._writer)
        return text

    def _throw_away(self) -> None:
        """Read to the end of a line that is too long to be an answer."""
        while (rest := self._reader.readline(_LONGEST)) and not rest.endswith("\n"):
            pass
