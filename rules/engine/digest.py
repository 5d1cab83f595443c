"""A fingerprint of what a rule base means: the order of files, tables and keys changes nothing."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING

from rules.engine.ramps import Ramp

if TYPE_CHECKING:
    from rules.engine.base import RuleBase


def digest(base: RuleBase) -> str:
    """Return the SHA-256 (hex) of everything that a rule base declares."""
    told = hashlib.sha256()
    whole = (base.scopes, base.topics, base.facts, base.assumptions, base.decisions, base.rules)
    for piece in _pieces(whole):
        told.update(piece.encode())
    return told.hexdigest()


def _pieces(value: object) -> Iterator[str]:
    """Yield a value piece by piece, in an order that does not depend on how it was written."""
    if isinstance(value, Mapping):
        yield "{"
        for key in sorted(value, key=str):
            yield f"{key}="
            yield from _pieces(value[key])
        yield "}"
    elif isinstance(value, frozenset):
        yield "<" + ",".join(sorted(map(repr, value))) + ">"
    elif isinstance(value, Ramp):
        yield f"ramp {value.fact} {value.at!r}"
    elif isinstance(value, tuple) and not hasattr(value, "_fields"):
        yield "("
        for part in value:
            yield from _pieces(part)
        yield ")"
    elif is_dataclass(value) and not isinstance(value, type):
        yield type(value).__name__
        for field in fields(value):
            yield f".{field.name}="
            yield from _pieces(getattr(value, field.name))
    else:
        yield f"{value!r};"
