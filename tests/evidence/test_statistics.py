"""The statistics against scipy, against published examples and against counting by hand."""

from __future__ import annotations

import math
from itertools import product
from typing import Any, cast

import numpy as np
import pytest
from scipy import stats

from rules.evidence.correction import holm
from rules.evidence.counts import compare_counts, count
from rules.evidence.intervals import carry_figure, mean_figure, scatter_figure, spread_figure
from rules.evidence.needed import MOST, balls_for_means, balls_for_shares
from rules.evidence.permutation import compare
from rules.evidence.resample import draws, share_below, spread_out
from rules.evidence.student import cumulative, quantile

MICE = ([94.0, 197, 16, 38, 99, 141, 23], [52.0, 104, 146, 10, 51, 30, 40, 27, 46])
"""Survival in days, treated and control: B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap
(1993), table 2.1."""
CARRIES = ([182.0, 178, 170, 184, 151, 180], [160.0, 171, 165, 150, 168, 120])


@pytest.mark.parametrize("freedom", [1, 2, 2.5, 5, 11, 40, 500])
@pytest.mark.parametrize("t", [-30.0, -3.1, -0.2, 0.0, 1e-9, 0.7, 2.2, 12.0])
def test_student_s_t_agrees_with_scipy(t: float, freedom: float) -> None:
    assert cumulative(t, freedom) == pytest.approx(float(stats.t.cdf(t, freedom)), rel=1e-9, abs=1e-13)


@pytest.mark.parametrize("freedom", [1, 2, 5, 11, 200])
@pytest.mark.parametrize("share", [0.001, 0.025, 0.3, 0.5, 0.975, 0.9995])
def test_quantiles_of_t_agree_with_scipy(share: float, freedom: float) -> None:
    assert quantile(share, freedom) == pytest.approx(float(stats.t.ppf(share, freedom)), rel=1e-7, abs=1e-6)


def test_what_is_no_share_or_no_freedom_is_refused() -> None:
    with pytest.raises(ValueError, match="between 0 and 1"):
        quantile(1.0, 5)
    with pytest.raises(ValueError, match="above 0"):
        cumulative(1.0, 0)


def _scipy_p(first: list[float], second: list[float]) -> Any:
    def difference(x: Any, y: Any, axis: int = -1) -> Any:
        return np.mean(x, axis=axis) - np.mean(y, axis=axis)

    return cast(Any, stats).permutation_test((first, second), difference, vectorized=True, n_resamples=np.inf)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        CARRIES,
        MICE,
        ([1.0, 2, 3], [4.0, 5, 6]),
        ([1.0, 1, 1, 0], [0.0, 0, 1]),
        ([0.1, 0.2, 0.3], [0.1, 0.2, 0.3]),
    ],
)
def test_exact_permutation_agrees_with_scipy(first: list[float], second: list[float]) -> None:
    ours, theirs = compare(first, second), _scipy_p(first, second)
    assert ours.exact
    assert ours.deals == math.comb(len(first) + len(second), len(first))
    assert ours.value == pytest.approx(theirs.statistic)
    assert ours.p == pytest.approx(theirs.pvalue, abs=1e-12)


def test_the_published_mice() -> None:
    # The same book, section 15.2: difference 30.63, one-sided 0.132 by 1,000 random deals (from memory).
    found = compare(*MICE)
    assert found.value == pytest.approx(30.63, abs=0.01)
    assert found.p / 2 == pytest.approx(0.132, abs=0.02)


def test_a_shift_inside_the_interval_is_not_refused_and_one_outside_is() -> None:
    first, second = CARRIES
    found = compare(first, second)
    for shift, refused in ((found.low - 0.01, True), (found.low + 0.01, False), (found.high + 0.01, True)):
        moved = compare([value - shift for value in first], second)
        assert (moved.p <= 0.05) == refused


def test_many_balls_are_dealt_at_random_but_always_the_same() -> None:
    rng = np.random.default_rng(5)
    first, second = (list(map(float, rng.normal(m, 8, 20))) for m in (170, 176))
    ours = compare(first, second)
    assert not ours.exact
    assert ours == compare(first, second)
    t = stats.ttest_ind(first, second)
    assert ours.p == pytest.approx(float(t.pvalue), abs=0.02)
    band = t.confidence_interval()
    assert (ours.low, ours.high) == pytest.approx((float(band.low), float(band.high)), abs=0.8)


def test_too_few_balls_have_no_interval() -> None:
    found = compare([5.0, 6.0], [1.0, 2.0])
    assert (found.low, found.high) == (-math.inf, math.inf)
    assert found.p == pytest.approx(2 / 6)
    assert compare([5.0], [1.0, 2.0, 3.0]).p == pytest.approx(2 / 4)
    with pytest.raises(ValueError, match="both clubs"):
        compare([], [1.0])


@pytest.mark.parametrize(("number", "of"), [(0, 6), (1, 6), (4, 6), (6, 6), (9, 12), (15, 148)])
def test_intervals_of_shares_agree_with_scipy(number: int, of: int) -> None:
    ours = count(number, of)
    theirs = stats.binomtest(number, of).proportion_ci(method="wilson")
    assert (ours.low, ours.high) == pytest.approx((theirs.low, theirs.high), abs=1e-12)


@pytest.mark.parametrize("table", [((5, 6), (2, 6)), ((6, 6), (0, 6)), ((3, 6), (3, 6)), ((9, 12), (1, 5))])
def test_counts_agree_with_fisher_in_scipy(table: tuple[tuple[int, int], tuple[int, int]]) -> None:
    (a, m), (b, n) = table
    ours = compare_counts(*table)
    square = [[a, m - a], [b, n - b]]
    sides = [float(cast(Any, stats).fisher_exact(square, alternative=s).pvalue) for s in ("greater", "less")]
    assert ours.p == pytest.approx(min(1.0, 2 * min(sides)))
    assert ours.p == pytest.approx(compare([1.0] * a + [0.0] * (m - a), [1.0] * b + [0.0] * (n - b)).p)


def test_the_published_interval_of_a_difference_of_shares() -> None:
    # R. G. Newcombe, Statistics in Medicine 17 (1998) 873, table II, 56/70 against 48/80, method 10: 0.0524
    # to 0.3339 (figures from memory).
    found = compare_counts((56, 70), (48, 80))
    assert (found.low, found.high) == pytest.approx((0.0524, 0.3339), abs=5e-5)


def test_counts_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="7 of 6"):
        count(7, 6)
    with pytest.raises(ValueError, match="both clubs"):
        compare_counts((0, 0), (1, 2))
    assert (count(0, 0).low, count(0, 0).high, count(0, 0).share) == (0.0, 1.0, 0.0)


@pytest.mark.parametrize(
    ("ps", "corrected"),
    [
        ([0.01, 0.02, 0.03], [0.03, 0.04, 0.04]),
        ([0.03, 0.01, 0.9, 0.01], [0.06, 0.04, 0.9, 0.04]),
        ([0.5, 0.6], [1.0, 1.0]),
        ([], []),
    ],
)
def test_holm_by_hand(ps: list[float], corrected: list[float]) -> None:
    assert holm(ps) == pytest.approx(corrected)


def test_every_draw_of_four_balls_is_there_with_its_weight() -> None:
    by_hand: dict[tuple[int, ...], float] = {}
    for draw in product(range(4), repeat=4):
        key = tuple(sorted(draw))
        by_hand[key] = by_hand.get(key, 0.0) + 1 / 4**4
    assert dict(draws(4)) == pytest.approx(by_hand)
    assert len(draws(7)) == math.comb(13, 7)
    assert math.fsum(weight for _, weight in draws(12)) == pytest.approx(1.0)
    assert draws(12) is draws(12)


def test_shares_of_a_weighted_list() -> None:
    redrawn = spread_out(2, lambda draw: float(sum(draw)))
    assert redrawn == [(0.0, 0.25), (1.0, 0.5), (2.0, 0.25)]
    assert [share_below(redrawn, share) for share in (0.1, 0.25, 0.3, 0.75, 0.8, 1.0)] == [0, 0, 1, 1, 2, 2]


def test_the_interval_of_a_mean_agrees_with_scipy_s_bootstrap_at_the_widened_level() -> None:
    rng = np.random.default_rng(2)
    values = list(map(float, rng.normal(170, 9, 12)))
    ours = mean_figure(values)
    assert ours is not None
    n = len(values)
    level = 1 - 2 * float(stats.norm.cdf(-math.sqrt(n / (n - 1)) * stats.t.ppf(0.975, n - 1)))
    theirs = stats.bootstrap(
        (values,), np.mean, confidence_level=level, method="percentile", n_resamples=40_000, rng=rng
    ).confidence_interval
    assert (ours.low, ours.high) == pytest.approx((theirs.low, theirs.high), abs=0.7)
    t = stats.t.interval(0.95, n - 1, np.mean(values), stats.sem(values))
    assert ours.high - ours.low == pytest.approx(t[1] - t[0], rel=0.1)


def test_few_values_say_how_little_they_know() -> None:
    assert mean_figure([]) is None
    two = mean_figure([1.0, 3.0])
    assert two is not None
    assert (two.value, two.low, two.high) == (2.0, -math.inf, math.inf)
    assert spread_figure([1.0]) is None
    same = spread_figure([4.0, 4.0, 4.0, 4.0])
    assert same is not None
    assert (same.value, same.low, same.high) == (0.0, 0.0, math.inf)


def test_a_scatter_is_the_root_of_both_variances() -> None:
    marks = [(0.001, 0.002), (-0.004, 0.001), (0.006, -0.003), (0.0, 0.0), (0.003, 0.004)]
    xs, ys = [m[0] for m in marks], [m[1] for m in marks]
    wanted = math.sqrt(np.var(xs, ddof=1) + np.var(ys, ddof=1))
    found = scatter_figure(marks)
    assert found is not None
    assert found.low < found.value == pytest.approx(wanted)
    assert found.high > found.value


def test_six_balls_without_a_miss_do_not_promise_that_none_comes() -> None:
    good = [170.0, 172, 168, 171, 169, 170]
    bare, honest = mean_figure(good), carry_figure(good, [], 0.5)
    assert bare is not None
    assert honest is not None
    assert honest.value == bare.value
    assert honest.low < bare.low - 10
    assert honest.high == pytest.approx(bare.high)
    # Too few got up: the balls are taken as they are.
    poor = carry_figure(good[:2], [60.0, 20.0, 90.0, 80.0], 0.5)
    assert poor == mean_figure([*good[:2], 60.0, 20.0, 90.0, 80.0])


@pytest.mark.parametrize(("difference", "spread"), [(10.0, 12.0), (6.0, 8.0), (20.0, 9.0), (8.0, 12.0)])
@pytest.mark.parametrize("level", [0.05, 0.0125])
def test_so_many_balls_have_the_power_asked_for(difference: float, spread: float, level: float) -> None:
    n = balls_for_means(difference, spread, level, 0.8)
    assert n is not None

    def power(balls: int) -> float:
        """Of the two-sample t-test, by the noncentral t of scipy."""
        freedom, away = 2 * balls - 2, difference / spread * math.sqrt(balls / 2)
        edge = stats.t.ppf(1 - level / 2, freedom)
        return float(1 - stats.nct.cdf(edge, freedom, away) + stats.nct.cdf(-edge, freedom, away))

    assert power(n + 1) >= 0.8
    assert power(max(2, n - 2)) < 0.8 or n <= 4


def test_so_many_balls_tell_two_shares_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    # J. L. Fleiss, Statistical Methods for Rates and Proportions, 1981, table A.3: about 92 a group for 0.6
    # and 0.8 at 5 % and 80 %, some 10 (2 / difference) of them its continuity correction (from memory).
    monkeypatch.setattr("rules.evidence.needed.MOST", 200)
    assert balls_for_shares(0.6, 0.8, 0.05, 0.8) == pytest.approx(82, abs=1)
    rng = np.random.default_rng(11)
    n = balls_for_shares(0.35, 0.85, 0.05, 0.8)
    assert n is not None
    seen = [compare_counts((int(a), n), (int(b), n)).p <= 0.05
            for a, b in zip(rng.binomial(n, 0.85, 400), rng.binomial(n, 0.35, 400), strict=True)]  # fmt: skip
    assert 0.65 <= float(np.mean(seen)) <= 0.92


def test_what_would_take_a_season_is_not_promised() -> None:
    assert balls_for_means(0.5, 10, 0.05, 0.8) is None
    assert balls_for_means(0.0, 10, 0.05, 0.8) is None
    assert balls_for_shares(0.5, 0.5, 0.05, 0.8) is None
    assert (balls_for_means(100.0, 1.0, 0.05, 0.8) or 0) >= 2
    assert MOST == 60
