"""What the README and the gallery show is what is drawn now."""

from __future__ import annotations

import re

import pytest

from tests.screens.picture_of_record import (
    AGAIN,
    GALLERY,
    IN_README,
    README,
    digest,
    digest_in,
    indented,
    picture_file,
    text_file,
)
from tests.screens.scenes import BROWSED, ROOT, SCENES, SHEETS, Browsed, Scene


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.name)
async def test_the_gallery_shows_what_is_drawn(scene: Scene) -> None:
    """Text for text; the picture beside it carries its text's digest (see `picture_of_record`)."""
    async with scene.come_to(scene) as app:
        drawn = scene.shown(app)
    assert drawn == text_file(scene.name).read_text(encoding="utf-8"), AGAIN
    assert digest_in(picture_file(scene.name).read_bytes()) == digest(drawn), AGAIN


@pytest.mark.parametrize("name", SHEETS)
def test_the_gallery_shows_the_sheets_as_they_are_set(name: str) -> None:
    assert digest_in(picture_file(name).read_bytes()) == digest(SHEETS[name]()), AGAIN


@pytest.mark.parametrize("one", BROWSED, ids=lambda one: one.name)
def test_the_gallery_shows_what_a_browser_is_given(one: Browsed) -> None:
    told, _ = one.shown()
    assert digest_in(picture_file(one.name).read_bytes()) == digest(told), AGAIN


def test_the_gallery_holds_nothing_else() -> None:
    names = {one.name for one in (*SCENES, *BROWSED)} | SHEETS.keys()
    assert {file.stem for file in GALLERY.iterdir()} == names


def test_the_readme_shows_the_smaller_bay_and_pictures_that_are_there() -> None:
    shown = README.read_text(encoding="utf-8")
    assert indented(text_file(IN_README).read_text(encoding="utf-8")) in shown, AGAIN
    pictures = re.findall(r"\((sample_sessions/gallery/[^)]+)\)", shown)
    assert pictures
    assert all((ROOT / picture).is_file() for picture in pictures)
