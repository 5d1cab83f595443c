"""A small rule base that is not golf: which tree for this garden."""

from __future__ import annotations

import importlib.util
import shutil
import sys
from collections.abc import Callable
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

import pytest

from rules.engine import Candidate, RuleBase, load
from rules.engine.views import known
from rules.units import parse

HERE = Path(__file__).parent
RULE = """
[[rule]]
id = "tried"
decision = "tree"
scope = "tree"
when = {condition}
effect = {effect}
because = "Because it is so."
teaches = "Teach it so."
source = {{ kind = "common_practice" }}
"""


def metres(number: float) -> float:
    """A height; the name says the unit."""
    return parse(f"{number} m", "m")


def degrees(number: float) -> float:
    """A temperature in degrees Celsius, SI."""
    return parse(f"{number} degC", "degC")


@pytest.fixture(scope="session")
def garden() -> RuleBase:
    """The garden's rule base."""
    return load(HERE / "garden")


@pytest.fixture
def garden_folder(tmp_path: Path) -> Path:
    """A copy of the garden's files, to be spoilt."""
    folder = tmp_path / "garden"
    shutil.copytree(HERE / "garden", folder)
    return folder


@pytest.fixture(scope="session")
def trees() -> list[Candidate]:
    """An apple, a cherry and a lime, in that static order."""

    def tree(id: str, grown: float, hardy: float, *bears: str) -> Candidate:
        return Candidate(
            id,
            {
                "grown": known(metres(grown)),
                "hardy": known(degrees(hardy)),
                "bears": known(frozenset(bears)),
            },
        )

    return [
        tree("apple", 6, -30, "fruit", "blossom"),
        tree("cherry", 16, -20, "fruit", "blossom"),
        tree("fig", 4, -10, "fruit"),
    ]


@pytest.fixture
def one_rule(tmp_path: Path) -> Callable[[str, str], RuleBase]:
    """Load the garden with a single rule, of a condition and an effect as they are written."""

    def load_it(condition: str, effect: str) -> RuleBase:
        folder = Path(mkdtemp(dir=tmp_path)) / "garden"
        shutil.copytree(HERE / "garden", folder)
        (folder / "rules.toml").write_text(RULE.format(condition=condition, effect=effect))
        return load(folder)

    return load_it


@pytest.fixture(scope="session")
def worlds() -> Any:
    """Random rule bases and subjects, and rows written back: `engine_worlds`, which stands beside this."""
    spec = importlib.util.spec_from_file_location("engine_worlds", HERE / "engine_worlds.py")
    assert spec is not None
    assert spec.loader is not None
    module = sys.modules.setdefault("engine_worlds", importlib.util.module_from_spec(spec))
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def celsius() -> Callable[[float], float]:
    """Degrees Celsius to SI."""
    return degrees
