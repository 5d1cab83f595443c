"""Paths as people type them."""

from __future__ import annotations

from pathlib import Path

import pytest

from rules.paths import typed_path


@pytest.mark.parametrize("typed", ["'/srv/a shop/rules'", '"/srv/a shop/rules"', "/srv/a shop/rules"])
def test_quotes_around_a_path_are_no_part_of_it(typed: str) -> None:
    assert typed_path(typed) == Path("/srv/a shop/rules")


@pytest.mark.parametrize("typed", ["'", "''", "'/srv", "/srv/it's", "\"/srv'"])
def test_other_quotes_stay(typed: str) -> None:
    assert typed_path(typed) == Path(typed)
