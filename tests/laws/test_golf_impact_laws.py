"""What physics says of blows, for any head: momentum, energy, symmetry, and monotone where it is monotone."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.golf.ball import MASS, RADIUS
from rules.golf.contact import height_up_face
from rules.golf.impact import Clubhead, blow, strike

speeds = st.floats(20, 60)
lofts = st.floats(math.radians(6), math.radians(40))
attacks = st.floats(math.radians(-8), math.radians(5))
offsets = st.floats(-0.02, 0.02)
heads = st.builds(
    Clubhead,
    st.floats(0.18, 0.30),
    st.floats(0.70, 0.83),
    st.floats(0.0, 0.3),
    st.floats(0.0, 0.03),
    st.floats(1e-4, 3e-4),
    st.floats(1.5e-4, 5e-4),
)
modest = settings(max_examples=80, deadline=None)


@modest
@given(speed=speeds, loft=lofts, attack=attacks, head=heads, toe=offsets, high=offsets)
def test_a_launch_grows_in_proportion_to_head_speed(
    speed: float, loft: float, attack: float, head: Clubhead, toe: float, high: float
) -> None:
    one, two = (strike(v, loft, attack, head, toe, high) for v in (speed, speed * 1.1))
    assert two.speed == pytest.approx(1.1 * one.speed, rel=1e-12)
    assert two.spin == pytest.approx(1.1 * one.spin, rel=1e-9, abs=1e-9)
    assert two.angle == pytest.approx(one.angle, rel=1e-12)


@modest
@given(speed=speeds, loft=lofts, attack=attacks, head=heads)
def test_heavier_and_livelier_heads_send_the_ball_faster(
    speed: float, loft: float, attack: float, head: Clubhead
) -> None:
    base = strike(speed, loft, attack, head).speed
    assert strike(speed, loft, attack, replace(head, mass=head.mass + 0.01)).speed > base
    assert strike(speed, loft, attack, replace(head, restitution=head.restitution + 0.01)).speed > base


@modest
@given(speed=speeds, loft=lofts, attack=attacks, head=heads)
def test_more_loft_is_less_speed_more_launch_more_spin(
    speed: float, loft: float, attack: float, head: Clubhead
) -> None:
    less, more = (strike(speed, one, attack, head) for one in (loft, loft + math.radians(1)))
    assert more.speed < less.speed
    assert more.angle > less.angle
    assert more.spin > less.spin


@modest
@given(speed=speeds, loft=lofts, attack=attacks, head=heads, toe=offsets)
def test_heel_and_toe_cost_the_same_and_centre_costs_least(
    speed: float, loft: float, attack: float, head: Clubhead, toe: float
) -> None:
    there, mirrored = (strike(speed, loft, attack, head, one) for one in (toe, -toe))
    assert there == mirrored
    assert there.speed <= strike(speed, loft, attack, head).speed * (1 + 1e-12)


@modest
@given(
    speed=speeds,
    loft=st.floats(math.radians(6), math.radians(17)),
    attack=attacks,
    head=heads,
    high=st.floats(-0.015, 0.014),
)
def test_a_higher_strike_launches_higher_with_less_spin(
    speed: float, loft: float, attack: float, head: Clubhead, high: float
) -> None:
    """Vertical gear effect: it needs depth, and a ball that is met nearly square on."""
    deep = replace(head, cg_depth=0.02)
    low, top = (strike(speed, loft, attack, deep, 0.0, one) for one in (high, high + 0.001))
    assert top.angle > low.angle
    assert top.spin < low.spin


@modest
@given(speed=speeds, loft=lofts, attack=attacks, head=heads, toe=offsets, high=offsets)
def test_no_blow_makes_energy(
    speed: float, loft: float, attack: float, head: Clubhead, toe: float, high: float
) -> None:
    """The ball, with its spin, never leaves with more energy than the head brought."""
    rolling = replace(head, spin_grip=0.0)
    struck = blow(speed, loft, attack, rolling, toe, high)
    spin2 = struck.launch.spin**2 + struck.sidespin**2
    ball = 0.5 * MASS * struck.launch.speed**2 + 0.2 * MASS * RADIUS**2 * spin2
    assert ball < 0.5 * rolling.mass * speed**2


@modest
@given(speed=speeds, loft=lofts, attack=attacks, head=heads, toe=st.floats(0.001, 0.02))
def test_gear_effect_is_mirrored_heel_to_toe(
    speed: float, loft: float, attack: float, head: Clubhead, toe: float
) -> None:
    out, back = (blow(speed, loft, attack, head, one) for one in (toe, -toe))
    assert out.start == -back.start
    assert out.sidespin == -back.sidespin
    assert out.sidespin >= 0.0


@modest
@given(
    loft=st.floats(math.radians(10), math.radians(50)),
    raised=st.floats(0, 0.03),
    attack=st.floats(math.radians(-8), 0),
)
def test_where_the_ball_is_met(loft: float, raised: float, attack: float) -> None:
    here = height_up_face(loft, raised, attack)
    assert height_up_face(loft, raised + 0.001, attack) > here
    assert height_up_face(loft, raised, attack, clearance=0.001) < here
    if raised == 0.0:
        assert height_up_face(loft + 0.01, raised, attack) < here
