"""A stable name for what a rule base means, whatever its files, their order or their layout."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from hashlib import sha256
from typing import Any

from rules.engine.ramps import Ramp

_DERIVED = ("widest",)
"""Fields that follow from others."""


def digest(*parts: object) -> str:
    """Return the SHA-256 of the meaning of several parts, in hexadecimal.

    Numbers count to twelve digits, so that "42.25 in" and "42 1/4 in" are the same.
    """
    text = json.dumps([_plain(part) for part in parts], ensure_ascii=False, separators=(",", ":"))
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


@cache
def _fields(kind: type[Any]) -> tuple[str, ...]:
    """Return the fields of a dataclass that carry meaning."""
    return tuple(f.name for f in fields(kind) if f.name not in _DERIVED)


def _plain(value: object) -> object:
    """Turn a value into what JSON can write, in one way only."""
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, float):
        return f"{value + 0.0:.12g}"
    if isinstance(value, tuple | list):
        return [_plain(one) for one in value]
    if isinstance(value, frozenset):
        return sorted(value)
    if isinstance(value, Mapping):
        return [[key, _plain(value[key])] for key in sorted(value)]
    if isinstance(value, Ramp):
        return [value.fact, _plain(value.at)]
    if is_dataclass(value) and not isinstance(value, type):
        return [type(value).__name__, *(_plain(getattr(value, name)) for name in _fields(type(value)))]
    raise TypeError(f"{type(value).__name__} has no plain form")
