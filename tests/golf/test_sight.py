"""Delivered loft from what is seen without instruments."""

from __future__ import annotations

import math

import pytest

from rules.golf.delivery import Estimate
from rules.golf.impact import Clubhead
from rules.golf.sight import apex_of, loft_for_apex, weigh
from rules.problems import Problem

HEAD = Clubhead(0.215, 0.82, 0.2)
DEGREE = math.radians(1)
PRIOR = Estimate(12 * DEGREE, 2 * DEGREE)


@pytest.mark.parametrize("loft", [6.0, 11.0, 15.0, 24.0])
def test_apex_turns_back_into_loft(loft: float) -> None:
    apex = apex_of(38.0, loft * DEGREE, -2 * DEGREE, HEAD, 1.2)
    assert loft_for_apex(apex, 38.0, -2 * DEGREE, HEAD, 1.2) == pytest.approx(loft * DEGREE, abs=1e-4)


@pytest.mark.parametrize("apex", [-1.0, 200.0, math.nan])
def test_an_apex_that_no_loft_gives_is_refused(apex: float) -> None:
    with pytest.raises(Problem, match="high"):
        loft_for_apex(apex, 38.0, -2 * DEGREE, HEAD, 1.2)


def test_weighing_two_normals_is_their_product() -> None:
    found = weigh(Estimate(0.0, 1.0), lambda value: math.exp(-((value - 1.0) ** 2) / 2))
    assert (found.value, found.spread) == pytest.approx((0.5, math.sqrt(0.5)), rel=1e-3)


def test_evidence_that_fits_nothing_leaves_the_prior() -> None:
    assert weigh(PRIOR, lambda value: 0.0) is PRIOR
