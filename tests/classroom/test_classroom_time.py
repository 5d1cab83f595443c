"""When missed items come back, whatever the clock of the class did meanwhile."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

from hypothesis import given
from hypothesis import strategies as st

from interview.classroom.repeats import INTERVALS, due, repeats
from interview.classroom.roll import Attempt

NOW = datetime(2026, 3, 29, 1, 0, tzinfo=UTC)
"""The hour in which Europe's clocks went forward."""
moments = st.datetimes(datetime(1, 1, 2), datetime(9999, 12, 30)).map(lambda when: when.replace(tzinfo=UTC))


def attempt(at: datetime, score: float = 0.0, item: str = "item") -> Attempt:
    return Attempt("t1", at, item, "predict", score)


def test_a_day_is_a_day_over_summer_time_and_a_leap_day() -> None:
    for at in (NOW - timedelta(hours=12), datetime(2024, 2, 28, 9, tzinfo=UTC)):
        (missed,) = repeats([attempt(at)])
        assert missed.when == at + timedelta(days=INTERVALS[0])
        assert not due([attempt(at)], missed.when - timedelta(seconds=1))
        assert due([attempt(at)], missed.when) == (missed,)


def test_the_zone_in_which_an_attempt_was_noted_does_not_matter() -> None:
    east = timezone(timedelta(hours=14))
    assert repeats([attempt(NOW)]) == repeats([attempt(NOW.astimezone(east))])


def test_what_was_missed_while_the_clock_ran_ahead_is_due_at_once() -> None:
    ahead = attempt(NOW + timedelta(days=4000))
    assert [one.item for one in due([ahead], NOW)] == ["item"]
    soon = attempt(NOW + timedelta(hours=2))
    assert due([soon], NOW) == (), "a few hours are no matter"


@given(st.lists(st.tuples(moments, st.floats(0, 1), st.sampled_from(["one", "two"])), max_size=8), moments)
def test_no_moment_of_the_calendar_is_too_much(
    made: list[tuple[datetime, float, str]], now: datetime
) -> None:
    attempts = [attempt(at, score, item) for at, score, item in made]
    waiting = repeats(attempts)
    assert len({one.item for one in waiting}) == len(waiting)
    assert set(due(attempts, now)) <= set(waiting)
    assert due(attempts, now) == due(list(reversed(attempts)), now) or len({a.at for a in attempts}) < len(
        attempts
    )


@given(moments, moments)
def test_nothing_waits_longer_than_the_longest_interval(at: datetime, now: datetime) -> None:
    for one in repeats([attempt(at)]):
        waits = one.when - now
        assert (one in due([attempt(at)], now)) or timedelta(0) < waits <= timedelta(days=INTERVALS[-1])
