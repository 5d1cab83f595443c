"""Which names of the product are reached from its commands, read off the source: nothing is run.

A node is a name that a module binds at its top. It reaches every name its own lines mention, through
imports and re-exports. The commands' modules are loaded by name, so what their protocols ask for starts it.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
Node = tuple[str, str]
"""A module, and a name bound at its top; an empty name is the module itself."""

ASKED_FOR = ("HELP", "configure", "run", "compute", "text", "main")
"""What the command line asks of a module that it loads by name."""


class Module:
    """One module: what its names are bound to, and what each of them mentions."""

    def __init__(self, name: str, path: Path) -> None:
        self.name = name
        self.path = path
        self.package = name if path.name == "__init__.py" else name.rpartition(".")[0]
        self.tree = ast.parse(path.read_text(encoding="utf-8"))
        self.imports: dict[str, Node] = {}
        self.made: dict[str, list[ast.stmt]] = {}
        self.done: list[ast.stmt] = []
        for statement in ast.walk(self.tree):
            self._bind(statement)
        for statement in _top(self.tree.body):
            for made in _makes(statement):
                self.made.setdefault(made, []).append(statement)
            if isinstance(statement, ast.Expr) and not isinstance(statement.value, ast.Constant):
                self.done.append(statement)

    def _bind(self, statement: ast.AST) -> None:
        """Keep what an import binds, wherever in the module it stands."""
        if isinstance(statement, ast.ImportFrom):
            start = "." * statement.level + (statement.module or "")
            source = start if not statement.level else f"{self.package}.{statement.module or ''}".rstrip(".")
            for one in statement.names:
                self.imports[one.asname or one.name] = (source, one.name)
        elif isinstance(statement, ast.Import):
            for one in statement.names:
                self.imports[one.asname or one.name.partition(".")[0]] = (one.name, "")


def modules() -> dict[str, Module]:
    """Read every module of the product."""
    found = {}
    for top in ("rules", "interview"):
        for path in sorted((ROOT / top).rglob("*.py")):
            parts = path.relative_to(ROOT).with_suffix("").parts
            name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
            found[name] = Module(name, path)
    return found


def idle(house: dict[str, Module]) -> list[Node]:
    """Return the names that nothing reaches from a command."""
    start = [
        (name, asked)
        for name in house
        if name.startswith("interview.commands.")
        for asked in ASKED_FOR
        if asked in house[name].made
    ]
    seen: set[Node] = set()
    waiting = list(start)
    for name, module in house.items():
        for statement in module.done:
            waiting += mentioned(house, name, [statement])
    while waiting:
        node = waiting.pop()
        if node not in seen:
            seen.add(node)
            waiting += mentioned(house, node[0], house[node[0]].made.get(node[1], ()))
    everything = {(name, made) for name, module in house.items() for made in module.made}
    return sorted(node for node in everything - seen if not _dunder(node[1]))


def mentioned(house: dict[str, Module], name: str, statements: Iterable[ast.stmt]) -> Iterator[Node]:
    """Yield the nodes that statements of a module mention."""
    for statement in statements:
        for part in ast.walk(statement):
            yield from _found(house, name, _dotted(part))


def _found(house: dict[str, Module], module: str, dotted: list[str]) -> Iterator[Node]:
    """Follow a dotted name from a module to the node it stands for, if it is the product's."""
    seen = set()
    while dotted and module in house and (module, dotted[0]) not in seen:
        first, *rest = dotted
        seen.add((module, first))
        here = house[module]
        if first in here.made:
            yield module, first
        inner = f"{module}.{first}"
        if inner in house and here.imports.get(first, (module, first)) == (module, first):
            module, dotted = inner, rest
        elif first in here.imports:
            source, name = here.imports[first]
            module, dotted = source, [name, *rest] if name else rest
        else:
            return


def _dotted(part: ast.AST) -> list[str]:
    """Read `a.b.c` as its words; a word alone in quotation marks may name something too."""
    words: list[str] = []
    while isinstance(part, ast.Attribute):
        words.append(part.attr)
        part = part.value
    if isinstance(part, ast.Name):
        return [part.id, *reversed(words)]
    if isinstance(part, ast.Constant) and isinstance(part.value, str) and part.value.isidentifier():
        return [part.value]
    return []


def _top(body: list[ast.stmt]) -> Iterator[ast.stmt]:
    """Yield the statements of a module's top, those under an `if` or a `try` too."""
    for statement in body:
        if isinstance(statement, ast.If | ast.Try | ast.With | ast.For):
            for field in ("body", "orelse", "finalbody"):
                yield from _top(getattr(statement, field, []))
        else:
            yield statement


def _makes(statement: ast.stmt) -> Iterator[str]:
    """Yield the names that a statement binds."""
    if isinstance(statement, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
        yield statement.name
    targets = statement.targets if isinstance(statement, ast.Assign) else [getattr(statement, "target", None)]
    for target in targets:
        yield from (part.id for part in ast.walk(target) if isinstance(part, ast.Name)) if target else ()


def _dunder(name: str) -> bool:
    return name.startswith("__") and name.endswith("__")
