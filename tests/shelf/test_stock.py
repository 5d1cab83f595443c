"""Stock: what is on hand is what was counted less what is booked, whatever happens."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from filelock import FileLock
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rules.problems import Problem
from rules.shelf import DEMO, ShelfFaults, files, load_shelf
from rules.shelf.bookings import Bill, Booking, bookings_text, read_bookings
from rules.shelf.start import start_shop
from rules.shelf.stock import (
    BadSessionName,
    DemoIsReadOnly,
    NotBooked,
    NotInStock,
    book,
    counts,
    on_hand,
    orders,
    release,
)

NOON = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)
CLUB = Bill("heath-17", "even-64", "cord-48", {0.004: 2, 0.0005: 1})


def test_a_booking_is_kept_as_it_was_made(shop: Path) -> None:
    made = book(shop, "pat-may", [CLUB, Bill(shaft="short-71")], NOON)
    assert read_bookings(shop) == (made,)
    assert made == Booking("pat-may", NOON, (CLUB, Bill(shaft="short-71")))
    assert made.counts() == Counter(
        {("head", "heath-17"): 1, ("shaft", "even-64"): 1, ("grip", "cord-48"): 1, ("piece", "4 g"): 2,
         ("piece", "0.5 g"): 1, ("shaft", "short-71"): 1}
    )  # fmt: skip


def test_what_is_booked_is_no_longer_on_hand_except_for_whom_it_is(shop: Path) -> None:
    shelf = load_shelf(shop)
    assert on_hand(shelf) == shelf
    book(shop, "a", [CLUB])
    book(shop, "b", [CLUB])
    left = on_hand(shelf)
    assert left.head("heath-17").count == 2
    assert left.shaft("even-64").count == 4
    assert left.grip("cord-48").count == 10
    assert {piece.id: piece.count for piece in left.pieces}["4 g"] == 12
    assert on_hand(shelf, "a").head("heath-17").count == 3


def test_booking_again_replaces_and_releasing_gives_back(shop: Path) -> None:
    shelf = load_shelf(shop)
    for _ in range(9):
        book(shop, "a", [CLUB])
    assert on_hand(shelf).head("heath-17").count == 3
    assert release(shop, "a").bills == (CLUB,)
    assert on_hand(shelf) == shelf
    with pytest.raises(NotBooked, match="nothing is booked for session 'a'"):
        release(shop, "a")


def test_what_is_not_there_is_named_and_nothing_is_booked(shop: Path) -> None:
    book(shop, "first", [Bill(head="heath-23")])
    with pytest.raises(NotInStock) as caught:
        book(shop, "second", [Bill("heath-23", "nonesuch"), Bill("heath-23")])
    assert caught.value.short == {("head", "heath-23"): (2, 1), ("shaft", "nonesuch"): (1, 0)}
    assert "head heath-23 (2 wanted, 1 on hand); shaft nonesuch (1 wanted, 0 on hand)" in str(caught.value)
    assert [one.session for one in read_bookings(shop)] == ["first"]


def test_a_failed_booking_leaves_the_earlier_one(shop: Path) -> None:
    book(shop, "a", [CLUB])
    with pytest.raises(NotInStock):
        book(shop, "a", [CLUB] * 5)
    assert read_bookings(shop)[0].bills == (CLUB,)


def test_what_nobody_counts_never_runs_out(shop: Path) -> None:
    file = shop / "heads.toml"
    file.write_text(file.read_text().replace("count = 3\n", "", 1))
    book(shop, "a", [Bill("heath-15")] * 40)
    assert on_hand(load_shelf(shop)).head("heath-15").count is None
    assert not any(line.id == "heath-15" for line in orders(shop, at_most=100))


def test_the_order_list_names_what_ran_out_and_what_is_short(shop: Path) -> None:
    assert orders(shop) == ()
    book(shop, "a", [Bill("heath-23"), Bill("heath-23", "firm-82")])
    (line,) = orders(shop)
    assert (line.sort, line.id, line.label) == ("head", "heath-23", "Heath 23 shallow")
    assert (line.count, line.booked, line.on_hand, line.short) == (2, 2, 0, 0)
    assert ("shaft", "firm-82") in {(one.sort, one.id) for one in orders(shop, at_most=2)}
    file = shop / "heads.toml"
    text = file.read_text()
    at = text.index('id = "heath-23"')
    file.write_text(text[:at] + text[at:].replace('id = "heath-23"', 'id = "renamed"', 1))
    gone = next(line for line in orders(shop) if line.id == "heath-23")
    assert (gone.count, gone.booked, gone.on_hand, gone.short) == (0, 2, 0, 2)


@pytest.mark.parametrize("folder", [None, DEMO])
def test_the_demo_shop_is_never_written(folder: Path | None) -> None:
    before = sorted(path.name for path in DEMO.iterdir())
    attempts: list[Callable[[], object]] = [lambda: book(folder, "a", [CLUB]), lambda: release(folder, "a")]
    for attempt in attempts:
        with pytest.raises(DemoIsReadOnly, match="turfpair shop init FOLDER"):
            attempt()
    assert sorted(path.name for path in DEMO.iterdir()) == before


@pytest.mark.parametrize("name", ["", " a", "a\x1b[31m", "a" * 300])
def test_a_name_that_could_not_be_read_back_is_refused(shop: Path, name: str) -> None:
    with pytest.raises(BadSessionName, match="cannot be booked for under its name"):
        book(shop, name, [CLUB])
    assert read_bookings(shop) == ()


DAMAGED = [
    ("[[booking]\n", "not valid TOML"),
    ("[[booking]]\nmade = 2026-05-04T12:00:00Z\n", "'session' is missing"),
    ('[[booking]]\nsession = "a"\nmade = "today"\n', "a date with its time"),
    ('[[booking]]\nsession = "a"\nmade = 2026-05-04T12:00:00Z\nbill = 3\n', "tables under"),
    ('[[booking]]\nsession = "a"\nmade = 2026-05-04T12:00:00Z\nbill = [{ pieces = 3 }]\n', "pieces: a table"),
    (
        '[[booking]]\nsession = "a"\nmade = 2026-05-04T12:00:00Z\nbill = [{ pieces = { "4 mm" = 1 } }]\n',
        "pieces",
    ),
    ('[[booking]]\nsession = "a"\nmade = 2026-05-04T12:00:00Z\nbill = [{ heads = "x" }]\n', "'heads' is not"),
]


@pytest.mark.parametrize(("text", "said"), DAMAGED)
def test_damaged_bookings_are_reported_and_left_alone(shop: Path, text: str, said: str) -> None:
    file = shop / "bookings.toml"
    file.write_text(text)
    attempts: list[Callable[[], object]] = [
        lambda: book(shop, "b", [CLUB]), lambda: release(shop, "a"), lambda: orders(shop)
    ]  # fmt: skip
    for attempt in attempts:
        with pytest.raises(Problem) as caught:
            attempt()
        assert said in str(caught.value)
        assert "bookings.toml" in str(caught.value)
    assert file.read_text() == text


def test_a_catalogue_at_fault_books_nothing(shop: Path) -> None:
    (shop / "grips.toml").write_text("grip = 1\n")
    with pytest.raises(ShelfFaults):
        book(shop, "a", [CLUB])
    assert not (shop / "bookings.toml").exists()


def test_a_second_writer_waits_and_then_says_so(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files, "PATIENCE", 0.05)
    with FileLock(shop / files.LOCK_FILE), pytest.raises(files.Busy, match="has not finished; try again"):
        book(shop, "a", [CLUB])
    book(shop, "a", [CLUB])


NAMES = st.sampled_from(["a", "b", "c"])
BILLS = st.builds(
    Bill,
    head=st.sampled_from([None, "heath-23", "heath-25", "gorse-17"]),
    shaft=st.sampled_from([None, "firm-82", "short-56"]),
    grip=st.sampled_from([None, "stout-55"]),
    pieces=st.dictionaries(st.sampled_from([0.009, 0.007, 0.0005]), st.integers(0, 5), max_size=3),
)
STEPS = st.lists(
    st.tuples(st.sampled_from(["book", "release"]), NAMES, st.lists(BILLS, max_size=3)), max_size=9
)


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=STEPS)
def test_stock_is_never_negative_and_always_adds_up(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[str, str, list[Bill]]]
) -> None:
    shop = tmp_path_factory.mktemp("stock") / "shop"
    start_shop(shop)
    shelf = load_shelf(shop)
    promised: dict[str, Counter[tuple[str, str]]] = {}
    for what, session, bills in steps:
        try:
            if what == "book":
                promised[session] = book(shop, session, bills).counts()
            else:
                release(shop, session)
                del promised[session]
        except NotInStock:
            assert what == "book"
        except NotBooked:
            assert session not in promised
        left, booked = on_hand(shelf), sum(promised.values(), Counter[tuple[str, str]]())
        before, after = counts(shelf), counts(left)
        for key, number in before.items():
            assert after[key] == (number or 0) - booked[key] >= 0
        assert all(line.short == 0 for line in orders(shop))


@settings(max_examples=30, deadline=None)
@given(bills=st.lists(BILLS, max_size=4), session=st.text("abc-xyz0189", min_size=1, max_size=20))
def test_bookings_come_back_as_they_were_written(
    tmp_path_factory: pytest.TempPathFactory, bills: list[Bill], session: str
) -> None:
    folder = tmp_path_factory.mktemp("written")
    booking = Booking(session, NOON, tuple(bills))
    (folder / "bookings.toml").write_text(bookings_text([booking]))
    (read,) = read_bookings(folder)
    assert read.session == session
    assert read.counts() == +booking.counts()
