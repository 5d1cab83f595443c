"""Format, lint and types: `pytest` alone runs the whole gate."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


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
