"""Which rooms of the program read a fact or an assumption: found in their own source."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

_RULES = Path(__file__).parents[1]
_BLIND = ("engine", "knowledge", "catalogue")
"""Rooms that know no entry by name."""
_ASKING = ("number", "word", "get", "shares")
"""Functions that are given the fact to read."""
_LEAST = 4
"""Letters that a name put together must hold before it says which entries it may be."""


class _Read(NamedTuple):
    """What one module names."""

    module: str
    words: frozenset[str]
    """Texts of its source, each as it stands."""
    facts: frozenset[str]
    """Texts by which it asks for something: a key between brackets, or what an asking function is given."""
    made: tuple[re.Pattern[str], ...]
    """Names put together in braces, as patterns."""


def assumption_rooms(id: str) -> tuple[str, ...]:
    """Return the modules that name an assumption, such as facts/strike; empty without source on disk."""
    return tuple(
        one.module for one in _reads() if id in one.words or any(made.fullmatch(id) for made in one.made)
    )


def fact_rooms(id: str) -> tuple[str, ...]:
    """Return the modules that ask for a fact by its id, such as facts/speed; empty without source on disk."""
    return tuple(one.module for one in _reads() if id in one.facts)


@cache
def _reads() -> tuple[_Read, ...]:
    """Read the source of every room once."""
    found = []
    for path in sorted(_RULES.rglob("*.py")):
        place = path.relative_to(_RULES)
        if place.parts[0] not in _BLIND:
            tree = ast.parse(path.read_text(encoding="utf-8"))
            found.append(_read(place.with_suffix("").as_posix(), list(ast.walk(tree))))
    return tuple(found)


def _read(module: str, nodes: list[ast.AST]) -> _Read:
    words = frozenset(n.value for n in nodes if isinstance(n, ast.Constant) and isinstance(n.value, str))
    made = tuple(_pattern(n) for n in nodes if isinstance(n, ast.JoinedStr) and _telling(n))
    return _Read(module, words, frozenset(_asked(nodes)), made)


def _asked(nodes: list[ast.AST]) -> Iterator[str]:
    """Yield the texts by which a module asks for facts: `known["speed"]`, `number("speed")`."""
    for node in nodes:
        asked: list[ast.expr] = []
        if isinstance(node, ast.Subscript) and isinstance(node.ctx, ast.Load):
            asked = [node.slice]
        elif isinstance(node, ast.Call):
            called = node.func
            name = called.attr if isinstance(called, ast.Attribute) else getattr(called, "id", "")
            asked = node.args if name in _ASKING else []
        yield from (
            one.value for one in asked if isinstance(one, ast.Constant) and isinstance(one.value, str)
        )


def _telling(made: ast.JoinedStr) -> bool:
    """Say whether a text with braces holds letters enough, and no space, to be a name put together."""
    fixed = "".join(str(part.value) for part in made.values if isinstance(part, ast.Constant))
    return len(re.sub(r"[^a-z]", "", fixed)) >= _LEAST and " " not in fixed


def _pattern(made: ast.JoinedStr) -> re.Pattern[str]:
    """Return a pattern of what a text with braces may come to."""
    parts = (re.escape(str(p.value)) if isinstance(p, ast.Constant) else "[a-z0-9-]+" for p in made.values)
    return re.compile("".join(parts))
