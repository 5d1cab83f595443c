"""The values that are tried of a fact: shares that keep their proportions, and words one by one."""

from __future__ import annotations

from itertools import islice

import pytest

from rules.fitting import House
from rules.inquiry.values import options, shifted_shares


def test_a_share_that_is_all_gives_to_every_other_alike(house: House) -> None:
    fact = house.base.facts["lies"]
    (first, *_) = shifted_shares(fact, {"fairway": 1.0}, "fairway", "down")
    told = first.answers["lies"].value
    assert isinstance(told, dict)
    assert told["fairway"] == pytest.approx(0.8)
    others = [share for lie, share in told.items() if lie != "fairway"]
    assert others == pytest.approx([0.2 / (len(fact.values) - 1)] * (len(fact.values) - 1))
    assert list(shifted_shares(fact, {"fairway": 1.0}, "fairway", "up")) == []


def test_the_others_keep_their_proportions_and_no_step_is_a_hair(house: House) -> None:
    fact = house.base.facts["lies"]
    now = {"fairway": 0.5, "rough": 0.25, "tee": 0.25}
    for direction in ("up", "down"):
        tried = list(islice(shifted_shares(fact, now, "fairway", direction), 9))
        assert tried
        for one in tried:
            told = one.answers["lies"].value
            assert isinstance(told, dict)
            assert sum(told.values()) == pytest.approx(1.0)
            assert abs(one.value - 0.5) >= 0.09  # type: ignore[operator]
            assert told.get("rough", 0.0) == pytest.approx(told.get("tee", 0.0))


def test_of_a_set_each_word_is_added_or_dropped_and_never_the_last(house: House) -> None:
    fact = house.base.facts["contact"]
    one = fact.values[0]
    tried = [trial.value for trial in options(fact, frozenset((one,)))]
    assert all(isinstance(words, frozenset) and words for words in tried)
    assert len(tried) == len(fact.values) - 1
