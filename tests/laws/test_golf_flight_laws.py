"""What physics says of flights, for any launch: monotone where it is monotone, and only there."""

from __future__ import annotations

import math
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.golf.air import density
from rules.golf.coefficients import LAWS, RPM, Law
from rules.golf.flight import Launch, fly, trajectory
from rules.golf.surface import CarrySurface

laws: st.SearchStrategy[Law] = st.sampled_from(tuple(LAWS))
speeds = st.floats(25, 85)
angles = st.floats(math.radians(4), math.radians(25))
spins = st.floats(2000 * RPM, 6000 * RPM)
airs = st.floats(0.9, 1.35)
modest = settings(max_examples=60, deadline=None)


@modest
@given(law=laws, speed=speeds, angle=angles, spin=spins, air=airs)
def test_a_faster_ball_carries_farther(law: Law, speed: float, angle: float, spin: float, air: float) -> None:
    slow, fast = (fly(Launch(v, angle, spin), air, law) for v in (speed, speed + 1.0))
    assert fast.carry > slow.carry
    assert fast.apex > slow.apex
    assert fast.time > slow.time


@modest
@given(law=laws, speed=speeds, angle=angles, spin=spins, air=airs)
def test_a_higher_launch_climbs_and_lands_steeper(
    law: Law, speed: float, angle: float, spin: float, air: float
) -> None:
    low, high = (fly(Launch(speed, one, spin), air, law) for one in (angle, angle + math.radians(0.5)))
    assert high.apex > low.apex
    assert high.time > low.time
    assert high.descent > low.descent


def test_carry_is_not_monotone_in_launch_or_spin() -> None:
    """Loft pays, and then stops paying: nothing may assume otherwise."""
    by_angle = [fly(Launch(58.0, math.radians(a), 3500 * RPM), 1.2).carry for a in range(2, 45)]
    by_spin = [fly(Launch(66.0, math.radians(9), rpm * RPM), 1.2).carry for rpm in range(2000, 6001, 200)]
    for carries in (by_angle, by_spin):
        assert carries[0] < max(carries) > carries[-1]


@modest
@given(law=laws, speed=speeds, angle=angles, spin=spins, air=airs)
def test_a_flight_stays_inside_what_a_vacuum_allows(
    law: Law, speed: float, angle: float, spin: float, air: float
) -> None:
    """Drag takes energy and nothing gives it back, so no ball climbs past v^2/2g."""
    flight = fly(Launch(speed, angle, spin), air, law)
    assert 0.0 < flight.apex < speed * speed / (2 * 9.80665)
    assert 0.0 < flight.descent < math.pi / 2
    assert 0.0 < flight.carry < speed * flight.time


@modest
@given(law=laws, speed=speeds, angle=angles, spin=spins, n=st.integers(2, 90))
def test_the_picture_is_of_the_same_flight(law: Law, speed: float, angle: float, spin: float, n: int) -> None:
    launch = Launch(speed, angle, spin)
    flight, points = fly(launch, 1.2, law), trajectory(launch, 1.2, law, n)
    assert len(points) == n
    assert points[0] == (0.0, 0.0)
    assert math.isclose(points[-1][0], flight.carry, rel_tol=1e-9)
    assert points[-1][1] < 1e-6
    assert max(y for _, y in points) <= flight.apex + 1e-6
    assert all(b[0] > a[0] for a, b in pairwise(points))


@modest
@given(law=laws, speed=st.floats(1, 119), spin=st.floats(0, 1200))
def test_coefficients_are_bounded_everywhere(law: Law, speed: float, spin: float) -> None:
    drag, lift = LAWS[law].function(speed, spin)
    beyond = "no golf ball has been measured so: let the law stand still before it comes there"
    assert 0.19 < drag < 0.65, beyond
    assert 0.05 < lift < 0.65, beyond


@modest
@given(kelvin=st.floats(240, 320), humidity=st.floats(0, 0.95), altitude=st.floats(-400, 5900))
def test_air_thins_with_heat_height_and_damp(kelvin: float, humidity: float, altitude: float) -> None:
    here = density(kelvin, humidity, altitude)
    assert density(kelvin + 1.0, humidity, altitude) < here
    assert density(kelvin, humidity, altitude + 50.0) < here
    assert density(kelvin, humidity + 0.05, altitude) < here


@settings(max_examples=15, deadline=None)
@given(
    law=laws,
    balls=st.lists(st.tuples(st.floats(35, 75), st.floats(0.08, 0.35), spins), min_size=2, max_size=5),
)
def test_the_surface_does_not_depend_on_what_was_asked_before(
    law: Law, balls: list[tuple[float, float, float]]
) -> None:
    forward, backward = CarrySurface(1.2, law), CarrySurface(1.2, law)
    there = [forward.carry(*ball) for ball in balls]
    back = [backward.carry(*ball) for ball in reversed(balls)]
    assert there == list(reversed(back))
    assert there == [forward.fly(Launch(*ball)).carry for ball in balls]
