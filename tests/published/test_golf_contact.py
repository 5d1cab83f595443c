"""Where the ball is met: the geometry against common practice."""

from __future__ import annotations

import math

import pytest

from rules.golf.contact import centred_face_height, height_up_face


@pytest.mark.parametrize(("loft", "expected"), [(15, 16.4), (21, 14.7)])
def test_bare_turf(loft: float, expected: float) -> None:
    # r = 21.34 mm; worked by hand: (r - r sin L) / cos L
    assert height_up_face(math.radians(loft)) * 1000 == pytest.approx(expected, abs=0.05)


def test_faces_for_tight_lies_are_30_to_32_mm() -> None:
    # common practice; the doubling is a cross-check, so half a millimetre or so either side is agreement
    for loft in (16, 17, 18, 19):
        assert 29.5 <= centred_face_height(math.radians(loft)) * 1000 <= 32.5


def test_a_falling_blow_meets_the_ball_a_millimetre_or_two_higher() -> None:
    # common practice
    level = height_up_face(math.radians(15))
    for attack, low, high in ((-3, 0.5, 1.5), (-6, 1.5, 2.5)):
        assert low <= (height_up_face(math.radians(15), attack=math.radians(attack)) - level) * 1000 <= high
