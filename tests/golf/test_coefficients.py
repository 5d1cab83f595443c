"""The two laws of drag and lift, and the cells that flights read them from."""

from __future__ import annotations

import random

import pytest

from rules.golf.ball import RADIUS
from rules.golf.coefficients import LAWS, ROWS, RPM, SPIN_STEP, Law, Pair, SpinRows, bearman_harvey, naruo


def from_cells(law: Law, speed: float, spin: float) -> Pair:
    c0, c1, c2, c3, l0, l1, l2, l3 = ROWS[law][int(spin / SPIN_STEP)][int(speed * 10)]
    return c0 + c1 * speed + spin * (c2 + c3 * speed), l0 + l1 * speed + spin * (l2 + l3 * speed)


def test_first_law_is_linear_between_nodes() -> None:
    # halfway between four nodes of the printed tables: rows 3000 and 3200 rpm, columns 55.2 and 63.1 m/s
    drag = (0.2578 + 0.2560 + 0.2602 + 0.2579) / 4
    lift = (0.1856 + 0.1702 + 0.1916 + 0.1757) / 4
    assert bearman_harvey((55.2 + 63.1) / 2, 3100 * RPM) == pytest.approx((drag, lift), abs=1e-12)


@pytest.mark.parametrize(
    ("speed", "rpm", "edge_speed", "edge_rpm"),
    [
        (10, 3000, 13.7, 3000),
        (100, 3000, 88.1, 3000),
        (50, 900, 50, 2000),
        (50, 9000, 50, 6000),
        (5, 0, 13.7, 2000),
    ],
)
def test_first_law_stands_still_outside_its_range(
    speed: float, rpm: float, edge_speed: float, edge_rpm: float
) -> None:
    assert bearman_harvey(speed, rpm * RPM) == pytest.approx(bearman_harvey(edge_speed, edge_rpm * RPM))


def test_second_law_stands_still_outside_its_range() -> None:
    assert naruo(50.0, 0.0) == naruo(50.0, 0.03 * 50.0 / RADIUS)
    assert naruo(5.0, 1000.0) == naruo(5.0, 1.13 * 5.0 / RADIUS)


@pytest.mark.parametrize("law", LAWS)
def test_cells_hold_the_law(law: Law) -> None:
    tolerance = 1e-12 if law == "first" else 1e-3
    dice = random.Random(4)
    for _ in range(3000):
        speed, spin = dice.uniform(20, 100), dice.uniform(1500, 7000) * RPM
        exact = pytest.approx(LAWS[law].function(speed, spin), abs=tolerance)
        blurred = "cells blur it: let it have no sharp edge where its range ends, or finer `nodes` in `LAWS`"
        assert from_cells(law, speed, spin) == exact, blurred


@pytest.mark.parametrize("law", LAWS)
def test_bands_beyond_the_last_are_the_edge_bands(law: Law) -> None:
    rows = SpinRows(LAWS[law])
    assert rows[-3] is rows[0]
    assert rows[75] is rows[60]
    assert len(rows[12]) == len(rows[0]) == 1200
