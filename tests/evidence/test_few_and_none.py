"""Of nothing there is no mean, of one no spread, and all of a list lies below its last value."""

from __future__ import annotations

import pytest

from rules.evidence.comparing import _from_middle
from rules.evidence.intervals import mean, mean_figure
from rules.evidence.resample import share_below
from rules.evidence.summary import _sd


def test_nothing_has_no_mean_and_one_ball_no_spread() -> None:
    with pytest.raises(ValueError, match="no balls"):
        mean([])
    assert mean_figure([]) is None
    assert _sd([150.0]) is None
    assert _sd([150.0, 152.0]) == pytest.approx(2**0.5)
    assert _from_middle([(0.01, 0.0)]) == []
    assert _from_middle([(0.01, 0.0), (-0.01, 0.0)]) == pytest.approx([0.01 * 2**0.5] * 2)


def test_a_share_that_rounding_puts_beyond_the_whole_is_the_last_value() -> None:
    values = [(1.0, 0.25), (2.0, 0.25), (3.0, 0.5)]
    assert [share_below(values, share) for share in (0.25, 0.5, 0.75, 1.0)] == [1.0, 2.0, 3.0, 3.0]
    assert share_below(values, 1.0 + 1e-9) == 3.0
