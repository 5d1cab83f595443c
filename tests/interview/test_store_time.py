"""Time in the store: clocks set forward and back, zones, summer time, leap days, the ends of the calendar."""

from __future__ import annotations

import os
import subprocess
import sys
import time
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interview.session import Session, begin, load, ticket_code, with_record
from interview.store import Lapsed, Store, local_day
from interview.store.listing import moment_of
from rules.fitting import House

MADE = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
ZONES = ("UTC", "America/Los_Angeles", "Pacific/Kiritimati", "Europe/Berlin", "Asia/Kathmandu")


@pytest.fixture
def zone(monkeypatch: pytest.MonkeyPatch) -> Iterator[pytest.MonkeyPatch]:
    """A patch with which a test stands in a zone; the zone of the machine comes back after it."""
    yield monkeypatch
    monkeypatch.undo()
    time.tzset()


def stand_in(zone: pytest.MonkeyPatch, name: str) -> None:
    zone.setenv("TZ", name)
    time.tzset()


def ticket(store: Store, expires: date, id: str = "a-ticket") -> Session:
    draft = store.begin(begin(id, voice="customer", created=MADE))
    return draft.save(with_record(draft.session, consent=True, expires=expires))


def store_on(folder: Path, day: date) -> Store:
    return Store(folder, lambda: day)


@given(st.dates(date(1, 1, 4), date(9999, 12, 27)), st.integers(-3, 3))
def test_a_ticket_is_read_to_the_end_of_its_day_and_never_after(until: date, days: int) -> None:
    from interview.store.listing import Entry

    entry = Entry("t", Path("t.toml"), MADE, expires=until)
    assert entry.lapsed(until + timedelta(days=days)) == (days > 0)


def test_a_lapsed_ticket_is_neither_listed_nor_found_nor_opened(tmp_path: Path, house: House) -> None:
    facts, until = house.base.facts, date(2026, 6, 3)
    code = ticket_code(ticket(store_on(tmp_path, until), until).id)
    open_still = store_on(tmp_path, until)
    assert [e.id for e in open_still.entries()] == ["a-ticket"]
    assert open_still.open(code, facts).session.id == "a-ticket"
    over = store_on(tmp_path, until + timedelta(days=1))
    assert over.entries() == over.find("customer") == over.find(code) == ()
    for name in ("a-ticket", code, str(tmp_path / "a-ticket.toml")):
        with pytest.raises(Lapsed, match=r"ticket .* could be kept until 03 Jun 2026 and is read no more"):
            over.locate(name)
        with pytest.raises(Lapsed):
            over.open(name, facts)
    over.forget(over.named(code))
    assert not list(tmp_path.glob("*.toml"))


def test_a_lapsed_ticket_that_waits_to_be_deleted_is_deleted(tmp_path: Path) -> None:
    until = date(2024, 2, 29)
    ticket(store_on(tmp_path, until), until)
    over = store_on(tmp_path, until + timedelta(days=1))
    long_ago = datetime(1, 1, 1, tzinfo=UTC)
    assert over.purge(long_ago, until) == (), "its day is not over yet"
    assert [e.id for e in over.purge(long_ago, date(2024, 3, 1))] == ["a-ticket"]


def test_two_kiosks_may_delete_at_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    store = store_on(tmp_path, date(2026, 6, 4))
    for id in ("first", "second"):
        ticket(store, date(2026, 6, 3), id)
    gone = store.old(datetime(1, 1, 1, tzinfo=UTC), date(2026, 6, 4))
    store.forget("first")
    monkeypatch.setattr(Store, "old", lambda *_: gone)
    store.purge(datetime(1, 1, 1, tzinfo=UTC), date(2026, 6, 4))
    assert store.ids() == ()


@pytest.mark.parametrize(
    "seconds", [0.0, -1.0, 2.0**31, 2.0**32 + 1, 4102444800.0, 253402300799.0, 1e12, -1e12]
)
def test_a_file_of_any_year_is_listed(seconds: float, tmp_path: Path, house: House) -> None:
    """The Unix second 2^31 is in 2038, 2^32 in 2106; 253402300799 is the last second of 9999."""
    store = Store(tmp_path)
    for id in ("strange", "usual"):
        draft = store.begin(begin(id))
        draft.save(replace(draft.session, note=id))
    try:
        os.utime(tmp_path / "strange.toml", (seconds, seconds))
    except OSError:
        pytest.skip("this disk knows no such year")
    listed = [entry.id for entry in store.entries()]
    assert sorted(listed) == ["strange", "usual"]
    assert store.entries()[0].changed.astimezone().year <= 9999
    later = seconds > time.time()
    assert (listed[0] == "strange") == later, "one that was saved in the future stands first"
    gone = store.purge(datetime.now(UTC) - timedelta(days=90), date(2026, 1, 1))
    assert [entry.id for entry in gone] == ([] if later else ["strange"]), "what is of the future is not old"


@given(st.floats(allow_nan=True, allow_infinity=True))
def test_every_time_stamp_is_a_moment_that_every_zone_can_tell(seconds: float) -> None:
    moment = moment_of(seconds)
    assert moment.tzinfo is UTC
    assert moment.astimezone().tzinfo is not None


@given(st.floats(-6e10, 2.5e11), st.floats(-6e10, 2.5e11))
def test_later_stamps_are_later_moments(one: float, other: float) -> None:
    assert (one <= other) <= (moment_of(one) <= moment_of(other))


@pytest.mark.parametrize("name", ZONES)
def test_a_day_is_the_shops_own_in_every_zone(name: str, zone: pytest.MonkeyPatch) -> None:
    """Half past nine in the evening of the fourth is the fourth where the shop is, whatever Greenwich has."""
    stand_in(zone, name)
    evening = datetime(2026, 5, 4, 21, 30).astimezone()
    assert local_day(evening) == local_day(evening.astimezone(UTC)) == date(2026, 5, 4)
    assert local_day(datetime.max.replace(tzinfo=UTC)).year == 9999
    assert local_day(datetime.min.replace(tzinfo=UTC)).year == 1


def test_summer_time_makes_no_day_longer(zone: pytest.MonkeyPatch) -> None:
    """In Berlin the clocks went forward on 2026-03-29 and go back on 2026-10-25 (EU Directive 2000/84/EC)."""
    stand_in(zone, "Europe/Berlin")
    for day in (date(2026, 3, 29), date(2026, 10, 25)):
        first = datetime(day.year, day.month, day.day).astimezone()
        following = day + timedelta(days=1)
        after = datetime(following.year, following.month, following.day).astimezone()
        moments = (first + timedelta(minutes=7 * step) for step in range(300))
        assert {
            local_day(m.astimezone(UTC)) for m in moments if m.astimezone(UTC) < after.astimezone(UTC)
        } == {day}


@pytest.mark.parametrize("name", ZONES)
def test_moments_are_written_in_universal_time_whatever_the_zone(
    name: str, zone: pytest.MonkeyPatch, tmp_path: Path, house: House
) -> None:
    stand_in(zone, name)
    here = MADE.astimezone()
    draft = Store(tmp_path).begin(begin("here", created=here))
    draft.save(replace(draft.session, note="x"))
    text = draft.file.read_text()
    assert "created = 2026-05-04T09:30:00Z" in text
    assert load(draft.file, house.base.facts).created == MADE


def test_a_zone_that_changes_between_two_saves_changes_nothing(
    zone: pytest.MonkeyPatch, tmp_path: Path, house: House
) -> None:
    written = set()
    for name in ZONES:
        stand_in(zone, name)
        store = Store(tmp_path)
        try:
            draft = store.open("moved", house.base.facts)
        except Exception:
            draft = store.begin(begin("moved", created=MADE))
        draft.save(replace(draft.session, note=f"in {name}"))
        written.add(str(tomllib.loads(draft.file.read_text())["created"]))
    assert written == {"2026-05-04 09:30:00+00:00"}


@pytest.mark.parametrize("name", ["America/Los_Angeles", "Pacific/Kiritimati"])
def test_purge_by_the_command_goes_by_the_shops_day(name: str, tmp_path: Path) -> None:
    """A ticket of today and one of yesterday, where the command runs in the shop's zone."""
    environment = {**os.environ, "TZ": name, "TURFPAIR_SESSIONS": str(tmp_path)}
    today = subprocess.run(
        [sys.executable, "-c", "import datetime; print(datetime.date.today())"],
        env=environment, capture_output=True, text=True, check=True,
    ).stdout.strip()  # fmt: skip
    until = date.fromisoformat(today)
    store = store_on(tmp_path, until)
    ticket(store, until, "todays")
    ticket(store, until - timedelta(days=1), "yesterdays")
    run = [sys.executable, "-m", "interview.commands.main", "sessions"]
    listed = subprocess.run([*run, "list"], env=environment, capture_output=True, text=True, check=True)
    assert "todays" in listed.stdout
    assert "yesterdays" not in listed.stdout
    done = subprocess.run(
        [*run, "purge", "--older-than", "90d"], env=environment, capture_output=True, text=True, check=True
    )
    assert "1 session forgotten" in done.stdout
    assert [file.stem for file in tmp_path.glob("*.toml")] == ["todays"]
