"""The smallest set of changes that makes a rival win, on roads whose every pick is known beforehand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import SimpleNamespace
from typing import Any, cast

import pytest

from rules.facts.answers import Answer
from rules.inquiry.flips import FactFlips, Flip, Flipping
from rules.inquiry.overtake import Overtake, overtake
from rules.inquiry.values import Trial

NAMES = tuple("abcdefghij")


class Plain:
    """Stands in for the roads: a rival wins once a secret set of facts is changed to 1."""

    def __init__(self, secret: set[str], beyond: str = "") -> None:
        self.secret, self.further = secret, beyond
        self.tried: list[frozenset[str]] = []
        self.roads = self

    def run(self, answers: Mapping[str, Answer]) -> Any:
        ones = frozenset(id for id, answer in answers.items() if answer.value)
        self.tried.append(ones)
        far = self.further in answers and answers[self.further].value == 9.0
        wins = far or (bool(self.secret) and self.secret <= ones)
        return SimpleNamespace(pick="rival" if wins else "mine")

    def beyond(self, found: FactFlips) -> Iterator[Trial]:
        if found.fact == self.further:
            yield trial(found.fact, 9.0)


def trial(id: str, value: float = 1.0) -> Trial:
    return Trial(id, value, {id: Answer(value)}, "up")


def flips() -> list[FactFlips]:
    """Every fact helps the rival a little, the first of them most."""
    return [FactFlips(id, (), ((trial(id), 100 + place),)) for place, id in enumerate(NAMES)]


def found(plain: Plain) -> Overtake:
    return overtake(cast(Flipping, plain), "rival", flips())


@pytest.mark.parametrize("secret", ["ab", "gh", "abc", "fgh"])
def test_two_or_three_together_are_found_and_none_can_be_spared(secret: str) -> None:
    plain = Plain(set(secret))
    winning = found(plain)
    assert {one.fact for one in winning.trials} == set(secret)
    assert winning.pool == NAMES[: len(winning.pool)]
    smaller = [some for some in plain.tried if len(some) < len(secret)]
    assert all(len(some) <= len(winning.trials) for some in plain.tried)
    assert len(smaller) == (0 if len(secret) == 2 else 28)


@pytest.mark.parametrize("secret", ["", "abcd", "aj"])
def test_in_vain_says_what_was_tried(secret: str) -> None:
    """Four together are not tried, nor is a fact that helps less than eight others."""
    winning = found(Plain(set(secret)))
    assert winning == Overtake("rival", (), True, NAMES[:8])


def test_one_alone_is_found_first_even_beyond_the_value_that_changes_the_pair() -> None:
    winning = found(Plain({"a", "b"}, beyond="c"))
    assert [(one.fact, one.value) for one in winning.trials] == [("c", 9.0)]
    near = Flip("d", 0.0, 1.0, "up", "pairing", "rival", 2.0, trial("d"))
    far = Flip("e", 0.0, 1.0, "up", "pairing", "rival", 3.0, trial("e"))
    some = [FactFlips("e", (far,), ()), FactFlips("d", (near,), ())]
    assert overtake(cast(Flipping, Plain(set())), "rival", some).trials == (near.trial,)
