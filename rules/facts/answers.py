"""Answers: what a person said or measured, and how it is known.

An answer is read from typed text or from a TOML value against the fact it answers, and held in SI.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any, Literal

from rules.problems import Problem
from rules.units import UnitError, parse, unit, words

if TYPE_CHECKING:
    from rules.engine.language import Fact

How = Literal["measured", "said", "estimated", "derived", "assumed", "shots"]
"""How a value is known; the first three are what a person may claim of an answer."""

Said = float | str | frozenset[str] | Mapping[str, float] | None
"""An answer's value: SI number, word, set of words, or shares that add up to one."""

_CLAIMS = ("measured", "said", "estimated")
_SPLIT = re.compile(r"\s*(?:,|;|\band\b|\+|&)\s*")
_PART = re.compile(r"([A-Za-z][A-Za-z_ -]*?)\s*[:=]?\s*(\d+(?:[.,]\d+)?)\s*%?(?=$|[\s,;])")
_PART_REVERSED = re.compile(r"(\d+(?:[.,]\d+)?)\s*%?\s*([A-Za-z][A-Za-z_ -]*?)(?=$|[,;\d])")
_SAME = {"center": "centred", "centered": "centred", "centre": "centred", "y": "yes", "n": "no"}
_LONGEST = 400
"""Characters of typed text beyond which nobody is answering a question."""


class AnswerProblem(Problem):
    """An answer that cannot be read: which fact, and the sentence that says what is wanted."""

    def __init__(self, fact: str, message: str) -> None:
        super().__init__(message)
        self.fact = fact


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer: its value in SI, how it is known, and whether "I don't know" closed the question."""

    value: Said = None
    how: How = "said"
    unknown: bool = False


UNKNOWN = Answer(unknown=True)
"""Asked, and not known: the question is closed and its fallback stands."""


def read_answer(fact: Fact, raw: object) -> Answer:
    """Read one answer, typed or from TOML, against its fact.

    `raw` may be text, a number, a list of words, a table of shares, `{ unknown = true }` or
    `{ value = ..., how = "measured" }`. Raises AnswerProblem with one sentence when it does not fit.
    """
    if isinstance(raw, Mapping) and ("unknown" in raw or ("value" in raw and "value" not in fact.values)):
        return _read_table(fact, raw)
    return Answer(_read_value(fact, raw))


def _read_table(fact: Fact, raw: Mapping[str, Any]) -> Answer:
    """Read an answer written as a table with `value` and `how`, or with `unknown`."""
    for key in raw:
        if key not in ("value", "how", "unknown"):
            raise AnswerProblem(
                fact.id, f"{fact.title}: '{key[:40]}' is not known here; use value, how or unknown"
            )
    if "unknown" in raw:
        if raw["unknown"] is not True or len(raw) > 1:
            raise AnswerProblem(fact.id, f"{fact.title}: 'unknown' is written as {{ unknown = true }} alone")
        return UNKNOWN
    how = raw.get("how", "said")
    if how not in _CLAIMS:
        raise AnswerProblem(
            fact.id, f"{fact.title}: 'how' is one of measured, said or estimated, not '{str(how)[:40]}'"
        )
    return Answer(_read_value(fact, raw["value"]), how)


def _read_value(fact: Fact, raw: object) -> Said:
    """Read the value alone, by the fact's kind."""
    if isinstance(raw, str) and (not raw.strip() or len(raw) > _LONGEST):
        raise AnswerProblem(
            fact.id, f"{fact.title}: {'nothing was' if not raw.strip() else 'far too much was'} said"
        )
    if fact.kind == "number":
        return _read_number(fact, raw)
    if fact.kind == "choice":
        return _read_word(fact, raw)
    return _read_set(fact, raw) if fact.kind == "set" else _read_shares(fact, raw)


def _read_number(fact: Fact, raw: object) -> float:
    """Read a quantity and hold it against the fact's range."""
    if isinstance(raw, bool) or not isinstance(raw, str | int | float):
        raise AnswerProblem(fact.id, f"{fact.title}: a number is wanted, such as '{_middle(fact)}'")
    try:
        value = parse(raw, fact.unit)
    except UnitError as error:
        raise AnswerProblem(fact.id, f"{fact.title}: {error}") from None
    low, high = fact.range
    if not low <= value <= high:
        limits = f"{words(low, fact.unit)} to {words(high, fact.unit)}"
        raise AnswerProblem(fact.id, f"{fact.title}: {raw} is outside what is possible here, {limits}")
    return value


def _middle(fact: Fact) -> str:
    """Return the middle of a fact's range in words, as an example of what may be typed."""
    low, high = fact.range
    shown = unit(fact.unit)
    return words(shown.to_si(round(shown.from_si((low + high) / 2))), fact.unit)


def match_word(typed: str, values: tuple[str, ...]) -> str | None:
    """Match typed text to one of several words: same letters, or an unambiguous beginning."""
    plain = re.sub(r"[\s_-]+", "_", typed.strip().lower())
    plain = _SAME.get(plain, plain) if _SAME.get(plain, plain) in values else plain
    if plain in values:
        return plain
    starts = [v for v in values if plain and v.startswith(plain)]
    return starts[0] if len(starts) == 1 else None


def _read_word(fact: Fact, raw: object) -> str:
    """Read one word of a choice; true and false read as yes and no where those are the words."""
    if isinstance(raw, bool) and set(fact.values) == {"yes", "no"}:
        return "yes" if raw else "no"
    if not isinstance(raw, str):
        raise AnswerProblem(fact.id, f"{fact.title}: one of {_listed(fact.values)} is wanted")
    found = match_word(raw, fact.values)
    if found is None:
        close = get_close_matches(raw.lower(), fact.values, 1)
        hint = f"; did you mean '{close[0]}'?" if close else ""
        raise AnswerProblem(fact.id, f"{fact.title}: '{raw[:40]}' is {_none_of(fact.values)}{hint}")
    return found


def _none_of(values: tuple[str, ...]) -> str:
    """Say that something is none of some words."""
    return f"neither {' nor '.join(_said(values))}" if len(values) == 2 else f"not one of {_listed(values)}"


def _said(values: tuple[str, ...]) -> list[str]:
    """Return words as a person says them."""
    return [value.replace("_", " ") for value in values]


def _listed(values: tuple[str, ...]) -> str:
    """List words as a person would."""
    said = _said(values)
    return ", ".join(said[:-1]) + f" or {said[-1]}"


def _read_set(fact: Fact, raw: object) -> frozenset[str]:
    """Read several words, as a list or as text with commas."""
    parts = [p for p in _SPLIT.split(raw) if p] if isinstance(raw, str) else raw
    if not isinstance(parts, list) or not parts:
        raise AnswerProblem(fact.id, f"{fact.title}: one or more of {_listed(fact.values)} are wanted")
    return frozenset(_read_word(fact, p) for p in parts)


def _read_shares(fact: Fact, raw: object) -> Mapping[str, float]:
    """Read shares as a table of positive numbers, or as text such as `tight 50, rough 30, tee 20`."""
    table = _typed_shares(fact, raw) if isinstance(raw, str) else raw
    if not isinstance(table, Mapping) or not table:
        raise AnswerProblem(
            fact.id, f"{fact.title}: shares are wanted, such as '{fact.values[0]} 60, {fact.values[1]} 40'"
        )
    shares: dict[str, float] = {}
    for name, number in table.items():
        if isinstance(number, bool) or not isinstance(number, int | float | str):
            raise AnswerProblem(fact.id, f"{fact.title}: the share of {name} is not a number")
        try:
            value = float(str(number).rstrip(" %"))
        except ValueError:
            value = math.nan
        if not 0 <= value <= 1e6:
            raise AnswerProblem(
                fact.id, f"{fact.title}: the share of {name} must be a number from 0 up, not '{number}'"
            )
        shares[_read_word(fact, name)] = value
    total = sum(shares.values())
    if total <= 0:
        raise AnswerProblem(
            fact.id, f"{fact.title}: the shares add up to nothing; give at least one of them a number"
        )
    return {name: shares[name] / total for name in fact.values if shares.get(name)}


def _typed_shares(fact: Fact, text: str) -> Mapping[str, float]:
    """Read typed shares in either order; words alone share evenly."""
    for pattern, name_at in ((_PART, 1), (_PART_REVERSED, 2)):
        found = list(pattern.finditer(text))
        if found and not pattern.sub("", text).strip(" ,;%"):
            return {m.group(name_at).strip(): float(m.group(3 - name_at).replace(",", ".")) for m in found}
    if any(c.isdigit() for c in text):
        raise AnswerProblem(
            fact.id, f"{fact.title}: write each share as a word and a number, such as '{fact.values[0]} 60'"
        )
    return {name: 1.0 for name in _SPLIT.split(text) if name}


def write_answer(fact: Fact, answer: Answer) -> object:
    """Write an answer as the TOML value that reads back the same, in the fact's own unit."""
    if answer.unknown:
        return {"unknown": True}
    plain = _write_value(fact, answer.value)
    return plain if answer.how == "said" else {"value": plain, "how": answer.how}


def _write_value(fact: Fact, value: Said) -> object:
    """Write the value alone; numbers keep every digit that they need to read back the same."""
    if isinstance(value, frozenset):
        return sorted(value, key=fact.values.index)
    if isinstance(value, Mapping):
        return {name: round(share * 100, 10) for name, share in value.items()}
    if isinstance(value, str) or value is None:
        return value
    number = _shortest(unit(fact.unit).from_si(value), value, fact.unit)
    if fact.unit in ("", "strokes"):
        return int(number) if number == int(number) else number
    return f"{number:.12g} {fact.unit}"


def _shortest(number: float, si: float, symbol: str) -> float:
    """Return the shortest decimal that still reads back as the same SI value."""
    for digits in range(1, 13):
        short = float(f"{number:.{digits}g}")
        if math.isclose(unit(symbol).to_si(short), si, rel_tol=1e-12, abs_tol=1e-15):
            return short
    return number
