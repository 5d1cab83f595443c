"""What the README and the gallery show of the bay is what the bay draws now."""

from __future__ import annotations

from typing import Any

import pytest

from tests.screens.picture_of_record import ROOT, SAMPLE, SIZES, digest, digest_in, text_file


@pytest.mark.parametrize(("width", "height"), SIZES)
async def test_the_gallery_shows_what_is_drawn(open_bay: Any, width: int, height: int) -> None:
    """Text for text; the picture beside it carries its text's digest (see `picture_of_record`)."""
    async with open_bay(width, height, session=SAMPLE, looks_ahead=True) as bay:
        await bay.settle()
        drawn = bay.screen_text() + "\n"
    kept = text_file(width, height)
    assert drawn == kept.read_text(encoding="utf-8")
    assert digest_in(kept.with_suffix(".png").read_bytes()) == digest(drawn), "take the pictures again"


def test_the_readme_shows_the_smaller_one() -> None:
    shown = (ROOT / "README.md").read_text(encoding="utf-8")
    lines = text_file(80, 24).read_text(encoding="utf-8").rstrip("\n").split("\n")
    assert "\n".join(f"    {line}".rstrip() for line in lines) in shown
