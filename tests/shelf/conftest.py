"""A shop's own folder, copied from the demo, that a test may spoil."""

from __future__ import annotations

from pathlib import Path

import pytest

from rules.shelf.start import start_shop


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    folder = tmp_path / "shop"
    start_shop(folder)
    return folder
