"""A shaft as a line of mass: pieces add up, and balance where the whole does."""

from __future__ import annotations

import itertools

import pytest
from scipy.integrate import quad

from rules.bench.problems import OutOfRange
from rules.bench.shaft import mass_line, piece
from rules.units import UNITS

INCH = UNITS["in"].factor
LENGTH = 45 * INCH


@pytest.mark.parametrize("share", [0.4, 0.5, 0.53])
def test_the_whole_is_the_piece_from_end_to_end(share: float) -> None:
    whole = piece(0.065, LENGTH, share, 0, LENGTH)
    assert whole.mass == pytest.approx(0.065)
    assert whole.centre == pytest.approx(share * LENGTH)


@pytest.mark.parametrize("share", [0.4, 0.5, 0.6])
def test_a_piece_is_the_integral_of_the_line(share: float) -> None:
    a, b = mass_line(0.07, LENGTH, share)
    start, end = 2 * INCH, 43.5 * INCH
    mass = quad(lambda x: a + b * x, start, end)[0]
    turning = quad(lambda x: (a + b * x) * x, start, end)[0]
    got = piece(0.07, LENGTH, share, start, end)
    assert got.mass == pytest.approx(mass, rel=1e-9)
    assert got.centre == pytest.approx(turning / mass, rel=1e-9)


def test_pieces_add_up_to_the_whole() -> None:
    cuts = [0, 1.5 * INCH, 20 * INCH, 44 * INCH, LENGTH]
    pieces = [piece(0.065, LENGTH, 0.52, a, b) for a, b in itertools.pairwise(cuts)]
    assert sum(p.mass for p in pieces) == pytest.approx(0.065)
    assert sum(p.mass * p.centre for p in pieces) == pytest.approx(0.065 * 0.52 * LENGTH)


def test_the_line_never_falls_below_nought_within_its_range() -> None:
    for share in (0.35, 0.65):
        a, b = mass_line(0.065, LENGTH, share)
        assert min(a, a + b * LENGTH) > 0


def test_a_balance_that_no_shaft_has_is_refused() -> None:
    with pytest.raises(OutOfRange, match="balance of the shaft as a share of its length is 80 %"):
        piece(0.065, LENGTH, 0.8, 0, 1)


def test_nothing_weighs_nothing() -> None:
    assert piece(0.065, LENGTH, 0.5, 0.3, 0.3).mass == 0
