"""Balls run down the road: speed, delivery, strikes and mishits are corrected, each by its spread."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

from rules.facts.golfer import Golfer, golfer
from rules.facts.mishits import Believed
from rules.facts.subject import Subject
from rules.facts.tried import tried_clubs
from rules.facts.usual import speed_ratio, usual_head
from rules.facts.weighed import Weighed
from rules.fitting import House
from rules.golf.contact import height_up_face
from rules.golf.impact import strike
from rules.units import parse

MPH, DEG = parse("1 mph", "m/s"), parse("1 deg", "rad")
RPM, MM = parse("1 rpm", "rad/s"), parse("1 mm", "m")
KNOWN: dict[str, Any] = {
    "hand": "right", "handicap": 15, "driver_speed": {"value": "90 mph", "how": "measured"},
    "flight": "medium", "turf_mark": "brush", "airborne_of_six": 4, "contact": "centred",
    "lies": {"fairway": 100},
}  # fmt: skip
CLUB: dict[str, Any] = {"name": "demo", "kind": "fairway", "loft": "18 deg"}


@pytest.fixture
def player(house: House, subject: Callable[..., Subject]) -> Callable[..., Golfer]:
    def make(
        shots: list[dict[str, Any]] | None = None, club: dict[str, Any] | None = None, **more: Any
    ) -> Golfer:
        balls = [{"club": "demo", **shot} for shot in shots or []]
        made = subject({**KNOWN, **more}, trial_clubs=[club or CLUB], shots=balls)
        return golfer(house.base, made, house.shelf)

    return make


def figure(player: Golfer, fact: str) -> Weighed:
    return next(one for one in player.balls.weighed if one.fact == fact)


def launched(house: House, change: float, attack: float, speed: float = 90.0) -> dict[str, Any]:
    """What an instrument would read of a golfer who delivers so, off the middle of a usual head."""
    head = usual_head(house.base, "fairway")
    club = speed * MPH * speed_ratio(house.base, "fairway", 18 * DEG)
    ball = strike(club, (18 + change) * DEG, attack * DEG, head)
    return {"ball_speed": f"{ball.speed / MPH} mph", "launch": f"{ball.angle / DEG} deg",
            "spin": f"{ball.spin / RPM} rpm"}  # fmt: skip


@pytest.mark.parametrize("change", [-4.0, -1.0, 2.0, 4.0])
def test_measured_launches_bring_the_delivered_loft_back(
    player: Callable[..., Golfer], house: House, change: float
) -> None:
    before = player().known["delivered_loft_change"]
    seen = player([launched(house, change, -2.0)] * 6)
    now = seen.known["delivered_loft_change"]
    away = abs(before.number / DEG - change)
    assert abs(now.number / DEG - change) < 0.35 * away + 0.4
    assert now.spread < 0.6 * before.spread
    assert now.how == "shots"
    assert seen.word("delivered_from") == "shots"


def test_launch_and_count_that_contradict_each_other_meet_between(
    player: Callable[..., Golfer], house: House
) -> None:
    low = launched(house, -5.0, -2.0)
    launch, both = (
        player([{**low, **seen} for _ in range(6)]).number("delivered_loft_change")
        for seen in ({}, {"outcome": "up"})
    )
    assert launch < both < player().number("delivered_loft_change")


def test_more_balls_say_more(player: Callable[..., Golfer], house: House) -> None:
    spreads = [
        player([launched(house, 3.0, -2.0)] * n).known["delivered_loft_change"].spread
        for n in (0, 1, 3, 6, 20)
    ]
    assert spreads == sorted(spreads, reverse=True)


def test_a_launch_off_a_tee_or_of_a_mishit_says_nothing_of_delivery(
    player: Callable[..., Golfer], house: House
) -> None:
    read = launched(house, 4.0, -2.0)
    for spoilt in ({**read, "surface": "tee"}, {**read, "outcome": "thin"}):
        assert player([spoilt] * 6).balls.learned.deliveries == {}
    assert player([{**read, "surface": "mat"}] * 6).balls.learned.deliveries.keys() == {"demo"}


@pytest.mark.parametrize(("up", "way"), [(0, -1), (6, 1)])
def test_how_many_get_up_moves_the_delivered_loft(player: Callable[..., Golfer], up: int, way: int) -> None:
    strong = {**CLUB, "loft": "14 deg"}
    balls = [{"outcome": "up"}] * up + [{"outcome": "thin"}] * (6 - up)
    moved = player(balls, strong).number("delivered_loft_change") - player([], strong).number(
        "delivered_loft_change"
    )
    assert way * moved > 0.4 * DEG


def test_topped_balls_with_a_lofted_club_are_the_strike_s_doing_not_the_loft_s(
    player: Callable[..., Golfer],
) -> None:
    balls = [{"outcome": "topped"}] * 3 + [{"outcome": "up"}] * 3
    lofted, strong = {**CLUB, "loft": "23 deg"}, {**CLUB, "loft": "13.5 deg"}
    shifts = []
    for club in (lofted, strong):
        with_balls, without = (player(hit, club).number("delivered_loft_change") for hit in (balls, []))
        shifts.append(abs(with_balls - without))
    assert shifts[0] < 0.6 * DEG
    missed = [1 - player(balls, c).mishits["fairway"].clean for c in (lofted, strong)]
    assert missed[0] > 0.25


def test_a_thin_ball_of_a_club_that_hardly_climbs_is_in_part_the_loft_s(
    player: Callable[..., Golfer],
) -> None:
    balls = [{"outcome": "thin"}] * 6
    lofted, strong = (player(balls, {**CLUB, "loft": f"{loft} deg"}) for loft in (24, 13.5))
    assert lofted.mishits["fairway"].thin > strong.mishits["fairway"].thin + 0.1


def test_a_mat_hides_fat_balls_and_is_no_proof_against_them(player: Callable[..., Golfer]) -> None:
    blind = player().mishits["fairway"]
    turf = player([{"outcome": "up", "surface": "turf"}] * 6).mishits["fairway"]
    mat = player([{"outcome": "up", "surface": "mat"}] * 6).mishits["fairway"]
    assert turf.fat < blind.fat == pytest.approx(mat.fat)
    assert mat.topped == pytest.approx(turf.topped)
    assert player([{"outcome": "fat", "surface": "mat"}] * 3).mishits["fairway"].fat > blind.fat


def test_no_count_makes_every_ball_a_mishit(player: Callable[..., Golfer]) -> None:
    awful = player([{"outcome": "topped"}] * 40, {**CLUB, "loft": "26 deg"})
    assert 0.0 < awful.mishits["fairway"].clean < 0.2


def test_head_speeds_read_on_a_club_correct_the_driver_s(player: Callable[..., Golfer], house: House) -> None:
    ratio = speed_ratio(house.base, "fairway", 18 * DEG)
    read = [{"head_speed": f"{80 * ratio} mph"}] * 6
    blind = player(read, driver_speed={"unknown": True})
    assert blind.number("driver_head_speed") / MPH == pytest.approx(80, abs=0.5)
    assert blind.word("speed_route") == "shots"
    told = player(read)
    assert 80 < told.number("driver_head_speed") / MPH < 90
    assert told.known["driver_head_speed"].spread < player().known["driver_head_speed"].spread


def test_carries_alone_correct_a_speed_that_nobody_knows(player: Callable[..., Golfer]) -> None:
    short, far = (player([{"outcome": "up", "carry": f"{yards} yd"}] * 6, driver_speed={"unknown": True})
                  for yards in (130, 190))  # fmt: skip
    assert short.number("driver_head_speed") / MPH < 80 < 95 < far.number("driver_head_speed") / MPH
    indoors = player([{"carry": "130 yd", "indoors": True}] * 6, driver_speed={"unknown": True})
    assert indoors.word("speed_route") == "assumed"


def test_an_open_question_stays_open_whatever_is_hit(player: Callable[..., Golfer], house: House) -> None:
    balls = [{**launched(house, 2.0, -2.0), "toe_mm": 1, "high_mm": 2}] * 12
    asked = {id: said for id, said in KNOWN.items() if id not in ("contact", "flight")}
    made = golfer(house.base, replace_answers(house, asked, balls), house.shelf)
    assert made.known["delivered_loft_change"].waits >= {"flight", "contact"}
    assert made.known["strike_sd_toe"].waits >= {"contact"}
    assert made.views["strike_sd_toe"].status == "open"


def replace_answers(house: House, answers: dict[str, Any], balls: list[dict[str, Any]]) -> Subject:
    from rules.facts.reading import read_subject

    shots = [{"club": "demo", **ball} for ball in balls]
    return read_subject(house.base.facts, {"answers": answers, "trial_clubs": [CLUB], "shots": shots})


def test_marks_are_turned_from_face_centre_to_where_the_ball_should_be_met(
    player: Callable[..., Golfer], house: House
) -> None:
    head = next(one for one in house.shelf.heads if one.kind == "fairway")
    club = {**CLUB, "loft": f"{head.loft / DEG} deg", "head": head.id}
    marks = [{"toe_mm": t, "high_mm": h, "surface": "turf"} for t, h in
             [(3, -4), (-3, -2), (5, -3), (-5, -1), (0, -5), (1, -3)]]  # fmt: skip
    seen = figure(player(marks, club), "strike_mean_high").seen
    met = height_up_face(head.loft, 0.0025, player(marks, club).number("attack"))
    assert seen is not None
    assert seen.value == pytest.approx(head.face_height / 2 - 3 * MM - met, abs=1e-9)
    usual = player(marks, {**club, "head": "nobody's"})
    spread = figure(usual, "strike_mean_high").seen
    assert spread is not None
    assert spread.spread > seen.spread


def test_the_height_of_marks_on_an_unmeasured_face_is_never_quite_known(
    player: Callable[..., Golfer],
) -> None:
    many = player([{"toe_mm": (-1) ** i * 4, "high_mm": (-1) ** i * 2} for i in range(200)])
    assert figure(many, "strike_mean_high").after.spread > 1.0 * MM
    assert figure(many, "strike_mean_toe").after.spread < 0.5 * MM


def test_belief_and_marks_are_weighed_as_their_spreads_say(player: Callable[..., Golfer]) -> None:
    marks = [{"toe_mm": t, "high_mm": 0} for t in (-9, -5, -14, -3, -8, -7)]
    one = figure(player(marks), "strike_mean_toe")
    assert one.seen is not None
    assert one.before.value == 0.0
    assert one.seen.value / MM == pytest.approx(-46 / 6)
    share = one.before.spread**2 / (one.before.spread**2 + one.seen.spread**2)
    assert one.after.value == pytest.approx(share * one.seen.value)
    assert one.weight == pytest.approx(share)
    assert player(marks).pattern.mean_toe == pytest.approx(one.after.value)
    assert figure(player(marks[:1]), "strike_sd_toe").seen is None


def test_where_the_balls_were_hit_is_told_to_the_rules(player: Callable[..., Golfer]) -> None:
    mixed = player(
        [{"outcome": "up", "surface": "mat", "indoors": True}] * 3 + [{"outcome": "up", "surface": "tee"}]
    )
    assert mixed.number("balls_off_mat") == 0.75
    assert mixed.number("balls_teed") == 0.25
    assert mixed.number("balls_indoors") == 0.75
    assert player().number("balls_off_mat") == 0.0


def test_without_balls_nothing_is_weighed(player: Callable[..., Golfer]) -> None:
    assert player().balls.weighed == ()
    assert player().balls.tried == ()
    assert player().word("delivered_from") == "answers"


def test_the_order_of_clubs_and_balls_changes_nothing(house: House, subject: Callable[..., Subject]) -> None:
    clubs = [CLUB, {"name": "other", "kind": "hybrid", "loft": "21 deg"}]
    balls = [
        {"club": "demo", **launched(house, 2.0, -2.0)},
        {"club": "other", "outcome": "topped", "toe_mm": 4, "high_mm": -6},
        {"club": "demo", "outcome": "thin", "toe_mm": -3, "high_mm": -5},
        {"club": "other", "outcome": "up", "carry": "150 yd", "toe_mm": 1, "high_mm": 2},
    ]
    one = golfer(house.base, subject(KNOWN, trial_clubs=clubs, shots=balls), house.shelf)
    two = golfer(house.base, subject(KNOWN, trial_clubs=clubs[::-1], shots=balls[::-1]), house.shelf)
    for fact in ("driver_head_speed", "attack", "delivered_loft_change", "strike_sd_toe", "strike_mean_high"):
        assert one.number(fact) == pytest.approx(two.number(fact), abs=1e-12)
    assert one.mishits == two.mishits


def test_what_is_known_of_a_club_decides_how_far_its_loft_is_trusted(
    house: House, subject: Callable[..., Subject]
) -> None:
    owned: list[dict[str, Any]] = [
        {"name": "gauged", "kind": "fairway", "loft": {"value": "15 deg", "how": "measured"}},
        {"name": "stamped", "kind": "fairway", "loft": {"value": "15 deg", "how": "stamped"}},
        {"name": "unsaid", "kind": "hybrid"},
    ]
    made = subject(owned=owned, shots=[{"club": club["name"], "outcome": "up"} for club in owned])
    found = tried_clubs(house.base, made, house.shelf)
    assert [club.name for club in found] == ["gauged", "stamped", "unsaid"]
    assert found[0].loft_spread < found[1].loft_spread < found[2].loft_spread
    assert [club.loft_told for club in found] == [True, True, False]
    assert all(club.owned for club in found)


def test_cells_of_uncertainty_stand_for_the_share_they_are_of(
    house: House, player: Callable[..., Golfer]
) -> None:
    known = player([{"outcome": "up"}])
    believed = Believed(house.base, known.known, 15.0)
    club = known.balls.tried[0]
    for count, within in ((24, 0.004), (240, 0.001)):
        cells = believed.cells(club, count)
        assert math.fsum(weight for _, weight in cells) == pytest.approx(1.0)
        mean = math.fsum(clean * weight for clean, weight in cells)
        assert mean == pytest.approx(believed.outcomes(club).clean, abs=within)
