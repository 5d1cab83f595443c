"""What statistics says of strikes, for any golfer."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.golf.face_loss import Blow, loss
from rules.golf.flight import Flight, Launch
from rules.golf.impact import Clubhead
from rules.golf.outcome import Outcomes, Worth, play, speed_kept
from rules.golf.quadrature import Face, Lie, Strike, mixture, six_strikes, three_nodes
from rules.golf.strike import Doubt, StrikePattern, by_handicap, learn

patterns = st.builds(
    StrikePattern,
    st.floats(-0.008, 0.008),
    st.floats(-0.006, 0.006),
    st.floats(0.003, 0.015),
    st.floats(0.002, 0.008),
    st.floats(-0.8, 0.8),
)
lies = st.lists(
    st.builds(
        lambda share, low, width: Lie(share, low, low + width),
        st.floats(1, 100),
        st.floats(0, 0.012),
        st.floats(0, 0.008),
    ),
    min_size=1,
    max_size=5,
)
faces = st.builds(
    Face, st.floats(0.22, 0.45), st.floats(0.028, 0.042), st.floats(0.012, 0.02), st.floats(0, 0.004)
)
marks = st.lists(st.tuples(st.floats(-0.02, 0.02), st.floats(-0.015, 0.015)), min_size=1, max_size=12)
DOUBT = Doubt(0.006, 0.004, 0.3, 0.4)
HEAD = Clubhead(0.215, 0.82, 0.2, 0.02, 1500e-7, 2300e-7)
WORTH = Worth(0.15, 0.6, 0.5, 8.0, 16.0)
modest = settings(max_examples=80, deadline=None)


@modest
@given(pattern=patterns, lies=lies, face=faces)
def test_three_nodes_carry_five_moments(pattern: StrikePattern, lies: list[Lie], face: Face) -> None:
    moments = mixture(pattern, lies, face, -0.05)
    nodes = three_nodes(moments)
    assert math.fsum(w for _, w in nodes) == pytest.approx(1.0, rel=1e-12)
    assert all(w > 0 for _, w in nodes)
    mean = math.fsum(w * x for x, w in nodes)
    assert mean == pytest.approx(moments[0], abs=1e-12)
    sd = math.sqrt(moments[1])
    for order in (2, 3, 4, 5):
        found = math.fsum(w * ((x - mean) / sd) ** order for x, w in nodes)
        assert found == pytest.approx(moments[order - 1] / sd**order, abs=1e-6)


@modest
@given(pattern=patterns, lies=lies, face=faces)
def test_six_strikes_are_a_distribution_and_repeat_to_the_bit(
    pattern: StrikePattern, lies: list[Lie], face: Face
) -> None:
    strikes = six_strikes(pattern, lies, face, -0.05)
    assert len(strikes) == 6
    assert math.fsum(one.weight for one in strikes) == pytest.approx(1.0, rel=1e-12)
    assert all(0.0 <= one.high + face.cg_up_face <= face.height + 1e-15 for one in strikes)
    assert strikes == six_strikes(pattern, lies, face, -0.05)
    assert math.fsum(one.weight * one.toe for one in strikes) == pytest.approx(pattern.mean_toe, abs=1e-12)
    spread = math.fsum(one.weight * (one.toe - pattern.mean_toe) ** 2 for one in strikes)
    assert spread == pytest.approx(pattern.sd_toe**2, rel=1e-9)


@modest
@given(pattern=patterns, lies=lies, face=faces)
def test_the_order_and_the_scale_of_lies_do_not_matter(
    pattern: StrikePattern, lies: list[Lie], face: Face
) -> None:
    shuffled = [Lie(lie.share * 3, lie.low, lie.high) for lie in reversed(lies)]
    one, two = six_strikes(pattern, lies, face), six_strikes(pattern, shuffled, face)
    for a, b in zip(one, two, strict=True):
        assert (a.toe, a.high, a.weight) == pytest.approx((b.toe, b.high, b.weight), abs=1e-7)


@modest
@given(marks=marks, prior=patterns)
def test_learning_lies_between_the_prior_and_the_marks(
    marks: list[tuple[float, float]], prior: StrikePattern
) -> None:
    learnt = learn(marks, prior, DOUBT)
    for value, before, seen in (
        (learnt.mean_toe, prior.mean_toe, math.fsum(toe for toe, _ in marks) / len(marks)),
        (learnt.mean_high, prior.mean_high, math.fsum(high for _, high in marks) / len(marks)),
    ):
        assert min(before, seen) - 1e-12 <= value <= max(before, seen) + 1e-12
    assert learnt.marks == len(marks)
    assert learn(marks, prior, DOUBT) == learnt


@modest
@given(marks=marks, prior=patterns)
def test_many_marks_leave_the_prior_behind(marks: list[tuple[float, float]], prior: StrikePattern) -> None:
    seen = math.fsum(toe for toe, _ in marks) / len(marks)
    few, many = learn(marks, prior, DOUBT), learn(marks * 40, prior, DOUBT)
    assert abs(many.mean_toe - seen) <= abs(few.mean_toe - seen) + 1e-9
    assert abs(many.mean_toe - seen) < 0.002


@modest
@given(
    pattern=patterns, lies=lies, face=faces, delivered=st.floats(0.1, 0.5), attack=st.floats(-0.1, 0.03),
    scatter=st.floats(1.1, 2.0),
)  # fmt: skip
def test_a_face_never_gains_speed_and_heel_or_toe_changes_nothing_there(
    pattern: StrikePattern, lies: list[Lie], face: Face, delivered: float, attack: float, scatter: float
) -> None:
    blow = Blow(delivered, attack, HEAD)
    lost = loss(pattern, lies, face, blow)
    assert 0.0 <= lost < 1.0
    aside = replace(pattern, mean_toe=0.01, sd_toe=pattern.sd_toe * scatter, correlation=0.0)
    assert loss(aside, lies, face, blow) == lost


@modest
@given(pattern=patterns, lies=lies, face=faces, topped=st.floats(0, 0.4), more=st.floats(0.01, 0.5))
def test_more_mishits_are_less_carry(
    pattern: StrikePattern, lies: list[Lie], face: Face, topped: float, more: float
) -> None:
    strikes = six_strikes(pattern, lies, face)

    def flier(launch: Launch) -> Flight:
        """As far as it is fast: the law must hold whatever flies the ball."""
        return Flight(launch.speed * 3, launch.speed / 4, 0.5, 5.0, False)

    few, many = (
        play(38.0, (0.2, -0.05), HEAD, strikes, Outcomes(share, 0.0, 0.0), WORTH, flier)
        for share in (topped, topped + more)
    )
    assert many.usable_share <= few.usable_share
    assert many.expected < few.expected
    assert 0.0 <= few.usable_share <= 1.0


@modest
@given(pattern=patterns, lies=lies, face=faces, factor=st.floats(1.05, 2.0))
def test_more_heel_toe_scatter_keeps_less_speed(
    pattern: StrikePattern, lies: list[Lie], face: Face, factor: float
) -> None:
    straight = StrikePattern(0.0, pattern.mean_high, pattern.sd_toe, pattern.sd_high)
    wide = StrikePattern(0.0, pattern.mean_high, pattern.sd_toe * factor, pattern.sd_high)
    few, many = (speed_kept((0.2, -0.05), HEAD, six_strikes(one, lies, face)) for one in (straight, wide))
    assert many < few


@modest
@given(anchors=st.lists(st.floats(0, 1), min_size=2, max_size=5), handicap=st.floats(-8, 54))
def test_a_scale_by_handicap_stays_between_its_anchors(anchors: list[float], handicap: float) -> None:
    scale = [(i * 10.0, value) for i, value in enumerate(anchors)]
    assert min(anchors) - 1e-12 <= by_handicap(handicap, scale) <= max(anchors) + 1e-12


def test_a_strike_is_three_flights_when_nothing_leans() -> None:
    strikes = six_strikes(StrikePattern(0.0, 0.0, 0.01, 0.005), [Lie(1, 0, 0.002)], Face(0.26, 0.033, 0.016))
    flown: list[Launch] = []

    def flier(launch: Launch) -> Flight:
        flown.append(launch)
        return Flight(100.0, 20.0, 0.5, 5.0, False)

    play(38.0, (0.2, -0.05), HEAD, strikes, Outcomes(0.1, 0.1, 0.1), WORTH, flier)
    assert len(flown) == 4  # three heights and the centred strike
    assert isinstance(strikes[0], Strike)
