"""Effective loft against a rotation in three dimensions, and what lie does to a face."""

from __future__ import annotations

import math

import pytest
from scipy.spatial.transform import Rotation

from rules.bench.loft import effective_loft, face_turn, offline
from rules.bench.problems import OutOfRange

DEG = math.pi / 180


@pytest.mark.parametrize("loft", [13.0, 18.0, 27.0])
@pytest.mark.parametrize("closed", [-2.0, 0.0, 1.0, 4.0])
@pytest.mark.parametrize("lie", [55.0, 57.0, 60.0])
def test_the_closed_form_is_a_turn_about_the_shaft(loft: float, closed: float, lie: float) -> None:
    """x toward the toe, y to the target, z up; the shaft leans back over the heel at the lie."""
    pitch, face, lean = loft * DEG, closed * DEG, lie * DEG
    normal = [
        -math.sin(face) * math.cos(pitch),
        math.cos(face) * math.cos(pitch),
        math.sin(pitch),
    ]
    shaft = [-math.cos(lean), 0.0, math.sin(lean)]

    def turned(angle: float) -> list[float]:
        return [float(v) for v in Rotation.from_rotvec([angle * part for part in shaft]).apply(normal)]

    low, high = -15 * DEG, 15 * DEG
    for _ in range(60):
        middle = (low + high) / 2
        if turned(middle)[0] > 0:
            low = middle
        else:
            high = middle
    squared = turned((low + high) / 2)
    assert squared[0] == pytest.approx(0, abs=1e-9)
    assert effective_loft(pitch, face, lean).geometry == pytest.approx(math.asin(squared[2]), abs=1e-9)


def test_about_cot_of_the_lie_for_each_degree() -> None:
    # cot 57 degrees = 0.6494: 2 degrees closed adds 1.30 to 18 by geometry and 2 by the bench rule
    got = effective_loft(18 * DEG, 2 * DEG, 57 * DEG)
    assert got.geometry / DEG == pytest.approx(18 + 2 * 0.6494, abs=0.01)
    assert got.bench_rule / DEG == pytest.approx(20)


def test_a_square_face_plays_its_loft_and_an_open_one_less() -> None:
    assert effective_loft(18 * DEG, 0, 57 * DEG).geometry / DEG == pytest.approx(18)
    assert effective_loft(18 * DEG, -2 * DEG, 57 * DEG).geometry / DEG < 17


def test_offline_by_hand() -> None:
    # atan(tan 21 * sin 1) = atan(0.38386 * 0.017452) = 0.3838 degree; 180 yd * tan of it = 1.206 yd
    turn = face_turn(21 * DEG, 1 * DEG)
    assert turn / DEG == pytest.approx(0.3838, abs=0.0002)
    assert offline(turn, 180 * 0.9144) / 0.9144 == pytest.approx(1.206, abs=0.001)
    assert face_turn(21 * DEG, -1 * DEG) == -turn


def test_what_no_head_has_is_refused() -> None:
    for loft, face, lie in ((0, 0, 57), (math.nan, 0, 57), (18, 20, 57), (18, 0, 90)):
        with pytest.raises(OutOfRange):
            effective_loft(loft * DEG, face * DEG, lie * DEG)
    with pytest.raises(OutOfRange, match="the loft is 0 deg"):
        effective_loft(0, 0, 57 * DEG)
