"""The kiosk when its clocks do what clocks do: set back, set forward, over midnight, over a sleep."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interview.kiosk.clock import Clock
from interview.kiosk.gate import FREE_TRIES, LIMIT, Gate
from interview.kiosk.idle import ASKS_AFTER, FORGETS_AFTER, IdleClock
from interview.kiosk.pin import PinFile, PinProblem
from interview.kiosk.reception import Reception
from interview.kiosk.ticket import KEPT_FOR, last_day
from interview.kiosk.visit import Visit
from interview.store import Lapsed, Store
from rules.fitting import House

PIN, WRONG = "918273", "111222"


def test_the_idle_minute_goes_on_whatever_the_wall_says(
    clock: Clock, hands: Any, pass_time: Callable[[float], None]
) -> None:
    idle = IdleClock(clock.steady())
    hands.wall -= timedelta(days=400)
    pass_time(ASKS_AFTER - 1)
    assert idle.due(clock.steady()) == "nothing"
    hands.wall += timedelta(days=9000)
    pass_time(1)
    assert idle.due(clock.steady()) == "ask"
    hands.wall -= timedelta(days=9000)
    pass_time(FORGETS_AFTER)
    assert idle.due(clock.steady()) == "forget"


def test_the_steady_clock_of_a_kiosk_is_not_the_wall_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("time.time", lambda: 0.0)
    first = Clock().steady()
    assert Clock().steady() >= first > 0.0


@given(st.datetimes(datetime(1, 1, 3), datetime(9999, 12, 28)))
def test_a_ticket_lasts_thirty_days_or_to_the_end_of_the_calendar(made: datetime) -> None:
    until = last_day(made.replace(tzinfo=UTC))
    assert until == date.max or abs((until - made.date()) - KEPT_FOR) <= timedelta(days=1)


@pytest.mark.parametrize(
    ("made", "until"),
    [
        (datetime(2024, 1, 30, 12, tzinfo=UTC), date(2024, 2, 29)),
        (datetime(2023, 1, 30, 12, tzinfo=UTC), date(2023, 3, 1)),
        (datetime(2038, 1, 19, 3, 14, 8, tzinfo=UTC), date(2038, 2, 18)),
        (datetime(9999, 12, 20, 12, tzinfo=UTC), date.max),
    ],
)
def test_leap_days_and_the_last_years(made: datetime, until: date) -> None:
    assert last_day(made) == until


def test_a_clock_that_is_set_forward_ends_tickets_and_one_set_back_keeps_them(
    to_the_end: Callable[..., Visit], walk: Callable[..., Visit], reception: Reception, shelf: Store,
    hands: Any, house: House,
) -> None:  # fmt: skip
    made = walk("next", "next", "next", "yes", visit=to_the_end()).ticket
    assert made is not None
    hands.wall -= timedelta(days=365)
    reception.purge()
    assert shelf.open(made.code, house.base.facts).session.record.consent
    hands.wall += timedelta(days=365) + KEPT_FOR + timedelta(days=1)
    with pytest.raises(Lapsed):
        shelf.open(made.code, house.base.facts)
    reception.purge()
    assert shelf.ids() == ()


def test_a_visit_over_which_the_clock_is_set_keeps_one_ticket(
    walk: Callable[..., Visit], to_the_end: Callable[..., Visit], hands: Any, shelf: Store
) -> None:
    """The id was drawn by the clock of the beginning, the promise is made by that of the end."""
    consent = walk("next", "next", "next", visit=to_the_end())
    hands.wall -= timedelta(days=3)
    ticket = walk("yes", visit=consent).ticket
    assert ticket is not None
    assert ticket.until == last_day(hands.wall)
    assert len(shelf.ids()) == 1


def test_staff_are_not_kept_out_by_a_clock_that_was_set_back(
    pin_file: PinFile, clock: Clock, hands: Any, pass_time: Callable[[float], None]
) -> None:
    pin_file.note(LIMIT - 1, 0.0)
    gate = Gate(pin_file, clock)
    gate.tried(WRONG)
    hands.wall -= timedelta(days=30)
    assert gate.tried(PIN).kind == "wait", "no way around the wait"
    assert gate.tried(PIN).seconds <= 900
    pass_time(901)
    assert gate.tried(PIN).kind == "open"


def test_a_clock_set_back_gives_no_free_tries(pin_file: PinFile, clock: Clock, hands: Any) -> None:
    pin_file.note(FREE_TRIES, 0.0)
    gate = Gate(pin_file, clock)
    gate.tried(WRONG)
    for _ in range(5):
        hands.wall -= timedelta(hours=1)
        assert gate.tried(WRONG).kind == "wait"


@pytest.mark.parametrize("until", ["Infinity", "NaN", "-Infinity"])
def test_a_moment_that_is_no_number_is_a_damaged_file(until: str, pin_file: PinFile) -> None:
    text = pin_file.path.read_text()
    pin_file.path.write_text(text.replace('"until": 0.0', f'"until": {until}'))
    assert until in pin_file.path.read_text()
    with pytest.raises(PinProblem):
        pin_file.read()
