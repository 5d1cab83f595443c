"""What else brings a club to its target: each way built anew and read again."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import pytest

from rules.fitting import House, Outcome
from rules.shelf import on_bench
from rules.units import parse
from rules.workbench import Club, finish
from rules.workbench.mass import WITHIN, added
from rules.workbench.shared import left_after
from rules.workbench.ways_out import WayOut, ways_out

GRAM, INCH = parse("1 g", "kg"), parse("1 in", "m")
Answers = Mapping[str, Any]


def at_target(house: House, outcome: Outcome, club: Club, target: float) -> Club:
    """The same club asked for another balance."""
    rung = replace(club.rung, spec=replace(club.rung.spec, balance=target))
    return finish(house.base, house.shelf, outcome.golfer, club.role, rung)


def rebuilt(house: House, club: Club, way: WayOut) -> float:
    """What the club reads with that way taken, put together from its parts once more."""
    shelf, spec = house.shelf, club.rung.spec
    assert spec.head is not None
    assert spec.shaft is not None
    assert spec.grip is not None
    assert way.plan is not None
    head = shelf.head(way.name) if way.kind == "other_head" else spec.head
    grip = shelf.grip(way.name) if way.kind == "other_grip" else spec.grip
    length = way.amount if way.kind in ("longer", "shorter") else spec.length
    build = on_bench.club(head, spec.shaft, grip, length, shelf, spec.tip_extra)
    return build.with_added(*added(head, way.plan.plan)).reading.points


def test_a_club_near_enough_needs_no_way_out(house: House, woods: Outcome) -> None:
    assert all(ways_out(house.shelf, club) == () for club in woods.clubs)


def test_too_heavy_is_helped_by_grip_length_and_head(house: House, slow: Outcome) -> None:
    club = next(one for one in slow.clubs if one.left > WITHIN)
    ways = ways_out(left_after(house.shelf, [one for one in slow.clubs if one is not club]), club)
    kinds = {way.kind for way in ways}
    assert {"other_grip", "shorter", "head_of_mass"} <= kinds
    assert "longer" not in kinds
    for way in ways:
        assert abs(way.left) < abs(club.left)
        if way.plan is not None:
            assert rebuilt(house, club, way) == pytest.approx(way.points)
            assert way.left == pytest.approx(way.points - club.target)
    grips = [way for way in ways if way.kind == "other_grip"]
    assert all(way.change > 0 for way in grips)
    assert any(way.fits for way in grips)


def test_too_light_is_helped_by_grip_length_and_head(house: House, woods: Outcome) -> None:
    club = at_target(house, woods, woods.clubs[0], woods.clubs[0].target + 14)
    assert club.left < -WITHIN
    ways = ways_out(house.shelf, club)
    kinds = {way.kind for way in ways}
    assert {"longer", "head_of_mass"} <= kinds
    assert "shorter" not in kinds
    assert all(way.change < 0 for way in ways if way.kind == "other_grip")
    exact = next(way for way in ways if way.kind == "head_of_mass")
    assert club.build is not None
    heavier = replace(club.build, head=replace(club.build.head, mass=exact.amount))
    assert heavier.reading.points == pytest.approx(club.target)


def test_ways_that_fit_come_first(house: House, slow: Outcome) -> None:
    club = next(one for one in slow.clubs if one.left > WITHIN)
    fits = [way.fits for way in ways_out(house.shelf, club)]
    assert fits[:-1] == sorted(fits[:-1], reverse=True)


def test_another_head_is_of_the_same_place_and_takes_the_shaft(house: House, woods: Outcome) -> None:
    club = at_target(house, woods, woods.clubs[0], woods.clubs[0].target + 12)
    now = club.rung.spec.head
    assert now is not None
    for way in ways_out(house.shelf, club):
        if way.kind == "other_head":
            head = house.shelf.head(way.name)
            assert (head.kind, head.hand) == (now.kind, now.hand)
            assert abs(head.loft - now.loft) <= parse("1 deg", "rad") + 1e-9
            assert way.loft_change == pytest.approx(head.loft - now.loft)


def test_nothing_out_of_stock_is_proposed(house: House, slow: Outcome) -> None:
    club = next(one for one in slow.clubs if one.left > WITHIN)
    empty = replace(house.shelf, grips=tuple(replace(g, count=0) for g in house.shelf.grips))
    assert not [way for way in ways_out(empty, club) if way.kind == "other_grip"]


def test_his_own_club_has_no_parts_to_change(
    run: Callable[..., Outcome], two_woods: Answers, his_own: Answers, house: House
) -> None:
    outcome = run(two_woods, owned=[his_own])
    own = [rung for rung in outcome.rungs if rung.owned is not None]
    assert own
    club = finish(house.base, house.shelf, outcome.golfer, "longer", own[0])
    assert ways_out(house.shelf, club) == ()
