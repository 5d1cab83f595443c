"""Where a line may break: at blanks, but never inside a quantity, a count of pieces or an empty box."""

from __future__ import annotations

import re
import textwrap

_GLUE = "\N{NO-BREAK SPACE}"
"""Stands for a blank at which a line must not break: textwrap breaks at ASCII blanks alone."""
_UNITS = "deg|degrees?|degF|degC|in|inch|inches|ft|feet|yd|yards?|mph|km/h|m/s|mm|cm|m|g|grams?|h|rpm|points?"
_TIED = re.compile(
    rf"(?<=\d) (?=(?:{_UNITS})(?![\w'])|%|\d+/\d)"  # 42 1/4 in, 31 mm, 20 %
    r"|(?<=\d) (?=x \d)|(?<=\d x) (?=\d)"  # 2 x 1 g
    r"|(?<=\[) (?=\])"  # [ ]
)


def broken(text: str, width: int, first: str = "", rest: str = "") -> list[str]:
    """Break a text of one line into lines of `width` letters; `first` and `rest` stand before them.

    Nothing where there is no text. A word that is longer than a line is broken anywhere.
    """
    lines = textwrap.wrap(
        _TIED.sub(_GLUE, text), max(1, width), initial_indent=first, subsequent_indent=rest,
        break_on_hyphens=False,
    )  # fmt: skip
    return [line.replace(_GLUE, " ") for line in lines]
