"""The columns of a table of shots: the names they go by, the unit a bare number takes, how a cell is read."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from rules.evidence.ball_text import outcome_of
from rules.units import UnitError, parse, unit


@dataclass(frozen=True, slots=True)
class Column:
    """One column that is known: its key in the session file, the unit of a bare number, its other names."""

    key: str
    symbol: str | None
    """None for words."""
    names: tuple[str, ...]
    """In small letters, words parted by blanks; the first is how it is written."""
    ways: Mapping[str, int] | None = None
    """Words beside a number that give it its sign, such as left and right."""


_SIDES = {"l": -1, "left": -1, "r": 1, "right": 1}
_HEEL_TOE = {"heel": -1, "h": -1, "toe": 1, "t": 1}
_LOW_HIGH = {"low": -1, "below": -1, "high": 1, "above": 1}

COLUMNS = (
    Column("club", None, ("club", "club name", "name")),
    Column("kind", None, ("kind", "type", "club type", "club kind")),
    Column("loft", "deg", ("loft", "club loft", "static loft")),
    Column("length", "in", ("length", "club length", "playing length")),
    Column("outcome", None, ("outcome", "result", "ball", "what became of it")),
    Column("carry", "yd", ("carry", "carry distance", "distance carry", "carry dist", "flight distance")),
    Column("side_yd", "yd", ("side", "off line", "offline", "lateral", "side of line", "left right"), _SIDES),
    Column("toe_mm", "mm", (
        "toe", "heel toe", "toe heel", "strike toe", "mark toe", "impact toe", "strike horizontal",
        "horizontal strike", "impact horizontal", "horizontal impact",
    ), _HEEL_TOE),
    Column("high_mm", "mm", (
        "high", "low high", "high low", "strike high", "mark high", "strike height", "strike vertical",
        "vertical strike", "impact vertical", "vertical impact",
    ), _LOW_HIGH),
    Column("head_speed", "mph", (
        "head speed", "club speed", "clubhead speed", "club head speed", "swing speed",
    )),
    Column("ball_speed", "mph", ("ball speed",)),
    Column("launch", "deg", ("launch", "launch angle", "vertical launch", "vertical launch angle")),
    Column("spin", "rpm", ("spin", "backspin", "back spin", "spin rate", "total spin")),
    Column("surface", None, ("surface", "ground", "hit from", "off")),
    Column("indoors", None, ("indoors", "indoor", "inside")),
)  # fmt: skip
"""Every column that is read, in the order in which they are written."""

_BY_NAME = {name: column for column in COLUMNS for name in column.names}
_WORD = re.compile(r"[^\W\d_]+(?:/[^\W\d_]+)?|°[cf]?|%", re.UNICODE)
_CELL = re.compile(r"^([a-z]+)?\s*([+-]?\d[\d.,]*)\s*(.*?)$")
_THOUSANDS = re.compile(r"^(\d{1,2}),(\d{3})$")
_SURFACES = {"turf": "turf", "grass": "turf", "fairway": "turf", "mat": "mat", "tee": "tee", "peg": "tee"}
_YES = {"yes": True, "y": True, "true": True, "1": True, "no": False, "n": False, "false": False, "0": False}
_KINDS = {"fairway": "fairway", "fairway wood": "fairway", "wood": "fairway", "hybrid": "hybrid"}
NOTHING = frozenset(("", "-", "--", "–", "—", "n/a", "na", "none", "null", "nan"))
"""Cells that hold nothing."""
ACTS = ("=", "+", "-", "@", "\t", "\r", "\n")
"""How a cell begins that a spreadsheet would act on (OWASP, CSV Injection)."""


@dataclass(frozen=True, slots=True)
class Heading:
    """One heading of a table as it was understood."""

    text: str
    column: Column | None
    """None for a column that is not used."""
    symbol: str | None
    """The unit of a bare number below it."""
    told: bool
    """Whether the heading says the unit."""


def heading(text: str) -> Heading:
    """Understand one heading: words in any case, a unit in brackets, behind a blank or an underscore."""
    words = _WORD.findall(text.lower().replace("_", " "))
    for size in (0, 1):
        column = _BY_NAME.get(" ".join(words[: len(words) - size]))
        if column is None:
            continue
        if not size:
            return Heading(text, column, column.symbol, False)
        symbol = unit_of(words[-1], column)
        if symbol is not None:
            return Heading(text, column, symbol, True)
    return Heading(text, None, None, False)


def unit_of(word: str, column: Column) -> str | None:
    """Return the symbol of a unit that fits a column; None for a word that is none."""
    if column.symbol is None:
        return None
    try:
        found = unit(word)
    except UnitError:
        return None
    return found.symbol if found.dimension == unit(column.symbol).dimension else None


def near_name(text: str) -> str | None:
    """Return the name of a column that a heading is nearly, for a did-you-mean."""
    words = " ".join(_WORD.findall(text.lower().replace("_", " ")))
    close = get_close_matches(words, list(_BY_NAME), 1, 0.8)
    return close[0] if close else None


def read_cell(text: str, found: Heading) -> object:
    """Read one cell as the session file would hold it; UnitError's sentence says what is wanted."""
    column = found.column
    assert column is not None
    if column.symbol is None:
        return _word(column.key, text)
    value = _quantity(text, column, found.symbol or column.symbol)
    if column.key.endswith(("_mm", "_yd")):
        return round(unit(column.symbol).from_si(value), 3)
    shown = found.symbol or column.symbol
    return f"{round(unit(shown).from_si(value), 4):g} {shown}"


def _word(key: str, text: str) -> object:
    """Read a cell of words."""
    plain = text.strip().lower()
    if key == "club":
        return text.strip()
    if key == "indoors":
        return _one_of(_YES, plain, "yes or no")
    if key == "surface":
        return _one_of(_SURFACES, plain, "turf, mat or tee")
    if key == "kind":
        return _one_of(_KINDS, plain, "fairway or hybrid")
    outcome = outcome_of(plain)
    if outcome is None:
        raise UnitError(f"'{text[:20]}' is not one of topped, thin, fat or up")
    return outcome


def _one_of(words: Mapping[str, object], plain: str, wanted: str) -> object:
    if plain not in words:
        raise UnitError(f"'{plain[:20]}' is not {wanted}")
    return words[plain]


def _quantity(text: str, column: Column, symbol: str) -> float:
    """Read a number with or without its unit, and with the word that gives it its sign. SI."""
    plain = text.strip().lower()
    ways = column.ways or {}
    cell = _CELL.match(plain)
    if cell is None:
        raise UnitError(f"'{text[:20]}' is not a number")
    before, number, after = cell.groups()
    thousands = _THOUSANDS.match(number)
    if thousands and column.key == "spin":  # nobody reads spin to a thousandth of a turn
        number = "".join(thousands.groups())
    *units, last = after.split() or [""]
    word = before or (last if last in ways else "")
    if before is None and word:
        after = " ".join(units)
    if word and word not in ways:
        raise UnitError(f"'{text[:20]}' is not a number")
    value = parse(f"{number} {after}".strip(), symbol if not after else column.symbol or "")
    return ways[word] * abs(value) if word else value
