"""Strike patterns: priors, and what a golfer's own marks make of them."""

from __future__ import annotations

import math

import pytest

from rules.golf.strike import Doubt, StrikePattern, by_handicap, learn, mark_on, scatter_with_length
from rules.problems import Problem

PRIOR = StrikePattern(0.0, 0.0, 0.010, 0.006)
DOUBT = Doubt(0.005, 0.004, 0.3, 0.4)


def test_a_prior_moves_with_contact_answers_and_length() -> None:
    thin_heel = PRIOR.moved(toe=-0.004, high=-0.003)
    assert (thin_heel.mean_toe, thin_heel.mean_high) == (-0.004, -0.003)
    longer = PRIOR.at_length(0.0254, 0.06)
    assert (longer.sd_toe, longer.sd_high) == pytest.approx((0.0106, 0.00636))
    assert PRIOR.at_length(-0.0254, 0.06).sd_toe == pytest.approx(0.010 * 0.94)
    assert scatter_with_length(-20 * 0.0254, 0.06) == 0.3
    assert PRIOR.marks == 0


def test_scale_by_handicap_is_straight_between_anchors_and_flat_beyond() -> None:
    anchors = [(0.0, 0.008), (20.0, 0.012)]
    assert [by_handicap(h, anchors) for h in (-3, 0, 5, 20, 40)] == pytest.approx(
        [0.008, 0.008, 0.009, 0.012, 0.012]
    )
    assert by_handicap(12.0, [(5.0, 0.01)]) == 0.01


@pytest.mark.parametrize("anchors", [[], [(10.0, 1.0), (10.0, 2.0)], [(10.0, 1.0), (0.0, 2.0)]])
def test_a_scale_out_of_order_is_refused(anchors: list[tuple[float, float]]) -> None:
    with pytest.raises(Problem, match="anchors"):
        by_handicap(5.0, anchors)


def test_no_marks_leave_the_prior() -> None:
    assert learn([], PRIOR, DOUBT) is PRIOR


def test_one_mark_moves_the_mean_by_its_weight_and_nothing_else() -> None:
    learnt = learn([(0.012, -0.006)], PRIOR, DOUBT)
    # prior variance 25, mark variance 100 mm2: a fifth of the way; 16 against 36: 16/52 of it
    assert learnt.mean_toe == pytest.approx(0.012 * 25 / 125)
    assert learnt.mean_high == pytest.approx(-0.006 * 16 / 52)
    assert (learnt.sd_toe, learnt.sd_high, learnt.correlation) == (0.010, 0.006, 0.0)
    assert learnt.marks == 1


def test_six_tight_marks_tighten_the_pattern_without_being_taken_at_their_word() -> None:
    toes, highs = (-4, -2, -5, -3, -4, -3), (-3, -4, -2, -3, -4, -2)
    marks = [(toe / 1000, high / 1000) for toe, high in zip(toes, highs, strict=True)]
    learnt = learn(marks, PRIOR, DOUBT)
    sample = 0.0010488  # standard deviation of the six heel-toe readings, m
    assert sample < learnt.sd_toe < PRIOR.sd_toe
    assert -0.0035 < learnt.mean_toe < -0.002


def test_identical_marks_do_not_make_a_perfect_golfer() -> None:
    learnt = learn([(0.003, 0.0)] * 10, PRIOR, DOUBT)
    assert learnt.sd_toe >= 0.001
    assert learnt.mean_toe == pytest.approx(0.003, abs=0.0003)


def test_leaning_marks_show_a_correlation() -> None:
    marks = [(0.004 * i, 0.002 * i) for i in range(-4, 5)]
    assert 0.3 < learn(marks, PRIOR, DOUBT).correlation < 0.99
    assert learn(marks[:3], PRIOR, DOUBT).correlation == 0.0


def test_a_certain_prior_stands() -> None:
    sure = Doubt(0.0, 0.0, 0.0, 0.0)
    learnt = learn([(0.01, 0.01), (0.0, 0.02), (0.005, 0.0), (0.0, 0.0)], PRIOR, sure)
    assert (learnt.mean_toe, learnt.sd_high, learnt.correlation) == pytest.approx((0.0, 0.006, 0.0))


def test_a_mark_from_face_centre_in_the_pattern_s_datum() -> None:
    # 33 mm face, mark 4 mm under its centre, ball met at 16.4 mm by geometry: 12.5 against 16.4
    assert mark_on(-0.004, 0.033, 0.0164) == pytest.approx(-0.0039)


@pytest.mark.parametrize(
    "wrong",
    [(0.0, 0.0, -0.01, 0.005), (0.0, 0.0, 0.01, 0.3), (0.2, 0.0, 0.01, 0.005), (0.0, math.nan, 0.01, 0.005)],
)
def test_a_pattern_that_is_none_is_refused(wrong: tuple[float, float, float, float]) -> None:
    with pytest.raises(Problem):
        StrikePattern(*wrong)
    with pytest.raises(Problem, match="correlation"):
        StrikePattern(0.0, 0.0, 0.01, 0.005, 1.0)
