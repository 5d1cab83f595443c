"""The bay's screens as text of record, fed with frozen views: what is held is the face, not a rule."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from interview.screens.bay import road, screen, side
from interview.views.pictures import FULL, PLAIN
from tests import golden
from tests.screens.bay_views import LADDER, PARTS, STANDING, TALK

HERE = Path(__file__).parent / "golden"


@pytest.fixture(autouse=True)
def _frozen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(screen, "talk_view", lambda *_: TALK)
    monkeypatch.setattr(road, "talk_view", lambda *_: TALK)
    monkeypatch.setattr(side, "standing_view", lambda *_: STANDING)
    monkeypatch.setattr(side, "parts_view", lambda *_: PARTS)
    monkeypatch.setattr(side, "drawn", lambda *_: LADDER)


@pytest.mark.parametrize(
    ("width", "height", "keys", "name"),
    [
        (80, 24, (), "standing"), (80, 24, ("f5", "f5"), "decisions"), (80, 24, ("f7",), "pictures"),
        (120, 40, (), "wide"), (48, 18, (), "narrow"), (80, 24, (), "plain"),
    ],
)  # fmt: skip
async def test_screen_is_as_recorded(
    open_bay: Any, width: int, height: int, keys: tuple[str, ...], name: str
) -> None:
    glyphs = PLAIN if name == "plain" else FULL
    async with open_bay(width, height, glyphs=glyphs) as bay:
        if keys:
            await bay.press(*keys)
        text = bay.screen_text() + "\n"
    file = HERE / f"bay_{name}_{width}x{height}.txt"
    golden.held(file, text)
