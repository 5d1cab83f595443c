"""The protocol: a fair order, whose ball is next whatever happened, and balls as people type them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from itertools import groupby
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.evidence.ball_text import BallProblem, outcome_of, read_ball
from rules.evidence.protocol import BLOCK, KEYS, Ball, Protocol, ProtocolProblem, resumed
from rules.facts.reading import read_subject
from rules.facts.subject import Subject
from rules.fitting import House
from rules.units import parse

YARD = parse("1 yd", "m")
UP = Ball("up")


@pytest.mark.parametrize("clubs", [("a",), ("a", "b"), ("a", "b", "c"), ("a", "b", "c", "d")])
@pytest.mark.parametrize("each", [6, 12])
def test_every_club_s_balls_lie_equally_early_and_late(clubs: tuple[str, ...], each: int) -> None:
    order = Protocol(clubs, each=each).order
    assert Counter(order) == dict.fromkeys(clubs, each)
    means = {club: sum(i for i, c in enumerate(order) if c == club) / each for club in clubs}
    assert len({round(mean, 9) for mean in means.values()}) == 1
    assert order[0] == clubs[0]
    if len(clubs) > 1:
        assert max(len(list(run)) for _, run in groupby(order)) <= 2 * BLOCK


def test_turns_follow_the_order_to_the_end() -> None:
    trial, changes = Protocol(("old", "new")), 0
    hit: list[str] = []
    while (turn := trial.next) is not None:
        assert turn.ball == hit.count(turn.club) + 1
        assert 1 <= turn.left_in_block <= BLOCK
        changes += turn.new_block
        hit.append(turn.club)
        trial = trial.struck(UP)
    assert tuple(hit) == trial.order == ("old",) * 3 + ("new",) * 6 + ("old",) * 3
    assert changes == 3
    assert trial.finished
    with pytest.raises(ProtocolProblem, match="ask for more"):
        trial.struck(UP)
    assert trial.extended().next is not None


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_whatever_is_hit_and_taken_back_every_club_gets_its_balls(data: st.DataObject) -> None:
    clubs = ("a", "b", "c")[: data.draw(st.integers(1, 3))]
    trial = Protocol(clubs)
    for _ in range(data.draw(st.integers(0, 25))):
        event = data.draw(st.sampled_from(("turn", "other", "undo")))
        if event == "undo":
            trial = trial.undone()
        elif event == "other":
            trial = trial.struck(UP, data.draw(st.sampled_from(clubs)))
        elif trial.next is not None:
            trial = trial.struck(UP)
    steps = 0
    while (turn := trial.next) is not None:
        assert trial.counts[turn.club] < trial.each
        trial, steps = trial.struck(UP), steps + 1
        assert steps <= 18
    assert all(count >= trial.each for count in trial.counts.values())


def test_undoing_a_ball_is_as_if_it_had_not_been_hit() -> None:
    trial = Protocol(("a", "b")).struck(UP).struck(Ball("fat"))
    assert trial.undone() == Protocol(("a", "b")).struck(UP)
    assert Protocol(("a",)).undone() == Protocol(("a",))


def test_four_of_six_is_known_as_soon_as_it_is_decided() -> None:
    trial = Protocol(("a",))
    for outcome, passed in (("up", None), ("fat", None), ("up", None), ("up", None), ("up", True)):
        trial = trial.struck(Ball(outcome))  # type: ignore[arg-type]
        assert trial.passed("a") is passed
    lost = Protocol(("a",)).struck(Ball("thin")).struck(Ball("thin"))
    assert lost.passed("a") is None
    assert lost.struck(Ball("topped")).passed("a") is False
    assert lost.tally("a") == {"topped": 0, "thin": 2, "fat": 0, "up": 0}


def test_a_club_that_comes_later_has_its_own_balls() -> None:
    trial = Protocol(("a",)).struck(UP).with_club("b")
    assert trial.clubs == ("a", "b")
    assert trial.counts == {"a": 1, "b": 0}


@pytest.mark.parametrize(
    ("clubs", "says"), [((), "from 1 to 6"), (tuple("abcdefg"), "from 1 to 6"), (("a", "a"), "only once")]
)
def test_trials_that_cannot_be_run_are_refused(clubs: tuple[str, ...], says: str) -> None:
    with pytest.raises(ProtocolProblem, match=says):
        Protocol(clubs)


def test_a_club_that_is_not_of_the_trial_is_refused() -> None:
    with pytest.raises(ProtocolProblem, match="not one of the clubs"):
        Protocol(("a",)).struck(UP, "b")
    with pytest.raises(ProtocolProblem, match="no ball"):
        Protocol(("a",)).last_row()
    with pytest.raises(ProtocolProblem, match="at least one"):
        Protocol(("a",), each=0)


def test_a_ball_is_kept_as_the_session_holds_it_and_taken_up_again(
    house: House, subject: Callable[..., Subject]
) -> None:
    trial = Protocol(("demo", "other")).on("mat", indoors=True)
    trial = trial.struck(Ball("up", -4 * YARD, 0.0062, -0.003, 171 * YARD)).struck(Ball("fat"))
    rows = [trial.row(club, ball) for club, ball in trial.balls]
    assert rows[0] == {
        "club": "demo", "outcome": "up", "surface": "mat", "toe_mm": 6.2, "high_mm": -3.0, "side_yd": -4.0,
        "carry": "171 yd", "indoors": True,
    }  # fmt: skip
    clubs = [{"name": name, "kind": "fairway"} for name in ("demo", "other")]
    kept = read_subject(house.base.facts, {"trial_clubs": clubs, "shots": rows})
    again = resumed(kept, ("demo", "other"))
    assert again.next == trial.next
    assert (again.surface, again.indoors) == ("mat", True)
    assert again.balls[1] == trial.balls[1]
    first, _ = again.balls[0], again.balls[1]
    assert first[1].carry == pytest.approx(171 * YARD)
    assert trial.last_row() == rows[1]


def test_a_finished_trial_is_taken_up_whole(house: House) -> None:
    rows: list[dict[str, Any]] = [{"club": "demo", "outcome": "up"}] * 8
    kept = read_subject(
        house.base.facts, {"trial_clubs": [{"name": "demo", "kind": "hybrid"}], "shots": rows}
    )
    assert resumed(kept, ("demo",)).each == 12
    assert resumed(Subject(), ("demo",)).each == 6


@pytest.mark.parametrize(
    ("typed", "ball"),
    [
        ("u", Ball("up")),
        ("4", Ball("up")),
        ("1", Ball("topped")),
        ("Thin", Ball("thin")),
        ("up 171", Ball("up", carry=171 * YARD)),
        ("up, 156 m", Ball("up", carry=156.0)),
        ("fat 3m left", Ball("fat", side=-3.0)),
        ("u 5 r 6 toe 160", Ball("up", 5 * YARD, 0.006, 0.0, 160 * YARD)),
        ("u 8 mm heel, 4 low", Ball("up", None, -0.008, -0.004)),
        ("u straight centred", Ball("up", 0.0, 0.0, 0.0)),
        ("4 4 low 180 2.5 left", Ball("up", -2.5 * YARD, 0.0, -0.004, 180 * YARD)),
    ],
)
def test_reads_what_a_fitter_types(typed: str, ball: Ball) -> None:
    read = read_ball(typed)
    assert read.outcome == ball.outcome
    for name in ("side", "toe", "high", "carry"):
        wanted = getattr(ball, name)
        assert getattr(read, name) == (wanted if wanted is None else pytest.approx(wanted))


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "begin with 1 topped"),
        ("hello", "begin with 1 topped"),
        ("44", "begin with"),
        ("u hello", "after the key"),
        ("u 5 left 3 right", "said twice"),
        ("u 1,200", "thousands"),
        ("u 5", "'5 left' or '5 right'"),
        ("u " + "9" * 200, "short line"),
        ("u [/b]", "after the key"),
    ],
)
def test_refuses_a_ball_with_one_sentence(typed: str, says: str) -> None:
    with pytest.raises(BallProblem, match=says) as caught:
        read_ball(typed)
    assert "\n" not in str(caught.value)


@settings(max_examples=150, deadline=None)
@given(text=st.text(max_size=60))
def test_any_text_is_a_ball_or_refused(text: str) -> None:
    try:
        told = read_ball(text).outcome in KEYS.values()
    except BallProblem as problem:
        told = bool(str(problem))
    assert told


def test_keys_are_one_key_each() -> None:
    assert set(map(len, KEYS)) == {1}
    assert {outcome_of(key) for key in KEYS} == {"topped", "thin", "fat", "up"}
    assert outcome_of("sideways") is None
