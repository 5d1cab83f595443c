"""Text that people type or files hold, made safe to keep and to print.

Escape sequences, C1 controls, NUL and direction overrides reach a terminal raw (they can recolour it,
retitle it or show words in another order than they were written). They are taken out where text enters
and, since a file may have been written by anyone, once more where it is printed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

LONGEST_LINE = 200
"""Characters kept of one line of typed text: a name, a reason."""
LONGEST_NOTE = 4000
"""Characters kept of a note."""

_ESCAPES = re.compile(
    "\x1b\\][^\x07\x1b]*(?:\x07|\x1b\\\\)?"  # operating system commands, such as a window title
    "|[\x1b\x9b]\\[?[0-?]*[ -/]*[@-~]"  # control sequences, such as a colour
)
_CONTROLS = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]"
)
_BLANKS = re.compile("[ \t\r\u00a0\u2028\u2029]+")


def clean(text: str) -> str:
    """Take out everything that could steer a terminal; line feeds stay."""
    straight = text.replace("\r\n", "\n").replace("\r", "\n")
    return _CONTROLS.sub("", _ESCAPES.sub("", straight))


def one_line(text: str, longest: int = LONGEST_LINE) -> str:
    """Clean a text and put it on one line, blanks made single, cut with an ellipsis if it is too long."""
    flat = _BLANKS.sub(" ", clean(text).replace("\n", " ")).strip()
    return flat if len(flat) <= longest else f"{flat[: longest - 1].rstrip()}…"


def counted(count: int, what: str) -> str:
    """Return a count with its noun, which takes an s unless there is one of it."""
    return f"{count} {what}{'' if count == 1 else 's'}"


def note_text(text: str) -> str:
    """Clean a note, which may have several lines, and cut it if it is too long."""
    flat = "\n".join(_BLANKS.sub(" ", line).rstrip() for line in clean(text).split("\n")).strip()
    return flat if len(flat) <= LONGEST_NOTE else f"{flat[: LONGEST_NOTE - 1].rstrip()}…"


def columns(head: Sequence[str], rows: Iterable[Sequence[str]]) -> list[str]:
    """Lay rows out under their heads, a line each: the first column to the left, the others to the right."""
    lines = [tuple(head), *map(tuple, rows)]
    widths = [max(len(line[i]) for line in lines) for i in range(len(head))]
    return [
        "  " + "   ".join(cell.rjust(w) if i else cell.ljust(w) for i, (cell, w) in enumerate(pairs))
        for pairs in (list(zip(line, widths, strict=True)) for line in lines)
    ]


def seven_bit_locale(environment: Mapping[str, str]) -> bool:
    """Return whether a person asked for the C locale, in which a terminal may have no other letters.

    Python writes UTF-8 all the same (PEP 538, PEP 540), and where LANG alone names that locale puts C.UTF-8
    into LC_CTYPE. Where nothing is set at all, nobody asked for anything.
    """
    overall, letters, language = (environment.get(name, "") for name in ("LC_ALL", "LC_CTYPE", "LANG"))
    coerced = letters in ("C.UTF-8", "C.utf8", "UTF-8")
    return (overall or ("" if coerced else letters) or language) in ("C", "POSIX")
