"""The smallest set that answers every counterexample, against every set there is."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.inquiry.hitting import Set, Spent, hitting, smallest

THINGS = tuple("abcdefgh")
families = st.lists(st.frozensets(st.sampled_from(THINGS), min_size=1, max_size=4), max_size=9)


def hits(held: tuple[str, ...], sets: list[Set]) -> bool:
    return all(one & set(held) for one in sets)


def fewest(sets: list[Set]) -> int:
    """The size of a smallest set that hits all, by trying every one."""
    return next(
        n for n in range(len(THINGS) + 1) if any(hits(some, sets) for some in combinations(THINGS, n))
    )


@settings(max_examples=200, deadline=None)
@given(families)
def test_no_set_is_smaller_than_the_one_that_hits(sets: list[Set]) -> None:
    held = hitting(THINGS, sets)
    assert hits(held, sets)
    assert len(held) == fewest(sets)
    assert list(held) == sorted(held)


@settings(max_examples=200, deadline=None)
@given(families, st.lists(st.integers(0, 8), max_size=3))
def test_counterexamples_lead_to_the_smallest_set_without_any(secret: list[Set], known: list[int]) -> None:
    """What spoils is told only when it is asked for, one at a time."""
    asked: list[Set] = []

    def counterexample(held: Set) -> Set | None:
        asked.append(held)
        return next((one for one in secret if not one & held), None)

    found = smallest(THINGS, counterexample, [secret[i] for i in known if i < len(secret)])
    assert found.found is not None
    assert hits(found.found, secret)
    assert len(found.found) == found.at_least == fewest(secret)
    assert len(asked) <= len(secret) + 1


@settings(max_examples=100, deadline=None)
@given(families, st.integers(0, 4))
def test_a_search_that_is_stopped_keeps_a_true_lower_bound(secret: list[Set], most: int) -> None:
    asked: list[Set] = []

    def counterexample(held: Set) -> Set | None:
        if len(asked) >= most:
            raise Spent
        asked.append(held)
        return next((one for one in secret if not one & held), None)

    found = smallest(THINGS, counterexample)
    assert found.at_least <= fewest(secret)
    assert found.found is None or hits(found.found, secret)
    assert found.found is not None or len(asked) == most
    assert set(found.hit) <= set(secret)
