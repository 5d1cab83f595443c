"""How one value of a catalogue is read: quantities with units, words, counts, yes or no.

Each reader takes what TOML gave and returns SI, or raises `Wrong` with the sentence's second half.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from rules.problems import Problem
from rules.shelf.faults import did_you_mean
from rules.units import UnitError, parse, unit, words

Reader = Callable[[object], object]
"""Turns a TOML value into one of ours."""

LONGEST_TEXT = 200
"""Longest label or note (characters)."""
MOST = 100_000
"""Largest count believed."""
_SLUG = re.compile(r"[a-z0-9]+(?:[-_][a-z0-9]+)*\Z")


class Wrong(Problem):
    """A value that cannot be used; the text says what is wanted."""


def shown(value: object) -> str:
    """Quote a value for a message: short, on one line, control characters made visible."""
    text = repr(value)
    return text if len(text) <= 44 else f"{text[:40]}..."


def quantity(symbol: str, low: str, high: str) -> Reader:
    """Read a quantity in `symbol`'s dimension, between two bounds written as text (inclusive)."""
    own = unit(symbol)
    least, most = parse(low, own), parse(high, own)
    slack = 1e-9 * max(abs(least), abs(most))

    def read(value: object) -> float:
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise Wrong(f"a number with a unit is wanted, such as '{low}', not {shown(value)}")
        try:
            number = parse(value, own)
        except UnitError as problem:
            raise Wrong(str(problem)) from None
        if not least - slack <= number <= most + slack:
            raise Wrong(f"{words(number, symbol)} cannot be; it lies between {low} and {high}")
        return number

    return read


def face(value: object) -> float:
    """Read a face angle: `1 deg closed`, `0.5 deg open`, `square`; a bare angle counts closed as positive."""
    if not isinstance(value, str):
        return _angle(value)
    text = value.strip().lower()
    if text == "square":
        return 0.0
    for word, sign in (("closed", 1.0), ("open", -1.0)):
        if text.endswith(word):
            return sign * _angle(text.removesuffix(word).strip())
    return _angle(text)


def _angle(value: object) -> float:
    """Read the angle of a face, at most 6 degrees either way."""
    number = quantity("deg", "-6 deg", "6 deg")(value)
    assert isinstance(number, float)
    return number


def word(*known: str) -> Reader:
    """Read one of a few words."""

    def read(value: object) -> str:
        if value in known and isinstance(value, str):
            return value
        hint = did_you_mean(value, known) if isinstance(value, str) else ""
        raise Wrong(f"one of {', '.join(known)} is wanted, not {shown(value)}{hint}")

    return read


def name(value: object) -> str:
    """Read an id: lowercase letters, digits and single hyphens."""
    if isinstance(value, str) and len(value) <= 60 and _SLUG.match(value):
        return value
    raise Wrong(f"lowercase letters, digits and hyphens are wanted, such as 'low-17', not {shown(value)}")


def text(value: object) -> str:
    """Read a line of text; control characters are refused, so that no file drives a terminal."""
    if not isinstance(value, str):
        raise Wrong(f"text is wanted, not {shown(value)}")
    if not value.isprintable():
        raise Wrong("plain text on one line is wanted, without control characters")
    if len(value) > LONGEST_TEXT:
        raise Wrong(f"at most {LONGEST_TEXT} characters are wanted, not {len(value)}")
    return value.strip()


def label(value: object) -> str:
    """Read a label: text that is not empty."""
    found = text(value)
    if not found:
        raise Wrong("a label that people can read is wanted, not an empty one")
    return found


def count(value: object) -> int:
    """Read a count: a whole number from nought up."""
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= MOST:
        raise Wrong(f"a whole number from 0 to {MOST} is wanted, not {shown(value)}")
    return value


def yes_no(value: object) -> bool:
    """Read yes or no, as a word or as TOML's true and false."""
    if isinstance(value, bool):
        return value
    if value in ("yes", "no"):
        return value == "yes"
    raise Wrong(f"'yes' or 'no' is wanted, not {shown(value)}")


def names(value: object) -> tuple[str, ...]:
    """Read a list of port names, none twice."""
    if not isinstance(value, list):
        raise Wrong(f"a list of port names is wanted, such as ['rear', 'sole'], not {shown(value)}")
    found = tuple(name(item) for item in value)
    if len(set(found)) != len(found):
        raise Wrong("a port is named twice")
    return found


def trims(value: object) -> tuple[tuple[float, float], ...]:
    """Read tip trims by loft: rising pairs such as [['15 deg', '0.5 in'], ['21 deg', '1.5 in']]."""
    if (
        not isinstance(value, list)
        or not value
        or not all(isinstance(p, list) and len(p) == 2 for p in value)
    ):
        raise Wrong(f"pairs of loft and trim are wanted, such as [['15 deg', '0.5 in']], not {shown(value)}")
    loft, length = quantity("deg", "8 deg", "40 deg"), quantity("in", "0 in", "6 in")
    found = [(loft(pair[0]), length(pair[1])) for pair in value]
    nodes = tuple((x, y) for x, y in found if isinstance(x, float) and isinstance(y, float))
    if any(a[0] >= b[0] for a, b in pairwise(nodes)):
        raise Wrong("the lofts of the trims are to rise from pair to pair")
    return nodes


@dataclass(frozen=True, slots=True)
class Field:
    """One key of a catalogue table: how it is read, and whether it must be there."""

    key: str
    """Its name in the file."""
    read: Reader
    """How its value is read."""
    required: bool = False
    """Refused when missing; what is not required is filled by a default, if one is declared."""
    attribute: str = ""
    """Its name on the part, where that differs."""
