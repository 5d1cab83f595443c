"""Parts on the scale before assembly, and screws: what they change in the plan."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace

import pytest

from rules.bench.ports import shift
from rules.facts.reading import SubjectProblem, read_subject
from rules.facts.subject import Reading
from rules.fitting import House, Outcome
from rules.units import parse
from rules.workbench import Club
from rules.workbench.as_built import as_built
from rules.workbench.delivered import as_flown
from rules.workbench.faults import ImpossibleReading, NothingKnown
from rules.workbench.shared import bill, left_after
from rules.workbench.teach import finished_club
from rules.workbench.weighed import as_weighed, corrected, part_checks, weighed

GRAM = parse("1 g", "kg")


def heavy(club: Club, grams: float = 3.0) -> Reading:
    """Its head on the scale, so many grams over the catalogue."""
    assert club.build is not None
    return Reading(head=club.build.head.mass + grams * GRAM)


def test_a_head_three_grams_heavy_leaves_pieces_out_before_it_is_glued(woods: Outcome) -> None:
    shelf, wood = woods.house.shelf, woods.clubs[0]
    made = as_weighed(woods.clubs, {"longer": heavy(wood)}, shelf)
    assert made[1] is None
    right = made[0]
    assert right is not None
    assert wood.build is not None
    assert wood.plan is not None
    # 3 g x (41.25 - 0.6 - 14) in / 49.6117 g*in a point = 1.61 points
    assert right.before - wood.left == pytest.approx(3 * 26.65 / 49.6117, abs=0.05)
    assert any(move.out for move in right.moves)
    assert abs(right.left) <= shelf.shop.swing_weight_tolerance
    plan = right.club.plan
    assert plan is not None
    assert plan.added < wood.plan.added
    assert plan.added == pytest.approx(sum(sum(masses) for masses in plan.pieces.values()))
    # parts and pieces add up, and so does the shift of the head's centre of mass
    assert right.build.reading.total == pytest.approx(
        wood.build.reading.total + 3 * GRAM + plan.added - wood.plan.added
    )
    head = wood.rung.spec.head
    assert head is not None
    loads = [(port, sum(plan.pieces[port.name])) for port in head.ports]
    assert plan.cg_shift == shift(loads, right.build.head.mass)


def test_a_heavy_shaft_and_a_light_grip_count_by_their_own_levers(woods: Outcome) -> None:
    wood = woods.clubs[0]
    build = wood.build
    assert build is not None
    reading = Reading(raw_shaft=build.shaft.mass + 2 * GRAM, grip=build.grip.mass - 2 * GRAM)
    got = corrected(wood, weighed(reading), left_after(woods.house.shelf, woods.clubs))
    cut = build.cut_shaft
    by_hand = 2 * cut.mass / build.shaft.mass * (cut.position / 0.0254 - 14) + 2 * 10
    assert got.before - wood.left == pytest.approx(by_hand / 49.6117, abs=0.01)


def test_the_finished_club_is_held_against_the_plan_as_put_right(house: House, woods: Outcome) -> None:
    """Weighed parts, pieces changed as told: then scale and knife edge find nothing more to do."""
    wood = woods.clubs[0]
    right = as_weighed(woods.clubs, {"longer": heavy(wood)}, house.shelf)[0]
    assert right is not None
    real = right.build.reading
    reading = Reading(total=real.total, balance_point=real.balance_point, head=right.build.head.mass)
    got = as_built(right.club, reading, left_after(house.shelf, (right.club, woods.clubs[1])))
    assert got.out == ()
    assert got.moves == ()
    assert got.excess is None
    # the head is known to the scale's half gram now, so the scale may be held to more
    assert wood.build is not None
    loose, tight = (as_built(one, reading, house.shelf).check("total").allowed for one in (wood, right.club))
    assert tight < loose
    # it teaches the calibration with its own head, and flies with the mass that is in it
    assert finished_club("it", right.club, reading).head == pytest.approx(right.build.head.mass)
    flown = as_flown(house.base, woods.golfer, right.club, reading)
    assert flown.centred == pytest.approx(wood.rung.flown.centred, rel=0.002)


def test_both_clubs_share_one_tray(house: House, woods: Outcome) -> None:
    readings = {club.role: heavy(club, -4.0) for club in woods.clubs}
    made = [one for one in as_weighed(woods.clubs, readings, house.shelf) if one is not None]
    assert len(made) == 2
    wanted: Counter[float] = Counter()
    for one in made:
        parts = bill(one.club)
        assert parts is not None
        wanted.update(parts.pieces)
    for piece in house.shelf.pieces:
        assert piece.count is None or wanted[piece.mass] <= piece.count


def test_parts_are_held_against_the_catalogue(wood: Club) -> None:
    build = wood.build
    assert build is not None
    checks = {one.what: one for one in part_checks(wood, heavy(wood, 3.0))}
    assert checks["head"].verdict == "out"
    assert checks["head"].difference == pytest.approx(3 * GRAM)
    assert checks["grip"].verdict == "unread"
    assert {one.what: one for one in part_checks(wood, heavy(wood, 2.0))}["head"].verdict == "within"
    assert "torque" not in checks


def test_screws_that_let_go_are_out(wood: Club) -> None:
    """House value: a fifth less than they were set to."""
    told = [
        ("40 in*lbf", "40 in*lbf", "within"),
        ("40 in-lb", "31 in-lb", "out"),
        ("4.5 N*m", "4 Nm", "within"),
    ]
    for set_to, again, verdict in told:
        reading = Reading(torque=parse(set_to, "in*lbf"), torque_again=parse(again, "in*lbf"))
        screws = next(one for one in part_checks(wood, reading) if one.what == "torque")
        assert screws.verdict == verdict
    assert not weighed(reading).head
    assert not reading.of_finished


def test_another_part_is_refused_in_a_sentence(wood: Club, woods: Outcome) -> None:
    with pytest.raises(ImpossibleReading, match=r"the longer club's head reads .* read it again"):
        as_weighed(woods.clubs, {"longer": heavy(wood, 40.0)}, woods.house.shelf)


def test_of_his_own_club_no_part_is_known(run: Callable[..., Outcome], two_woods: dict[str, object]) -> None:
    outcome = run(two_woods)
    own = replace(outcome.clubs[0], build=None, plan=None, reading=None)
    with pytest.raises(NothingKnown):
        part_checks(own, Reading(head=0.2))
    assert as_weighed([own], {"longer": Reading(head=0.2)}, outcome.house.shelf) == (None,)


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("head", "20 g", "head: 20 g is outside 100 g to 350 g"),
        ("raw_shaft", "-64 g", "raw_shaft: -64 g is outside"),
        ("grip", "soft", "grip: 'soft' does not start with a number"),
        ("torque", "40 g", "a torque is wanted"),
        ("torque", "500 in*lbf", "torque: 500 in\\*lbf is outside 2 in\\*lbf to 90 in\\*lbf"),
        ("heads", "210 g", "did you mean 'head'"),
    ],
)
def test_readings_that_cannot_be_are_one_sentence(house: House, field: str, typed: str, said: str) -> None:
    with pytest.raises(SubjectProblem, match=said):
        read_subject(house.base.facts, {"readings": {"longer": {field: typed}}})
