"""Where the ball is met: datum, and what is refused."""

from __future__ import annotations

import math

import pytest

from rules.golf.contact import above_centre, centred_face_height, height_up_face
from rules.problems import Problem

FIFTEEN = math.radians(15)


def test_clearance_shifts_the_family_of_faces() -> None:
    # 3 mm of ground clearance: the ball is met 3.1 mm lower, and a centred face is 6.2 mm less tall
    lower = height_up_face(FIFTEEN) - height_up_face(FIFTEEN, clearance=0.003)
    assert lower * 1000 == pytest.approx(3.1, abs=0.02)
    shift = centred_face_height(FIFTEEN) - centred_face_height(FIFTEEN, clearance=0.003)
    assert shift * 1000 == pytest.approx(6.2, abs=0.03)


def test_a_tee_lifts_the_strike_by_its_own_height_over_the_cosine() -> None:
    lifted = height_up_face(FIFTEEN, raised=0.01) - height_up_face(FIFTEEN)
    assert lifted == pytest.approx(0.01 / math.cos(FIFTEEN))


def test_above_centre_counts_from_the_projection_of_the_centre_of_mass() -> None:
    assert above_centre(height_up_face(FIFTEEN), 0.018) < 0.0 < above_centre(0.020, 0.018)


@pytest.mark.parametrize("loft", [0.0, -0.1, 1.4, math.nan])
def test_a_loft_that_is_none_is_refused(loft: float) -> None:
    with pytest.raises(Problem, match="loft"):
        height_up_face(loft)


@pytest.mark.parametrize("raised", [-0.02, 0.2, math.nan])
def test_a_lie_that_is_none_is_refused(raised: float) -> None:
    with pytest.raises(Problem, match="raised"):
        height_up_face(FIFTEEN, raised)
