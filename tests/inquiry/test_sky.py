"""Fliers over a grid of air densities, against flights computed outright."""

from __future__ import annotations

import math
from random import Random

import pytest

from rules.golf.coefficients import LAWS
from rules.golf.flight import Launch, fly
from rules.golf.surface import CarrySurface
from rules.inquiry.sky import GRID, Sky

YARD = 0.9144


def launches(count: int) -> list[tuple[Launch, float]]:
    dice = Random(2)
    return [
        (
            Launch(dice.uniform(40, 72), dice.uniform(0.14, 0.36), dice.uniform(250, 600)),
            dice.uniform(1.0, 1.3),
        )
        for _ in range(count)
    ]


@pytest.mark.parametrize("law", LAWS)
def test_flights_between_densities_are_as_good_as_those_on_the_grid(law: str) -> None:
    sky = Sky(1.2, law)
    off = [sky(air)(one).carry - fly(one, air, law).carry for one, air in launches(400)]
    assert math.sqrt(sum(x * x for x in off) / len(off)) < 0.1 * YARD


def test_its_own_air_needs_one_surface() -> None:
    sky, launch = Sky(1.1873), Launch(60.0, 0.22, 400.0)
    own, between = sky(1.1873), sky(1.1873 + GRID / 2)
    assert isinstance(own.__self__, CarrySurface)  # type: ignore[attr-defined]
    assert not hasattr(between, "__self__")
    flight = own(launch)
    assert between(launch).carry < flight.carry
    assert sky(1.1873)(launch) == flight


def test_what_one_road_had_flown_serves_every_other() -> None:
    one, other = Sky(1.1873), Sky(1.1873, rounded=True)
    assert one(1.1873) == other(1.1873)
    assert one(1.1873 + GRID / 2) is one(1.1873 + GRID / 2)
    assert one(1.1873) != Sky(1.1873, "second")(1.1873)


def test_a_rounded_sky_takes_the_nearest_air_and_moves_all_clubs_alike() -> None:
    sky, exact = Sky(1.2, rounded=True), Sky(1.2)
    strong, weak = Launch(64.0, 0.2, 350.0), Launch(60.0, 0.27, 480.0)
    for air in (1.2 + 0.4 * GRID, 1.2 - 0.4 * GRID, 1.2 + 1.3 * GRID):
        out = [sky(air)(one).carry - exact(air)(one).carry for one in (strong, weak)]
        assert all(abs(one) < 2 * YARD for one in out)
        assert abs(out[0] - out[1]) < 0.4 * YARD
