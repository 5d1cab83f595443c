"""Where a line may break: at blanks, but never inside a quantity, a date, a count of pieces or a box."""

from __future__ import annotations

import re
import textwrap

_GLUE = "\N{NO-BREAK SPACE}"
"""Stands for a blank at which a line must not break: textwrap breaks at ASCII blanks alone."""
_UNITS = (
    "deg|degrees?|degF|degC|in|inch|inches|ft|feet|yd|yards?|mph|km/h|m/s|mm|cm|m|g|grams?|h|rpm|points?"
    r"|oz\*in|g\*cm2|kg\*cm2"
)
_MONTHS = "January|February|March|April|May|June|July|August|September|October|November|December"
_TIED = re.compile(
    rf"(?<=\d) (?=(?:{_UNITS})(?![\w'])|%|\d+/\d)"  # 42 1/4 in, 31 mm, 20 %
    r"|(?<=\d) (?=x \d)|(?<=\d x) (?=\d)"  # 2 x 1 g
    rf"|(?<=\d) (?=(?:{_MONTHS})\b)|(?<=Rule) (?=\d)"  # 25 December, Rule 4.1a
    r"|(?<=\[) (?=\])"  # [ ]
)
_PATH = re.compile(r"[/\\]")


def broken(
    text: str, width: int, first: str = "", rest: str = "", *, whole_paths: bool = False
) -> list[str]:  # fmt: skip
    """Break a text of one line into lines of `width` letters; `first` and `rest` stand before them.

    Nothing where there is no text. A word that is longer than a line is broken anywhere; with `whole_paths`
    (where a terminal may fold a line, and somebody may copy it) a path is not: its line is longer then.
    """
    whole = tied(text)

    def lines(*, anywhere: bool) -> list[str]:
        return textwrap.wrap(
            whole, max(1, width), initial_indent=first, subsequent_indent=rest, break_on_hyphens=False,
            break_long_words=anywhere,
        )  # fmt: skip

    made = lines(anywhere=not whole_paths)
    if any(len(line) > width and not _PATH.search(line) for line in made):
        made = lines(anywhere=True)
    return [line.replace(_GLUE, " ") for line in made]


def tied(text: str) -> str:
    """Return a text in which no line breaks inside a quantity, a date, a count of pieces or a box."""
    return _TIED.sub(_GLUE, text)


def broken_at_commas(text: str, width: int) -> list[str]:
    """Break a short list after its commas where each piece fits a line; else each piece by itself."""
    pieces = re.split(r"(?<=,) ", text)
    if max(map(len, pieces)) <= width:
        return broken(" ".join(map(one_word, pieces)), width)
    return [line for piece in pieces for line in broken(piece, width)]


def one_word(path: object) -> str:
    """Return a path, or any text, in which no line breaks, whatever blanks are in it."""
    return str(path).replace(" ", _GLUE)
