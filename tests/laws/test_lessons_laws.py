"""Laws of marks and of what comes back, held on real ledgers and on drawn ones."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import settings as limits
from hypothesis import strategies as st

from interview.classroom import INTERVALS, PASS, Attempt, due, repeats
from interview.session import load
from rules.engine.ledger import Choice
from rules.house import House
from rules.lessons.case import Case, decided, ledger_of, open_case
from rules.lessons.drivers import drivers
from rules.lessons.marks import amount_earned, choice_earned, mark, reasons_earned
from rules.lessons.naming import nameable
from rules.lessons.predict import Prediction

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
MORNING = datetime(2026, 3, 2, 9, tzinfo=UTC)


@pytest.fixture(scope="module")
def taught(house: House) -> Case:
    session = load(SAMPLES / "windy-links.toml", house.base.facts)
    return open_case(house, session.id, session.subject)


@given(st.integers(-5000, 50_000), st.integers(0, 5000), st.integers(0, 40_000))
def test_the_closer_candidate_never_earns_less(gap: int, more: int, stake: int) -> None:
    nearer, farther = choice_earned(gap, stake), choice_earned(gap + more, stake)
    assert 0 <= farther <= nearer <= 1


@given(st.floats(0, 50), st.floats(0, 50))
def test_the_closer_amount_never_earns_less(one: float, other: float) -> None:
    near, far = sorted((one, other))
    assert 0 <= amount_earned(far) <= amount_earned(near) <= 1


def test_closeness_follows_the_standings_of_every_choice(taught: Case) -> None:
    for decision in decided(taught):
        found = ledger_of(taught, decision)
        if isinstance(found, Choice):
            ids = [one.candidate.id for one in found.standings[:40]]
            earned = [mark(taught, Prediction(decision, id)).closeness for id in ids]
            assert earned == sorted(earned, reverse=True)
            assert earned[0] == 1


@limits(max_examples=60)
@given(data=st.data())
def test_a_true_reason_never_costs_and_a_wrong_one_never_helps(taught: Case, data: st.DataObject) -> None:
    decision = data.draw(st.sampled_from(decided(taught)))
    moved = drivers(taught, decision)
    names = data.draw(st.lists(st.sampled_from(nameable(taught, decision)), max_size=5, unique=True))
    extra = data.draw(st.sampled_from(nameable(taught, decision)))
    before, after = reasons_earned(moved, names), reasons_earned(moved, [*names, extra])
    assert 0 <= before <= 1
    if extra in names or moved.wrong((extra,)):
        assert after <= before + 1e-12
    else:
        assert after >= before - 1e-12
    assert reasons_earned(moved, list(moved.facts)) == pytest.approx(1)


scores = st.lists(st.tuples(st.integers(0, 200), st.sampled_from((0.0, 0.5, 0.75, 1.0))), max_size=12)


@given(scores)
def test_only_what_was_missed_comes_back_and_a_miss_begins_anew(tries: list[tuple[int, float]]) -> None:
    made = [
        Attempt("t1", MORNING + timedelta(hours=hours), "myth:x:1", "myth", score)
        for hours, score in sorted(tries)
    ]
    found = repeats(made)
    if all(one.score >= PASS for one in made):
        assert found == ()
    elif made[-1].score < PASS:
        (one,) = found
        assert (one.step, one.when) == (0, made[-1].at + timedelta(days=INTERVALS[0]))
    for one in found:
        assert 0 <= one.step < len(INTERVALS)
        assert due(made, one.when) == (one,)
        assert due(made, one.when - timedelta(seconds=1)) == ()


@given(st.integers(0, 3))
def test_got_right_on_its_day_it_comes_back_later_and_at_last_no_more(times: int) -> None:
    made, at = [Attempt("t1", MORNING, "x", "myth", 0.0)], MORNING
    for step in range(times):
        at += timedelta(days=INTERVALS[step])
        made.append(Attempt("t1", at, "x", "myth", 1.0))
    (one,) = repeats(made)
    assert one.when - at == timedelta(days=INTERVALS[times])
    made += [Attempt("t1", at + timedelta(days=100 * n), "x", "myth", 1.0) for n in range(1, 5)]
    assert repeats(made) == ()
