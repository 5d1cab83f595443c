"""What a house keeps for the next golfer: made once, let go when it has grown large."""

from __future__ import annotations

import pytest

from rules import house as keeping
from rules.fitting import House


def test_what_is_kept_is_made_once_until_it_has_grown_large(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keeping, "_MOST_KEPT", 3)
    own, made = House(house.base, house.shelf), []
    for key in (1, 2, 1, 3, 2, 4, 1, 4):
        own.once((key,), lambda key=key: made.append(key) or key)  # type: ignore[misc, func-returns-value]
    assert made == [1, 2, 3, 4, 1], "a fourth thing let go of the three before it"
    assert set(own.kept) == {(4,), (1,)}


def test_of_each_sort_the_latest_stay(house: House) -> None:
    own = House(house.base, house.shelf)
    for key in (1, 2, 1, 3):
        own.lately("flight", (key,), most=2)[key] = key
    assert list(own.recent["flight"]) == [(1,), (3,)]
    assert own.lately("flight", (1,), most=2) == {1: 1}
    assert own.lately("flight", (2,), most=2) == {}
