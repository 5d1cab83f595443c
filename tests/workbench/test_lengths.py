"""A club by half inches: each row is the club built, balanced and flown at that length."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest

from rules.bench.shorten import shorten
from rules.facts.known import assumed
from rules.fitting import Outcome
from rules.ladder.bagged import USUAL_MASS, USUAL_SHAFT
from rules.units import parse
from rules.workbench.lengths import LengthRow, length_table

INCH, GRAM = parse("1 in", "m"), parse("1 g", "kg")


def rows(outcome: Outcome, role: int = 0) -> tuple[LengthRow, ...]:
    house = outcome.house
    return length_table(house.base, house.shelf, outcome.golfer, outcome.clubs[role].rung)


def test_the_length_decided_is_the_club_as_it_was_flown_and_built(woods: Outcome) -> None:
    for role, club in enumerate(woods.clubs):
        chosen = next(row for row in rows(woods, role) if row.chosen)
        assert chosen.length == club.rung.spec.length
        assert chosen.flown == club.rung.flown
        assert chosen.needed == pytest.approx(club.needed, abs=1e-9)


def test_half_inches_follow_one_clubs_own_law(woods: Outcome) -> None:
    """Speed by the rate an inch from the club's usual length, strikes likewise; less mass, longer."""
    base = woods.house.base
    found = rows(woods)
    assert len(found) == 7
    for one, other in pairwise(found):
        assert other.length - one.length == pytest.approx(0.5 * INCH)
        step = (other.flown.speed - one.flown.speed) / one.flown.speed
        assert step == pytest.approx(0.5 * assumed(base, "speed-per-inch"), rel=0.03)
        assert other.scatter_toe > one.scatter_toe
        assert other.needed < one.needed
        # common practice: half an inch is three points at two grams; the lever sum says a little less
        assert 4 * GRAM <= one.needed - other.needed <= 6 * GRAM
        assert one.band[0] <= one.flown.expected <= one.band[1]


def test_the_balance_mass_is_the_whole_clubs_sum(woods: Outcome) -> None:
    """Built at that length with so much in the head, the club reads its target."""
    club = woods.clubs[0]
    assert club.build is not None
    for row in rows(woods):
        bare = replace(club.build, length=row.length).with_added()
        head = replace(bare.head, mass=bare.head.mass + row.needed)
        assert replace(bare, head=head).reading.points == pytest.approx(club.target, abs=1e-6)
        assert row.holds is (0 <= row.needed <= (row.room or 0.0))


def test_his_own_club_is_only_ever_cut(
    run: Callable[..., Outcome], two_woods: Mapping[str, Any], his_own: Mapping[str, Any]
) -> None:
    outcome = run(two_woods, owned=[dict(his_own)])
    rung = next(one for one in outcome.rungs if one.state == "altered")
    house = outcome.house
    found = length_table(house.base, house.shelf, outcome.golfer, rung)
    assert found[-1].length <= 43 * INCH + 1e-9
    for row in found:
        work = shorten(43 * INCH, row.length, USUAL_MASS["fairway"], USUAL_SHAFT, setback=0.6 * INCH)
        assert row.needed == pytest.approx(work.restore, abs=1e-9)
        assert row.room == pytest.approx(16 * GRAM)
    assert next(row for row in found if row.chosen).flown == rung.flown
