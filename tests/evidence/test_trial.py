"""A whole trial: figures of each club, comparisons that own up to what they cannot tell, the pick."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

from rules.evidence.change import change, label, lead, pick, reasons
from rules.evidence.comparing import MEASURES, Comparison, Measure
from rules.evidence.protocol import Outcome as What
from rules.evidence.summary import Condition, condition, poorer, summed_up
from rules.evidence.trial import NoSuchClub, Trial
from rules.facts.subject import Shot
from rules.facts.tried import Tried
from rules.fitting import Outcome
from rules.golf.impact import Clubhead
from rules.units import parse

YARD = parse("1 yd", "m")
Tries = Callable[..., Trial]


def balls(club: str, *carries: float, **more: Any) -> list[dict[str, Any]]:
    """Balls that got up with so many yards of carry, off turf."""
    return [{"club": club, "outcome": "up", "carry": f"{c} yd", "surface": "turf", **more} for c in carries]


def asked(found: Trial, measure: Measure, club: str = "demo") -> Comparison:
    return next(one for one in found.comparisons if (one.club, one.measure) == (club, measure))


def test_all_balls_count_and_the_poorer_third_is_told() -> None:
    outcomes: list[tuple[What, int]] = [
        ("topped", 20), ("thin", 120), ("up", 170), ("up", 172), ("up", 168), ("up", 174),
    ]  # fmt: skip
    sides = (3, -5, 8, 0, 2, -4)
    shots = tuple(
        Shot("demo", 0.004 * i, -0.002, what, side * YARD, carry * YARD, surface="turf")
        for i, ((what, carry), side) in enumerate(zip(outcomes, sides, strict=True))
    )
    club = Tried("demo", "fairway", 0.31, 0.01, Clubhead(0.212), 0.036, False, shots)
    found = summed_up(club, 0.5)
    assert found.carry is not None
    assert found.side is not None
    assert found.marks is not None
    assert found.usable is not None
    assert found.carry.all.value / YARD == pytest.approx((20 + 120 + 170 + 172 + 168 + 174) / 6)
    assert found.carry.typical / YARD == pytest.approx(169)
    assert found.carry.poorer / YARD == pytest.approx(70)
    assert found.carry.got_up is not None
    assert found.carry.got_up.value / YARD == pytest.approx(171)
    assert found.side.off.value / YARD == pytest.approx(22 / 6)
    assert found.side.mean / YARD == pytest.approx(4 / 6)
    assert found.marks.toe == pytest.approx(0.010)
    assert found.marks.sd_high == 0.0
    assert (found.usable.number, found.usable.of) == (4, 6)
    assert found.outcomes == {"topped": 1, "thin": 1, "fat": 0, "up": 4, "unsaid": 0}


def test_the_poorer_third_has_a_ball_at_least() -> None:
    assert poorer([170.0]) == 170.0
    assert poorer([170.0, 100.0]) == 100.0
    assert poorer([170.0, 160.0, 150.0, 140.0, 130.0, 120.0]) == 125.0


def test_teed_balls_are_left_out_where_there_are_others() -> None:
    on_turf = [Shot("demo", outcome="up", surface="turf")] * 2
    teed = [Shot("demo", outcome="up", surface="tee")] * 3
    mixed = Tried("demo", "fairway", 0.31, 0.01, Clubhead(0.212), 0.036, False, (*on_turf, *teed))
    found = summed_up(mixed, 0.5)
    assert (found.balls, found.teed) == (2, 3)
    assert found.conditions[Condition("tee", False)] == 3
    only = summed_up(Tried("demo", "fairway", 0.31, 0.01, Clubhead(0.212), 0.036, False, tuple(teed)), 0.5)
    assert (only.balls, only.teed) == (3, 0)
    assert condition(Shot("demo")) == Condition("turf", False)


def test_a_plain_difference_is_called(tried: Tries) -> None:
    found = tried(balls("own", 140, 138, 142, 139, 141, 140) + balls("demo", 165, 168, 166, 164, 169, 167))
    one = asked(found, "carry")
    assert one.verdict == "differs"
    assert one.better is True
    assert one.difference is not None
    assert one.difference.value / YARD == pytest.approx(166.5 - 140)
    assert one.corrected is not None
    assert one.difference.p < one.corrected <= 0.05


def test_what_six_balls_cannot_tell_is_said_with_how_many_would(tried: Tries) -> None:
    found = tried(balls("own", 150, 120, 165, 90, 160, 155) + balls("demo", 165, 150, 130, 170, 168, 100))
    one = asked(found, "carry")
    assert one.verdict == "open"
    assert one.better is None
    assert one.more is None or one.more > 6
    assert one.aimed_at is not None
    assert one.aimed_at >= (one.matters or 0.0)


def test_no_difference_that_matters_is_a_finding(tried: Tries) -> None:
    found = tried(balls("own", 160, 161, 159, 160, 162, 158) + balls("demo", 160, 159, 161, 162, 158, 160))
    one = asked(found, "carry")
    assert one.verdict == "same"
    assert one.difference is not None
    assert max(abs(one.difference.low), abs(one.difference.high)) < (one.matters or 0.0)


def test_clubs_hit_from_different_ground_are_not_compared(tried: Tries) -> None:
    found = tried(balls("own", 150, 151, 152) + balls("demo", 170, 171, 172, surface="mat"))
    assert {one.verdict for one in found.comparisons} == {"not_alike", "not_noted"}
    both = tried(
        balls("own", 150, 151, 152)
        + balls("demo", 170, 171, 172, surface="mat")
        + balls("demo", 155, 156, 157)
    )
    one = asked(both, "carry")
    assert one.ground == Condition("turf", False)
    assert one.balls == (3, 3)
    inside = tried(balls("own", 150, 151, 152) + balls("demo", 170, 171, 172, indoors=True))
    assert asked(inside, "carry").verdict == "not_alike"


def test_what_was_not_noted_is_not_compared_and_costs_nothing(tried: Tries) -> None:
    clear = balls("own", 140, 138, 142, 139, 141, 140) + balls("demo", 165, 168, 166, 164, 169, 167)
    few = tried([{k: v for k, v in ball.items() if k != "outcome"} for ball in clear])
    assert asked(few, "usable").verdict == "not_noted"
    assert asked(few, "carry").corrected == asked(few, "carry").difference.p  # type: ignore[union-attr]
    assert [one.measure for one in few.comparisons] == list(MEASURES)


def test_fewer_than_three_balls_are_not_tested(tried: Tries) -> None:
    one = asked(tried(balls("own", 140, 150) + balls("demo", 165, 168, 166)), "carry")
    assert (one.verdict, one.difference, one.more) == ("open", None, 1)


def test_more_clubs_more_questions_and_a_stricter_answer(tried: Tries) -> None:
    # Five of six against nought of six: p = 14/924.
    own = [{"club": "own", "outcome": "thin"}] * 6
    demo = [{"club": "demo", "outcome": "up"}] * 5 + [{"club": "demo", "outcome": "fat"}]
    third = [{"club": "third", "outcome": "thin"}] * 3 + [{"club": "third", "outcome": "up"}] * 3
    two, three = tried(own + demo), tried(own + demo + third)
    assert asked(two, "usable").difference == asked(three, "usable").difference
    assert asked(two, "usable").corrected == pytest.approx(14 / 924)
    assert asked(three, "usable").corrected == pytest.approx(2 * 14 / 924)
    assert [club.club for club in three.clubs] == ["own", "demo", "third"]


def test_clubs_are_held_against_his_own_else_the_first_hit_else_the_one_named(tried: Tries) -> None:
    hit = balls("third", 150, 151, 152) + balls("demo", 150, 149, 148)
    assert tried(hit).clubs[0].club == "third"
    assert tried(hit + balls("own", 140)).clubs[0].club == "own"
    assert tried(hit, against="demo").clubs[0].club == "demo"
    with pytest.raises(NoSuchClub, match="did you mean 'demo'"):
        tried(hit, against="demmo")


def test_closer_marks_are_better_and_nearer_the_line_too(tried: Tries) -> None:
    wide = [(-18, 6), (15, -8), (-12, 9), (20, 2), (-16, -9), (14, 7)]
    shots = [{"club": "own", "toe_mm": t, "high_mm": h, "side_yd": s} for (t, h), s in
             zip(wide, (25, -22, 28, -20, 24, -26), strict=True)]  # fmt: skip
    shots += [{"club": "demo", "toe_mm": t / 12, "high_mm": h / 12, "side_yd": s} for (t, h), s in
              zip(wide, (1, -2, 3, 0, 2, -1), strict=True)]  # fmt: skip
    found = tried(shots)
    measures: tuple[Measure, ...] = ("scatter", "side")
    for measure in measures:
        one = asked(found, measure)
        assert (one.verdict, one.better) == ("differs", True)
        assert one.difference is not None
        assert one.difference.value < 0


def test_belief_stands_beside_balls(tried: Tries) -> None:
    found = tried(balls("demo", 170, 172, 168, 171, 169, 170, toe_mm=-6, high_mm=1))
    assert {one.fact for one in found.beliefs} >= {"driver_head_speed", "strike_mean_toe", "mishits_fairway"}
    hope = found.expected["demo"]
    assert 100 < hope.carry.value / YARD < 175
    assert hope.carry.spread > 5 * YARD
    assert 0 < hope.usable.value < 1
    assert hope.centred > hope.carry.value


@pytest.mark.parametrize("speed", ["60 mph", "75 mph", "92 mph"])
@pytest.mark.parametrize("thin", [1, 2, 3, 6])
def test_what_is_now_believed_of_mishits_lies_between_belief_and_balls(
    tried: Tries, thin: int, speed: str
) -> None:
    """Also of a strong club: its thin balls are in part the loft's doing, and its balls stand for more."""
    shots = [{"club": "own", "outcome": "thin" if n < thin else "up", "surface": "turf"} for n in range(6)]
    found = tried(shots, driver_speed=speed)
    (told,) = [one for one in found.beliefs if one.fact == "mishits_fairway"]
    assert told.seen is not None
    assert told.balls == 6
    low, high = sorted((told.before.value, told.seen.value))
    assert low - 1e-12 <= told.after.value <= high + 1e-12
    assert told.after.spread < told.before.spread


def test_expectations_are_of_the_answers_alone(tried: Tries) -> None:
    few, many = (tried(balls("demo", *[190] * n)).expected["demo"] for n in (1, 12))
    assert few == many


def test_remarks_say_what_a_reader_must_know(tried: Tries) -> None:
    found = tried(
        [{"club": "own", "outcome": "thin"}]
        + [{"club": "own", "outcome": "up", "carry": "150 yd", "toe_mm": 1, "high_mm": 1}] * 3
        + balls("demo", 150, 151, 152)
    )
    said = dict(found.remarks)
    assert said["one_after_the_other"] == "own, demo"
    assert said["ground_unsaid"] == "own"
    assert said["face_assumed"] == "own"
    assert said["carry_missing"] == "own"
    turns = [
        ball for pair in zip(balls("own", 150, 151), balls("demo", 150, 151), strict=True) for ball in pair
    ]
    assert "one_after_the_other" not in dict(tried(turns).remarks)


def test_readings_that_contradict_one_another_are_remarked_on(tried: Tries) -> None:
    wrong = [
        {
            "club": "demo",
            "ball_speed": "60 mph",
            "launch": "35 deg",
            "spin": "900 rpm",
            "head_speed": "86 mph",
        }
    ]
    assert dict(tried(wrong * 6).remarks)["misfit"] == "demo"


def test_without_balls_nothing_is_said_and_nothing_changes(tried: Tries) -> None:
    found = tried([])
    assert found.clubs == ()
    assert found.comparisons == ()
    assert not found.change.pick_changed
    assert found.change.moved == ()


def test_the_pick_before_is_that_of_the_answers_alone(tried: Tries) -> None:
    found, bare = tried(balls("demo", 100, 102, 98, 101, 99, 100)), tried([])
    assert pick(found.change.before) == pick(bare.change.after)
    assert label(found.change.before) == label(bare.change.before)


def test_the_reasons_add_up_to_what_moved_between_the_two_pairs(tried: Tries) -> None:
    strong = [{"club": "own", "outcome": "thin", "surface": "turf"}] * 6
    found = tried(strong, airborne_of_six=6, contact="centred", handicap=6).change
    whole = reasons(found, most=1000)
    before, after = found.before.pairing, found.after.pairing
    assert before is not None
    assert after is not None
    now = pick(found.after) or ""
    rival = pick(found.before) if found.pick_changed else after.runner_up.candidate.id  # type: ignore[union-attr]

    def between(choice: Any) -> int:
        mine, other = choice.standing(now), choice.standing(rival)
        return int(mine.points - other.points)

    spoken = sum(one.moved for one in whole)
    gone = between(after) - between(before) - spoken
    # Only rules that no longer speak of either pair may be left out of the list.
    silent = [line for id in (now, rival) for line in before.standing(id or "").lines  # type: ignore[union-attr]
              if line.rule and line.rule.id not in {one.rule for one in whole}]  # fmt: skip
    assert abs(gone) <= sum(abs(line.points) for line in silent)
    assert all(one.moved for one in whole)
    assert [abs(one.moved) for one in whole] == sorted((abs(one.moved) for one in whole), reverse=True)


def test_what_moved_is_told_of_both_clubs(fitted: Callable[..., Outcome]) -> None:
    slow, fast = fitted({"driver_speed": "70 mph"}), fitted({"driver_speed": "112 mph", "handicap": 2})
    found = change(slow, fast)
    assert found.pick_changed
    assert found.moved[0].what == "pick"
    assert {one.what for one in found.moved} >= {"longer.club", "longer.loft"}
    assert change(slow, slow).moved == ()
    assert lead(slow) == slow.pairing.margin  # type: ignore[union-attr]
    assert math.isfinite(lead(fast) or 0)
