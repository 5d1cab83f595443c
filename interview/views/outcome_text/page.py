"""A page of plain text: headings, paragraphs, rows and ledgers, wrapped to a width, nothing said twice."""

from __future__ import annotations

from collections.abc import Iterable

from interview.broken import broken
from interview.text import one_line

_INDENT = 2
_LABEL = 9
"""Width of the label of a row."""
_NARROWEST = 24


class Page:
    """Lines of text as they are written, top to bottom."""

    def __init__(self, width: int) -> None:
        self._width = max(_NARROWEST, width)
        self._lines: list[str] = []
        self._said: set[str] = set()

    @property
    def text(self) -> str:
        """Return the page."""
        return "\n".join(self._lines).strip("\n")

    def once(self, sentence: str) -> bool:
        """Return whether a sentence is said for the first time, and remember it."""
        new = sentence not in self._said
        self._said.add(sentence)
        return new

    def heading(self, words: str) -> None:
        """Begin a part of the page."""
        self.gap()
        self._write(words, "", "")

    def gap(self) -> None:
        """Leave one line free."""
        if self._lines and self._lines[-1]:
            self._lines.append("")

    def say(self, sentence: str, indent: int = 0) -> None:
        """Write a paragraph."""
        if sentence:
            self._write(sentence, " " * indent, " " * indent)

    def point(self, sentence: str, mark: str = "-") -> None:
        """Write one item of a list."""
        first = " " * _INDENT + f"{mark} "
        self._write(sentence, first, " " * len(first))

    def row(self, label: str, words: str, wide: int = _LABEL) -> None:
        """Write a label and what belongs to it: beside it, or on a narrow page after a colon."""
        first = " " * _INDENT + f"{label:<{wide}} "
        if len(first) * 3 > self._width * 2:
            self._write(f"{label}: {words}", " " * _INDENT, " " * 2 * _INDENT)
        else:
            self._write(words, first, " " * len(first))

    def entry(self, amounts: Iterable[str], sentence: str, below: Iterable[str] = ()) -> None:
        """Write one line of a ledger: its amounts in columns, why, and what belongs below."""
        first = " " * _INDENT + "".join(f"{amount:>8}" for amount in amounts) + "  "
        blank = " " * len(first)
        self._write(sentence, first, blank)
        for more in below:
            self._write(more, blank, blank + "  ")

    def laid(self, lines: Iterable[str]) -> None:
        """Write lines that are laid out already, such as a table's."""
        self._lines += [line.rstrip() for line in lines]

    def _write(self, words: str, first: str, rest: str) -> None:
        """Wrap one paragraph; a quantity is not torn from its unit."""
        wrapped = broken(one_line(words, 2000), self._width, first, rest)
        self._lines += [line.rstrip() for line in wrapped or [first.rstrip()]]
