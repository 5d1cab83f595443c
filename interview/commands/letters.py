"""Letters that an output cannot write, as ones that it can: never a failure, seldom a question mark."""

from __future__ import annotations

import codecs
import os
import sys

from interview.text import seven_bit_locale

ALIKE = "turfpair-alike"
"""The name under which streams find this way of writing."""
_SPELLED = {
    "°": " deg", "±": "+/-", "…": "...", "–": "-", "—": "-", "−": "-", "×": "x", "·": ".",
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4",
    "‘": "'", "’": "'", "“": '"', "”": '"', "→": "->", "≤": "<=", "≥": ">=", "ß": "ss", "æ": "ae", "Æ": "AE",
    "ø": "o", "Ø": "O", "ł": "l", "Ł": "L", "œ": "oe", "€": "EUR", "²": "2",
}  # fmt: skip


def alike(error: UnicodeError) -> tuple[str, int]:
    """Return what to write in place of letters that cannot be encoded, and where to go on."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    likeness = "".join(_alike(letter) for letter in error.object[error.start : error.end])
    spaced = error.start == 0 or error.object[error.start - 1] == " "
    return likeness.lstrip() if spaced else likeness, error.end


def _alike(letter: str) -> str:
    """Return a letter without its accents, or what it is spelled as; `?` for what has no likeness."""
    if letter in _SPELLED:
        return _SPELLED[letter]
    from unicodedata import normalize

    return "".join(part for part in normalize("NFKD", letter) if part.isascii()) or "?"


def write_anything() -> None:
    """Let the outputs write a likeness of what they cannot write, and the input take what it cannot read.

    A terminal in the C locale gets letters of seven bits; what goes into a file or a pipe keeps its own.
    """
    codecs.register_error(ALIKE, alike)
    few = seven_bit_locale(os.environ)
    for stream, way in ((sys.stdout, ALIKE), (sys.stderr, ALIKE), (sys.stdin, "replace")):
        if hasattr(stream, "reconfigure"):
            bits = few and way == ALIKE and stream.isatty()
            stream.reconfigure(errors=way, encoding="ascii" if bits else None)
