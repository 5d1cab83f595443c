"""Journeys share a real terminal, which is a module beside them."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

sys.path.insert(0, str(Path(__file__).parents[2]))

if TYPE_CHECKING:
    from tests.journeys.real_terminal import Terminal


@pytest.fixture
def terminals(tmp_path: Path) -> Iterator[Callable[[int, int], Terminal]]:
    """Open terminals of any size."""
    from tests.journeys.real_terminal import Terminal

    opened: list[Terminal] = []

    def make(width: int = 80, height: int = 24) -> Terminal:
        opened.append(Terminal(tmp_path, width, height))
        return opened[-1]

    yield make
    for one in opened:
        one.end()


@pytest.fixture
def terminal(terminals: Callable[[int, int], Terminal]) -> Terminal:
    """Open one terminal of 80 by 24 cells."""
    return terminals(80, 24)
