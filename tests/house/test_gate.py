"""Format, lint, types and sizes: `pytest` alone runs the whole gate."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path
from statistics import median

import pytest

ROOT = Path(__file__).parents[2]
SOURCE = sorted([*(ROOT / "rules").rglob("*.py"), *(ROOT / "interview").rglob("*.py")])


def run(*command: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, timeout=600
    )
    assert done.returncode == 0, (done.stdout + done.stderr)[-6000:]


def test_lint() -> None:
    """Public docstrings included: the D1 rules."""
    run("ruff", "check", "rules", "interview", "tests")


def test_format() -> None:
    run("ruff", "format", "--check", "rules", "interview", "tests")


@pytest.mark.slow
def test_types() -> None:
    run("mypy")


@pytest.mark.slow
def test_types_of_the_tests() -> None:
    run("mypy", "--explicit-package-bases", "tests")


def test_top_level_holds_what_it_should() -> None:
    allowed = {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "interview",
        "rules",
        "tests",
        "sample_sessions",
    }
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True).stdout.splitlines()
    tops = {line.split("/")[0] for line in listed}
    assert {top for top in tops if not top.startswith(".")} <= allowed


def functions(tree: ast.AST) -> list[int]:
    """Lengths of functions in lines, docstrings left out."""
    sizes = []
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert node.end_lineno is not None
            size = node.end_lineno - node.lineno + 1
            first = node.body[0]
            if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant):
                assert first.end_lineno is not None
                size -= first.end_lineno - first.lineno + 1
            sizes.append(size)
    return sizes


def test_sizes_of_the_house(capsys: pytest.CaptureFixture[str]) -> None:
    lines = {path: len(path.read_text(encoding="utf-8").splitlines()) for path in SOURCE}
    sizes = sorted(size for path in SOURCE for size in functions(ast.parse(path.read_text(encoding="utf-8"))))
    with capsys.disabled():
        print(f"\nfiles {len(lines)}, median {median(lines.values()):.0f}, longest {max(lines.values())}")
        p90 = sizes[int(len(sizes) * 0.9)]
        print(f"functions {len(sizes)}, median {median(sizes):.0f}, p90 {p90}, longest {sizes[-1]}")
    assert {path.name: count for path, count in lines.items() if count > 300} == {}
    assert sizes[-1] <= 45
