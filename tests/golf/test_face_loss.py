"""Ball speed lost over lies: impact alone."""

from __future__ import annotations

import math

import pytest

from rules.golf.face_loss import Blow, loss, on_lie
from rules.golf.impact import Clubhead, strike
from rules.golf.quadrature import Face, Lie
from rules.golf.strike import StrikePattern

HEAD = Clubhead(0.215, 0.82, 0.2, 0.02, 1500e-7, 2300e-7)
BLOW = Blow(math.radians(15), math.radians(-3), HEAD)
FACE = Face(math.radians(18), 0.032, 0.016)
SURE = StrikePattern(0.0, 0.0, 0.0, 0.0)
BARE = Lie(1.0, 0.0, 0.0)


def test_one_strike_on_one_lie_is_one_blow() -> None:
    """Without scatter the loss is that of the one strike that geometry says, worked out by the impact."""
    found = on_lie(SURE, BARE, FACE, BLOW)
    # r (1 - sin 15) / cos 15 with r = 21.335 mm: 16.37 mm up the face, 0.37 above a line at 16 mm
    assert found.met * 1000 == pytest.approx(
        21.335 * (1 - math.sin(BLOW.delivered)) / math.cos(BLOW.delivered)
    )
    assert found.above == pytest.approx(found.met - 0.016)
    speeds = [strike(1.0, BLOW.delivered, BLOW.attack, HEAD, 0.0, high).speed for high in (found.above, 0.0)]
    assert found.lost == pytest.approx(1 - speeds[0] / speeds[1], abs=1e-9)


def test_a_ball_higher_above_the_line_loses_more() -> None:
    lies = [Lie(1.0, high / 1000, high / 1000) for high in (2, 6, 12, 18)]
    lost = [on_lie(SURE, lie, FACE, BLOW).lost for lie in lies]
    assert lost == sorted(lost)
    assert all(one > 0 for one in lost[1:])


def test_scatter_low_to_high_costs_and_heel_to_toe_is_left_out() -> None:
    lie = [Lie(1.0, 0.001, 0.004)]
    steady = loss(StrikePattern(0.0, 0.0, 0.0, 0.003), lie, FACE, BLOW)
    wild = loss(StrikePattern(0.0, 0.0, 0.0, 0.008), lie, FACE, BLOW)
    assert 0 <= steady < wild < 0.1
    assert loss(StrikePattern(0.004, 0.0, 0.012, 0.008, 0.4), lie, FACE, BLOW) == pytest.approx(wild)
