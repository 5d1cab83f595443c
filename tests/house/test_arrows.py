"""The arrows between the rooms run one way; proved on the import statements and in a fresh process."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import interview
import rules

ROOTS = [Path(rules.__file__).parent, Path(interview.__file__).parent]
LAYERS = [
    {
        "rules.units",
        "rules.paths",
        "rules.problems",
        "rules.whole_file",
        "interview.text",
        "interview.broken",
        "interview.folders",
    },
    {"rules.engine", "rules.golf", "rules.bench"},
    {"rules.shelf"},
    {"rules.facts", "rules.ladder", "rules.house", "rules.workbench", "rules.overrides", "rules.questions"},
    {"rules.fitting"},
    {"rules.inquiry", "rules.evidence", "rules.lessons"},
    {
        "interview.conversation",
        "interview.session",
        "interview.store",
        "interview.wording",
        "interview.kiosk",
        "interview.classroom",
    },
    {"interview.views"},
    {"interview.screens", "interview.sheets", "interview.commands", "interview.web"},
]
"""Rooms from the ground up; a room may call its own layer only by itself or where listed below."""
NEIGHBOURS = {
    ("rules.units", "rules.problems"), ("rules.problems", "rules.units"),
    ("interview.folders", "rules.paths"),
    ("rules.ladder", "rules.facts"), ("rules.ladder", "rules.house"),
    ("rules.overrides", "rules.ladder"), ("rules.overrides", "rules.house"),
    ("rules.overrides", "rules.workbench"), ("rules.workbench", "rules.ladder"),
    ("rules.workbench", "rules.facts"),
    ("rules.questions", "rules.ladder"), ("rules.questions", "rules.facts"),
    ("rules.overrides", "rules.facts"),
    ("rules.inquiry", "rules.evidence"), ("rules.lessons", "rules.inquiry"),
    ("interview.conversation", "interview.session"), ("interview.conversation", "interview.wording"),
    ("interview.kiosk", "interview.conversation"), ("interview.kiosk", "interview.session"),
    ("interview.kiosk", "interview.store"),
    ("interview.classroom", "interview.session"), ("interview.classroom", "interview.store"),
    ("interview.store", "interview.session"), ("interview.commands", "interview.sheets"),
    ("interview.commands", "interview.screens"), ("interview.commands", "interview.web"),
}  # fmt: skip
"""Pairs within one layer that may call each other, the caller first."""


def room(module: str) -> str:
    """The room a module belongs to: its first two names."""
    return ".".join(module.split(".")[:2])


def layer(name: str) -> int:
    for index, rooms in enumerate(LAYERS):
        if name in rooms:
            return index
    raise AssertionError(f"{name} is in no layer: give it a place in LAYERS")


def modules() -> Iterator[tuple[str, Path]]:
    for root in ROOTS:
        for path in sorted(root.rglob("*.py")):
            parts = path.relative_to(root.parent).with_suffix("").parts
            yield ".".join(parts[:-1] if parts[-1] == "__init__" else parts), path


def imported(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
            found |= {
                f"{node.module}.{alias.name}" for alias in node.names if node.module in ("rules", "interview")
            }
    return found


CODE = [(name, path) for name, path in modules() if room(name) not in ("rules", "interview")]


@pytest.mark.parametrize(("name", "path"), CODE, ids=[name for name, _ in CODE])
def test_arrows_run_one_way(name: str, path: Path) -> None:
    here = room(name)
    if here in ("rules.knowledge", "rules.catalogue"):
        assert not imported(path) - {"__future__"}, "data folders hold no code"
        return
    for target in imported(path):
        if target.split(".")[0] not in ("rules", "interview") or target in ("rules", "interview"):
            continue
        there = room(target)
        if there in ("rules.knowledge", "rules.catalogue") or there == here:
            continue
        allowed = layer(there) < layer(here) or (here, there) in NEIGHBOURS
        assert allowed, f"{name} imports {target}: against the arrows"


@pytest.mark.parametrize(("name", "path"), CODE, ids=[name for name, _ in CODE])
def test_only_screens_import_the_toolkit(name: str, path: Path) -> None:
    tops = {target.split(".")[0] for target in imported(path)}
    assert not tops & {"numpy", "scipy"}
    if room(name) != "interview.screens":
        assert "textual" not in tops
    if name.startswith("rules"):
        assert not tops & {"textual", "rich", "interview"}


def test_the_engine_knows_no_golf() -> None:
    for name, path in CODE:
        if room(name) == "rules.engine":
            ours = {t for t in imported(path) if t.startswith("rules") and room(t) != "rules.engine"}
            assert {room(t) for t in ours} <= {"rules", "rules.units", "rules.problems"}, name


def test_recommend_loads_no_toolkit_and_no_arrays() -> None:
    code = (
        "import sys\n"
        "from interview.commands.main import main\n"
        "status = main(['recommend', sys.argv[1], '--json'])\n"
        "heavy = sorted({'textual', 'numpy', 'scipy'} & set(sys.modules))\n"
        "print('HEAVY', heavy, status, file=sys.stderr)\n"
    )
    sample = sorted((Path(__file__).parents[2] / "sample_sessions").glob("*.toml"))[0]
    done = subprocess.run(
        [sys.executable, "-c", code, str(sample)], capture_output=True, text=True, timeout=120
    )
    assert "HEAVY [] 0" in done.stderr, done.stderr[-2000:]
