"""How the code reads, in figures: the table is printed, and what grows out of it is refused."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median

import pytest

ROOT = Path(__file__).parents[2]
LONGEST_FILE, LONGEST_FUNCTION, LARGEST_CLASS = 300, 40, 200
LONGEST_TEST = 50
"""Lines of a test: what somebody does at a screen from beginning to end is told in one go."""
USUAL_FILE, USUAL_FUNCTION, LONG_FUNCTION = 110, 6, 20
MOST_TOOLKIT = 0.40
"""Share of the product's lines that may stand in files which import the toolkit of the screens."""

Definition = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef


@dataclass
class Measured:
    """Some files, each part of them with its length; docstrings count as lines of a file alone."""

    files: dict[str, int] = field(default_factory=dict)
    functions: dict[str, int] = field(default_factory=dict)
    classes: dict[str, int] = field(default_factory=dict)
    undocumented: list[str] = field(default_factory=list)
    documented: int = 0
    toolkit: int = 0
    """Lines in files that import the toolkit."""

    @property
    def lines(self) -> int:
        return sum(self.files.values())


def measured(*folders: str) -> Measured:
    """Measure every module below some folders."""
    found = Measured()
    for folder in folders:
        for path in sorted((ROOT / folder).rglob("*.py")):
            _measure(found, path)
    return found


def _measure(found: Measured, path: Path) -> None:
    text, name = path.read_text(encoding="utf-8"), str(path.relative_to(ROOT))
    tree = ast.parse(text)
    found.files[name] = len(text.splitlines())
    if any(module.partition(".")[0] == "textual" for module in _imported(tree)):
        found.toolkit += found.files[name]
    for node in ast.walk(tree):
        if isinstance(node, ast.ClassDef):
            words = sum(_words(one) for one in ast.walk(node) if isinstance(one, Definition))
            found.classes[f"{name}:{node.name}"] = _length(node) - words
        elif isinstance(node, Definition):
            found.functions[f"{name}:{node.lineno} {node.name}"] = _length(node) - _words(node)
    for public in _public(tree):
        found.documented += ast.get_docstring(public) is not None
        found.undocumented += [] if ast.get_docstring(public) else [f"{name}: {getattr(public, 'name', '')}"]


def _length(node: Definition) -> int:
    return (node.end_lineno or node.lineno) - node.lineno + 1


def _words(node: Definition) -> int:
    """Return how many lines a docstring takes."""
    first = node.body[0]
    said = isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant)
    return (first.end_lineno or first.lineno) - first.lineno + 1 if said else 0


def _public(node: ast.Module | ast.ClassDef) -> Iterator[ast.Module | Definition]:
    """Yield what a reader may call: a module, its classes and functions, and their methods."""
    yield node
    for part in node.body:
        if isinstance(part, Definition) and not part.name.startswith("_"):
            yield from _public(part) if isinstance(part, ast.ClassDef) else (part,)


def _imported(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (one.name for one in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module or ""


def row(what: str, of: dict[str, int], most: int, usual: int | None = None) -> str:
    """Return a row of the table: the middle, nine tenths, the most, and what it may be."""
    sizes = sorted(of.values())
    aim = f"{usual or '-'} / {most}"
    return (
        f"{what:<20}{len(of):>6}{median(sizes):>8.0f}{sizes[len(sizes) * 9 // 10]:>6}{sizes[-1]:>6}   {aim}"
    )


def over(of: dict[str, int], most: int) -> dict[str, int]:
    return {name: size for name, size in of.items() if size > most}


@pytest.fixture(scope="module")
def product() -> Measured:
    return measured("rules", "interview")


@pytest.fixture(scope="module")
def tests() -> Measured:
    return measured("tests")


def test_the_table_of_sizes(product: Measured, tests: Measured, capsys: pytest.CaptureFixture[str]) -> None:
    public = product.documented + len(product.undocumented)
    with capsys.disabled():
        print(f"\n{'':<20}{'count':>6}{'median':>8}{'p90':>6}{'most':>6}   aim: usual / most")
        print(row("files", product.files, LONGEST_FILE, USUAL_FILE))
        print(row("functions", product.functions, LONGEST_FUNCTION, USUAL_FUNCTION))
        print(row("classes", product.classes, LARGEST_CLASS))
        print(row("files of tests", tests.files, LONGEST_FILE))
        print(row("functions of tests", tests.functions, LONGEST_TEST))
        print(f"public docstrings {product.documented} of {public}; lines in files that import the toolkit")
        print(f"{product.toolkit / product.lines:.0%}; a line of tests to {product.lines / tests.lines:.1f}")
    assert median(product.files.values()) <= USUAL_FILE
    assert median(product.functions.values()) <= USUAL_FUNCTION
    assert sorted(product.functions.values())[len(product.functions) * 9 // 10] <= LONG_FUNCTION


def test_nothing_outgrows_a_reader(product: Measured, tests: Measured) -> None:
    assert over(product.files, LONGEST_FILE) == {}
    assert over(product.functions, LONGEST_FUNCTION) == {}
    assert over(product.classes, LARGEST_CLASS) == {}
    assert over(tests.files, LONGEST_FILE) == {}
    assert over(tests.functions, LONGEST_TEST) == {}
    assert over(tests.classes, LARGEST_CLASS) == {}


def test_everything_public_says_what_it_is(product: Measured) -> None:
    assert product.undocumented == []


def test_the_toolkit_stays_in_its_room(product: Measured) -> None:
    assert product.toolkit <= MOST_TOOLKIT * product.lines
