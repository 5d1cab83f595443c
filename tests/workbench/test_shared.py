"""Two clubs from one shelf: no part is planned twice, and what is missing is said."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import pytest

from rules.fitting import House, Outcome
from rules.ladder.judge import Judge
from rules.shelf import Shelf
from rules.shelf.bookings import total
from rules.shelf.stock import counts
from rules.units import parse
from rules.workbench.shared import apart, bill, finish_both, lacking, left_after

GRAM = parse("1 g", "kg")
Answers = Mapping[str, Any]


def with_counts(shelf: Shelf, **of: int) -> Shelf:
    """The shelf with so many of every piece, and one of every other sort named."""
    return replace(
        shelf,
        pieces=tuple(replace(p, count=of.get("piece", p.count)) for p in shelf.pieces),
        shafts=tuple(replace(s, count=of.get("shaft", s.count)) for s in shelf.shafts),
        grips=tuple(replace(g, count=of.get("grip", g.count)) for g in shelf.grips),
    )


def test_a_bill_lists_what_a_club_takes(woods: Outcome) -> None:
    for club in woods.clubs:
        got = bill(club)
        assert got is not None
        assert club.plan is not None
        spec = club.rung.spec
        assert (got.head, got.shaft, got.grip) == (
            spec.head and spec.head.id, spec.shaft and spec.shaft.id, spec.grip and spec.grip.id
        )  # fmt: skip
        assert sum(mass * number for mass, number in got.pieces.items()) == pytest.approx(club.plan.added)


def test_what_is_left_is_the_shelf_less_both_bills(house: House, woods: Outcome) -> None:
    left = counts(left_after(house.shelf, woods.clubs))
    taken = total(one.counts() for one in map(bill, woods.clubs) if one is not None)
    for key, number in counts(house.shelf).items():
        assert left[key] == (None if number is None else number - taken[key])


@pytest.mark.parametrize("each", [1, 2, 3])
def test_no_piece_is_planned_into_both(
    run: Callable[..., Outcome], two_woods: Answers, house: House, each: int
) -> None:
    scarce = with_counts(house.shelf, piece=each)
    outcome = run(two_woods, scarce)
    taken: Counter[float] = Counter()
    for club in outcome.clubs:
        assert club.plan is not None
        taken.update(round(m / GRAM, 2) for masses in club.plan.pieces.values() for m in masses)
    assert max(taken.values()) <= each
    assert lacking(scarce, outcome.clubs) == ()


def test_the_shorter_takes_first_where_that_serves_both_better(house: House, woods: Outcome) -> None:
    """One 9 g piece fits only the heel of one head; the other could do without it."""
    longer, shorter = (club.rung for club in woods.clubs)
    plenty = finish_both(house.base, house.shelf, woods.golfer, longer, shorter)
    assert [club.role for club in plenty] == ["longer", "shorter"]
    needed = plenty[1].needed
    pieces = tuple(
        replace(p, mass=mass, count=1, fits=())
        for p, mass in zip(house.shelf.pieces, (needed, plenty[0].needed * 1.002), strict=False)
    )
    both = finish_both(house.base, replace(house.shelf, pieces=pieces), woods.golfer, longer, shorter)
    assert max(abs(club.left) for club in both) < 0.6


def test_the_last_shaft_goes_into_one_club_only(
    run: Callable[..., Outcome], two_woods: Answers, house: House
) -> None:
    plenty = run(two_woods)
    ids = [club.rung.spec.shaft and club.rung.spec.shaft.id for club in plenty.clubs]
    assert ids[0] == ids[1]
    last = run(two_woods, with_counts(house.shelf, shaft=1))
    shafts = [club.rung.spec.shaft and club.rung.spec.shaft.id for club in last.clubs]
    assert shafts[0] != shafts[1]
    assert ids[0] in shafts
    assert lacking(with_counts(house.shelf, shaft=1), last.clubs) == ()
    # what the second club is made of is decided like anything else, ledger and all
    assert all(club.rung.decisions["shaft"].decision.id == "shaft" for club in last.clubs)


def test_a_pinned_part_stays_and_the_other_club_gives_way(
    run: Callable[..., Outcome], two_woods: Answers, house: House
) -> None:
    plenty = run(two_woods)
    mine = plenty.clubs[1].rung.spec.shaft
    assert mine is not None
    pinned = run(
        two_woods, with_counts(house.shelf, shaft=1), overrides={"shorter.shaft": {"value": mine.id}}
    )
    longer, shorter = (club.rung.spec.shaft for club in pinned.clubs)
    assert shorter is not None
    assert longer is not None
    assert shorter.id == mine.id
    assert longer.id != mine.id


def test_what_nothing_can_replace_is_said_to_be_lacking(
    run: Callable[..., Outcome], two_woods: Answers, house: House
) -> None:
    plenty = run(two_woods)
    only = plenty.clubs[0].rung.spec.shaft
    assert only is not None
    bare = replace(house.shelf, shafts=(replace(only, count=1),))
    outcome = run(two_woods, bare)
    both_woods = outcome.picked is not None and outcome.picked.shorter.kind == "fairway"
    assert both_woods
    assert lacking(bare, outcome.clubs) == ((("shaft", only.id), 2, 1),)


def test_nothing_is_changed_while_there_is_enough(house: House, woods: Outcome) -> None:
    assert woods.picked is not None
    assert apart(Judge(house, woods.golfer), woods.picked) is woods.picked
