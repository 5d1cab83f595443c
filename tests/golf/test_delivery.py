"""Delivery from measured launches: what is known comes back, what is not stays a belief."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from rules.golf.delivery import Delivery, Estimate, Seen, learn_delivery
from rules.golf.impact import Clubhead, strike
from rules.problems import Problem

HEAD = Clubhead(0.215, 0.82, 0.2)
DEGREE = math.radians(1)
PRIOR = Delivery(
    Estimate(38.0, 0.6),
    Estimate(12 * DEGREE, 2 * DEGREE),
    Estimate(-2 * DEGREE, 1.5 * DEGREE),
    Estimate(0.82, 0.02),
)


def seen_of(speed: float, loft: float, attack: float, restitution: float, finely: float = 1.0) -> Seen:
    launch = strike(speed, loft, attack, replace(HEAD, restitution=restitution))
    return Seen(
        Estimate(launch.speed, 0.3 * finely),
        Estimate(launch.angle, 0.4 * DEGREE * finely),
        Estimate(launch.spin, 15.0 * finely),
    )


def test_nothing_seen_leaves_the_belief() -> None:
    assert learn_delivery(Seen(), PRIOR, HEAD) is PRIOR
    held = Delivery(Estimate(38.0, 0.0), Estimate(0.2, 0.0), Estimate(-0.04, 0.0), Estimate(0.82, 0.0))
    assert learn_delivery(seen_of(38, 0.2, -0.04, 0.82), held, HEAD) is held


@pytest.mark.parametrize("loft", [9.0, 11.0, 14.5, 17.0])
@pytest.mark.parametrize("attack", [-4.0, 0.0])
def test_fine_measurements_bring_loft_and_attack_back(loft: float, attack: float) -> None:
    speed_known = replace(PRIOR, speed=Estimate(38.0, 0.0))
    found = learn_delivery(seen_of(38, loft * DEGREE, attack * DEGREE, 0.80, finely=0.01), speed_known, HEAD)
    assert found.loft.value == pytest.approx(loft * DEGREE, abs=0.05 * DEGREE)
    assert found.attack.value == pytest.approx(attack * DEGREE, abs=0.1 * DEGREE)
    assert found.restitution.value == pytest.approx(0.80, abs=0.003)
    assert found.speed == Estimate(38.0, 0.0)


def test_measuring_narrows_and_never_widens() -> None:
    found = learn_delivery(seen_of(38.5, 14 * DEGREE, -3 * DEGREE, 0.81), PRIOR, HEAD)
    for name in ("speed", "loft", "attack", "restitution"):
        assert 0.0 < getattr(found, name).spread <= getattr(PRIOR, name).spread * (1 + 1e-9)
    assert found.loft.spread < 0.5 * PRIOR.loft.spread
    assert 13 * DEGREE < found.loft.value < 14.5 * DEGREE


def test_launch_alone_moves_loft_toward_it() -> None:
    high = Seen(launch=Estimate(13 * DEGREE, 0.5 * DEGREE))
    found = learn_delivery(high, PRIOR, HEAD)
    assert found.loft.value > PRIOR.loft.value + 2 * DEGREE
    assert found.restitution.value == pytest.approx(PRIOR.restitution.value, abs=3e-3)


def test_what_cannot_be_explained_shows_as_misfit() -> None:
    fits = learn_delivery(seen_of(38, 12 * DEGREE, -2 * DEGREE, 0.82), PRIOR, HEAD)
    wrong = learn_delivery(Seen(ball_speed=Estimate(80.0, 0.3)), PRIOR, HEAD)
    assert fits.misfit < 0.1
    assert wrong.misfit > 5.0
    assert wrong.restitution.value <= 1.0


def test_a_measurement_without_a_spread_is_refused() -> None:
    with pytest.raises(Problem, match="spread"):
        learn_delivery(Seen(launch=Estimate(0.2, 0.0)), PRIOR, HEAD)
