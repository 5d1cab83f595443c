"""Laws of evidence: what neither the order of balls and clubs nor a shift of all of them may change."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.evidence.comparing import Rules, compared
from rules.evidence.correction import holm
from rules.evidence.counts import compare_counts, count
from rules.evidence.intervals import mean_figure, spread_figure
from rules.evidence.permutation import compare
from rules.facts.subject import Shot
from rules.facts.tried import Tried
from rules.golf.impact import Clubhead

values = st.lists(st.integers(0, 250).map(float), min_size=1, max_size=7)
RULES = Rules(0.05, 0.8, 0.05, 1 / 3, 4.572, 0.2)


@settings(max_examples=60, deadline=None)
@given(first=values, second=values, shift=st.integers(-50, 50))
def test_a_difference_turned_round_is_the_same_the_other_way(
    first: list[float], second: list[float], shift: int
) -> None:
    one, other = compare(first, second), compare(second, first)
    assert one.p == pytest.approx(other.p)
    assert (one.value, one.low, one.high) == pytest.approx((-other.value, -other.high, -other.low))
    moved = compare([v + shift for v in first], [v + shift for v in second])
    assert moved.p == pytest.approx(one.p)
    assert moved.low == pytest.approx(one.low)
    assert one.low <= one.value + 1e-9
    assert one.value <= one.high + 1e-9
    assert 0.0 < one.p <= 1.0


@settings(max_examples=40, deadline=None)
@given(first=values, second=values, seed=st.randoms(use_true_random=False))
def test_the_order_of_the_balls_changes_nothing(first: list[float], second: list[float], seed: Any) -> None:
    found = compare(first, second)
    figure = mean_figure(first)
    seed.shuffle(first)
    seed.shuffle(second)
    again = compare(first, second)
    assert again.p == pytest.approx(found.p)
    assert (again.low, again.high) == pytest.approx((found.low, found.high))
    assert mean_figure(first) == pytest.approx(figure)


@settings(max_examples=40, deadline=None)
@given(balls=st.lists(st.integers(0, 250).map(float), min_size=3, max_size=7))
def test_intervals_hold_their_figure_and_stay_among_the_balls(balls: list[float]) -> None:
    middle, spread = mean_figure(balls), spread_figure(balls)
    assert middle is not None
    assert spread is not None
    assert min(balls) - 1e-9 <= middle.low <= middle.value <= middle.high <= max(balls) + 1e-9
    assert 0.0 <= spread.low <= spread.value <= spread.high
    double = spread_figure([2 * ball for ball in balls])
    assert double is not None
    assert double.value == pytest.approx(2 * spread.value)


@settings(max_examples=60, deadline=None)
@given(of=st.integers(1, 40), data=st.data())
def test_a_share_lies_in_its_interval_and_its_mirror_in_the_mirror(of: int, data: st.DataObject) -> None:
    number = data.draw(st.integers(0, of))
    one, other = count(number, of), count(of - number, of)
    assert one.low - 1e-12 <= one.share <= one.high + 1e-12
    assert (one.low, one.high) == pytest.approx((1 - other.high, 1 - other.low))
    assert compare_counts((number, of), (number, of)).p == 1.0


@settings(max_examples=60, deadline=None)
@given(ps=st.lists(st.floats(0, 1), max_size=12))
def test_a_correction_only_ever_makes_p_larger_and_keeps_their_order(ps: list[float]) -> None:
    corrected = holm(ps)
    assert all(new >= old and new <= 1.0 for old, new in zip(ps, corrected, strict=True))
    order = sorted(range(len(ps)), key=lambda i: ps[i])
    assert [corrected[i] for i in order] == sorted(corrected)


def club(name: str, carries: list[int]) -> Tried:
    shots = tuple(
        Shot(name, outcome="up" if carry > 130 else "thin", carry=float(carry), surface="turf")
        for carry in carries
    )
    return Tried(name, "fairway", 0.3, 0.01, Clubhead(0.212), 0.036, False, shots)


@settings(max_examples=25, deadline=None)
@given(carries=st.lists(st.integers(60, 200), min_size=6, max_size=12))
def test_clubs_compared_in_any_order_are_called_the_same(carries: list[int]) -> None:
    half = len(carries) // 3
    parts = (carries[:half], carries[half : 2 * half], carries[2 * half :])
    clubs = [club(name, part) for name, part in zip("abc", parts, strict=True)]
    found = {(one.club, one.measure): one for one in compared(RULES, clubs[0], clubs[1:])}
    again = {(one.club, one.measure): one for one in compared(RULES, clubs[0], clubs[:0:-1])}
    assert found == again
