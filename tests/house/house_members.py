"""Which members of the product's classes, and which sentences of its wording, nothing asks for by name."""

from __future__ import annotations

import ast
import importlib
import re
import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

from tests.house.house_reach import ROOT, Module

_HANDLED = ("on_", "_on_", "watch_", "validate_", "compute_")
"""How methods begin that the toolkit calls by a name it puts together."""
_VOICES = ("customer", "fitter", "trainer")


def asked_for(house: Mapping[str, Module]) -> set[str]:
    """Return every name read off some object, or written whole between quotation marks or on a page."""
    names: set[str] = set()
    for module in house.values():
        for part in ast.walk(module.tree):
            if isinstance(part, ast.Attribute) and isinstance(part.ctx, ast.Load):
                names.add(part.attr)
            elif isinstance(part, ast.Constant) and isinstance(part.value, str):
                names.add(part.value)
    for page in (ROOT / "interview").rglob("*.html"):
        names |= set(re.findall(r"[A-Za-z_]\w*", page.read_text(encoding="utf-8")))
    return names


def idle_members(house: Mapping[str, Module]) -> Iterator[str]:
    """Yield methods, properties and fields that no name anywhere stands for."""
    asked = asked_for(house)
    for module in house.values():
        for owner in (part for part in module.tree.body if isinstance(part, ast.ClassDef)):
            for name in _members(owner):
                known = {name, name.removeprefix("action_")} & asked
                if not known and not _foreign(module.name, owner, name):
                    yield f"{module.name}.{owner.name}.{name}"


def _members(owner: ast.ClassDef) -> Iterator[str]:
    """Yield what a class declares, but for what the toolkit is told to call."""
    for part in owner.body:
        if isinstance(part, ast.FunctionDef | ast.AsyncFunctionDef):
            if not any(ast.unparse(mark).startswith("on(") for mark in part.decorator_list):
                yield part.name
        elif isinstance(part, ast.AnnAssign) and isinstance(part.target, ast.Name):
            yield part.target.id
        elif isinstance(part, ast.Assign) and isinstance(part.targets[0], ast.Name):
            yield part.targets[0].id


def _foreign(module: str, owner: ast.ClassDef, name: str) -> bool:
    """Say whether a member is asked for by what the class is built on: Python, the toolkit, a model."""
    made: type[Any] = getattr(importlib.import_module(module), owner.name)
    above = [one for one in made.__mro__ if not one.__module__.startswith(("rules.", "interview."))]
    handled = name.startswith(_HANDLED) and len(above) > 1
    return handled or name.startswith("__") or any(hasattr(one, name) for one in above)


def unread_sentences(house: Mapping[str, Module]) -> list[str]:
    """Return the keys of sentences whose last two words, or more, stand in no string of the product."""
    whole, made = _keys(house)
    pattern = re.compile("|".join(f"(?:{one})" for one in sorted(made)))
    return [
        ".".join(path)
        for path in dict.fromkeys(_sentences())
        if not any(
            (tail := ".".join(path[at:])) in whole or pattern.fullmatch(tail) for at in range(len(path) - 1)
        )
    ]


def _keys(house: Mapping[str, Module]) -> tuple[set[str], set[str]]:
    """Return the strings of the product, and patterns of those it puts together."""
    whole, made = set(), set()
    for module in house.values():
        for part in ast.walk(module.tree):
            if isinstance(part, ast.Constant) and isinstance(part.value, str):
                whole.add(part.value)
            elif isinstance(part, ast.JoinedStr):
                said = [str(one.value) if isinstance(one, ast.Constant) else None for one in part.values]
                if re.fullmatch(r"[\w.-]*[A-Za-z]{3}[\w.-]*", "".join(one or "" for one in said)):
                    made.add("".join(r"[\w-]+" if one is None else re.escape(one) for one in said))
    for page in (ROOT / "interview").rglob("*.html"):
        whole |= set(re.findall(r"['\"]([\w.-]+)['\"]", page.read_text(encoding="utf-8")))
    return whole, made


def _sentences() -> Iterator[tuple[str, ...]]:
    """Yield the path of every sentence under `say`, without its voice."""
    for file in sorted((ROOT / "interview" / "wording").glob("*.toml")):
        for path in _leaves(tomllib.loads(file.read_text(encoding="utf-8")).get("say", {})):
            yield path[:-1] if path[-1] in _VOICES else path


def _leaves(table: Mapping[str, Any], above: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Yield the path of every entry that is no table."""
    for key, value in table.items():
        if isinstance(value, dict):
            yield from _leaves(value, (*above, key))
        else:
            yield (*above, key)
