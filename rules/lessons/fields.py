"""The places of a rule or an assumption that may be edited, each with its text as a rule file writes it."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from rules.lessons.case import LessonProblem

Row = dict[str, Any]
"""One entry of a rule file as plain data."""
FieldKind = Literal["effect", "node", "gives", "threshold", "words", "value", "range", "sentence"]
"""What a place holds: a plain effect; where a node of a ramp stands, and what it gives there; what a fact is
compared with, in numbers or words; an assumption's value or an end of its range; a sentence."""
_SENTENCES = ("because", "teaches", "text")
_LISTED = ", "
_TENS = re.compile(r"([+-]?\d+(?:\.\d+)?e[+-]\d+)(?= |$)")


@dataclass(frozen=True, slots=True)
class Field:
    """One place that may be edited."""

    path: str
    """Where it stands in the entry, such as `when.all.0.below` or `effect.points.at.1.0`."""
    text: str
    """What stands there."""
    kind: FieldKind
    fact: str = ""
    """The fact that is compared, or along which a ramp runs; empty where there is none."""


def plain(value: Any) -> Any:
    """Return an entry with numbers written out as people write them: `20 %` and not `2e+01 %`."""
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain(one) for one in value]
    return _TENS.sub(lambda found: f"{float(found[1]):.15g}", value) if isinstance(value, str) else value


def fields(row: Row) -> tuple[Field, ...]:
    """Return what may be edited in a rule or assumption, in reading order."""
    found = [*_conditions(row.get("when"), "when"), *_effect(row.get("effect"), "effect")]
    found += _effect(row.get("contested", {}).get("effect"), "contested.effect")
    if "value" in row:
        found.append(Field("value", _text(row["value"]), "value"))
    found += [Field(f"range.{i}", _text(end), "range") for i, end in enumerate(row.get("range", ()))]
    return (*found, *(Field(key, row[key], "sentence") for key in _SENTENCES if key in row))


def _conditions(condition: Any, path: str) -> Iterator[Field]:
    """Yield what facts are compared with."""
    if not isinstance(condition, Mapping):
        return
    if "fact" not in condition:
        for op, inner in condition.items():
            for i, one in enumerate(inner):
                yield from _conditions(one, f"{path}.{op}.{i}")
        return
    for op, value in condition.items():
        if op != "fact":
            yield from _compared(value, f"{path}.{op}", condition["fact"])


def _compared(value: Any, path: str, fact: str) -> Iterator[Field]:
    """Yield the place or places of one comparison."""
    if isinstance(value, Mapping):
        yield Field(f"{path}.assumption", _text(value["assumption"]), "words", fact)
    elif isinstance(value, list) and path.endswith(".between"):
        for i, end in enumerate(value):
            yield from _compared(end, f"{path}.{i}", fact)
    elif not isinstance(value, bool):
        numeric = isinstance(value, int | float) or (
            isinstance(value, str) and value.lstrip("+-")[:1].isdigit()
        )
        yield Field(path, _text(value), "threshold" if numeric else "words", fact)


def _effect(effect: Any, path: str) -> Iterator[Field]:
    """Yield what a rule does: one amount, or a ramp node by node."""
    for kind in ("points", "adjust"):
        value = effect.get(kind) if isinstance(effect, Mapping) else None
        if isinstance(value, Mapping):
            for i, (at, gives) in enumerate(value["at"]):
                yield Field(f"{path}.{kind}.at.{i}.0", _text(at), "node", value["from"])
                yield Field(f"{path}.{kind}.at.{i}.1", _text(gives), "gives", value["from"])
        elif value is not None:
            yield Field(f"{path}.{kind}", _text(value), "effect")


def _text(value: Any) -> str:
    """Write a value as it is edited."""
    if isinstance(value, list):
        return _LISTED.join(map(str, value))
    return f"{value:g}" if isinstance(value, float) else str(value)


def with_field(row: Row, path: str, text: str) -> Row:
    """Return an entry with another text in one place; raises LessonProblem for a place there is not.

    Whether what is written there makes sense is for the loader to say.
    """
    if path not in {field.path for field in fields(row)}:
        raise LessonProblem(f"'{path[:60]}' is no place of {row['id']} that can be edited; choose one listed")
    changed = copy.deepcopy(row)
    *way, last = path.split(".")
    at: Any = changed
    for key in way:
        at = at[int(key)] if isinstance(at, list) else at[key]
    where: Any = int(last) if isinstance(at, list) else last
    at[where] = _as_before(at[where], text.strip())
    return changed


def _as_before(before: Any, text: str) -> Any:
    """Read a text as what stood there before: a list, a number, or text."""
    if isinstance(before, list):
        return [word.strip() for word in text.split(",") if word.strip()]
    if isinstance(before, int | float):
        try:
            return float(text)
        except ValueError:
            return text
    return text
