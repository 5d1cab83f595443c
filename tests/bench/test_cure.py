"""Glue time and heat, lead tape, and the limits of the rules."""

from __future__ import annotations

import math

import pytest

from rules.bench import rules_of_golf as law
from rules.bench.cure import extraction, hold_time, may_play
from rules.bench.problems import BeyondTheRules, OutOfRange, TooCold
from rules.bench.tape import tape_length
from rules.units import UNITS

F = UNITS["degF"]
HOUR = 3600.0
INCH = UNITS["in"].factor


def test_a_day_when_warm_and_never_less() -> None:
    for warm in (72, 76, 80, 95):
        assert hold_time(F.to_si(warm)) == 24 * HOUR


def test_longer_when_cold_by_hand() -> None:
    # 65 degF is 3.889 K under 72: 24 * 2^0.3889 = 31.42 h, in whole hours 32
    assert hold_time(F.to_si(65)) == 32 * HOUR
    assert hold_time(F.to_si(58)) > hold_time(F.to_si(65))


def test_too_cold_is_refused() -> None:
    with pytest.raises(TooCold, match="warm the bench"):
        hold_time(F.to_si(50))
    with pytest.raises(OutOfRange):
        hold_time(math.nan)


def test_nobody_plays_it_within_the_hour() -> None:
    got = may_play(1 * HOUR, F.to_si(72))
    assert not got.may_play
    assert got.wait == 23 * HOUR
    assert "Not yet: slow epoxy wants 23 h more" in got.text
    assert may_play(24 * HOUR, F.to_si(72)).may_play
    assert not may_play(24 * HOUR, F.to_si(65)).may_play


def test_graphite_is_pulled_straight_and_never_torched() -> None:
    graphite = extraction("graphite")
    assert not graphite.twist
    assert not graphite.torch
    assert F.from_si(graphite.heat_from) == pytest.approx(250)
    assert F.from_si(graphite.heat_to) == pytest.approx(300)
    assert extraction("steel").torch
    for text in (graphite.text, extraction("steel").text):
        assert "eye protection" in text


def test_tape_by_hand() -> None:
    # 2 g in 4.25 in of half-inch tape: 3 g wants 6.375 in; twice as wide, half as long
    assert tape_length(0.003) / INCH == pytest.approx(6.375)
    assert tape_length(0.003, 1 * INCH) / INCH == pytest.approx(3.1875)
    with pytest.raises(OutOfRange):
        tape_length(-0.001)


def test_lengths_that_do_not_conform_name_the_rule() -> None:
    assert law.check_length(46 * INCH, local_limit=True) == 46 * INCH
    assert law.check_length(18 * INCH) == 18 * INCH
    with pytest.raises(BeyondTheRules, match="Model Local Rule G-10"):
        law.check_length(46.5 * INCH, local_limit=True)
    with pytest.raises(BeyondTheRules, match="Equipment Rules"):
        law.check_length(48.25 * INCH)
    with pytest.raises(BeyondTheRules, match="shortest allowed is 18 in"):
        law.check_length(17 * INCH)
    with pytest.raises(BeyondTheRules):
        law.check_length(math.nan)
