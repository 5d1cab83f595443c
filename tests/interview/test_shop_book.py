"""`turfpair shop book`, `release` and `orders`: all of it or none, and never the demo shop."""

from __future__ import annotations

import hashlib
import os
import signal
import subprocess
import sys
import textwrap
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from interview.commands.main import main
from rules.shelf.bookings import read_bookings, total
from rules.shelf.reader import DEMO, load_shelf
from rules.shelf.start import start_shop
from rules.shelf.stock import counts

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
NEW = str(SAMPLES / "thin-off-tight-turf.toml")
Out = pytest.CaptureFixture[str]


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop of one's own, and a store of one's own."""
    monkeypatch.setenv("TURFPAIR_SESSIONS", str(tmp_path / "sessions"))
    monkeypatch.delenv("TURFPAIR_CATALOGUE", raising=False)
    folder = tmp_path / "shop"
    start_shop(folder)
    return folder


@pytest.fixture
def run(shop: Path, capsys: Out) -> Callable[..., tuple[int, str, str]]:
    """Run a job of the shop's; status, output, errors."""

    def job(*words: str) -> tuple[int, str, str]:
        status = main(["shop", *words, "--catalogue", str(shop)])
        said = capsys.readouterr()
        return status, said.out, said.err

    return job


def booked(shop: Path) -> Counter[tuple[str, str]]:
    return total(one.counts() for one in read_bookings(shop))


def test_a_session_is_booked_and_given_back(shop: Path, run: Callable[..., tuple[int, str, str]]) -> None:
    status, out, err = run("book", NEW)
    assert (status, err) == (0, "")
    assert out.splitlines()[0] == "Booked for session 'thin-off-tight-turf' from Demo shop (invented stock):"
    assert len([line for line in out.splitlines() if line.startswith("  head ")]) == 2
    mine = booked(shop)
    assert {sort for sort, _ in mine} == {"head", "shaft", "grip", "piece"}
    status, out, _ = run("release", "thin-off-tight-turf")
    assert status == 0
    assert out == f"Given back: {sum(mine.values())} parts of session 'thin-off-tight-turf'.\n"
    assert not booked(shop)


def test_what_is_booked_is_what_the_sheet_builds(
    shop: Path, run: Callable[..., tuple[int, str, str]], capsys: Out
) -> None:
    run("book", NEW)
    assert main(["sheet", NEW, "--for", "workshop", "--catalogue", str(shop)]) == 0
    sheet = capsys.readouterr().out
    for sort, id in booked(shop):
        if sort != "piece":
            assert f"({id})" in sheet or id in sheet


def test_booking_twice_books_once(shop: Path, run: Callable[..., tuple[int, str, str]]) -> None:
    run("book", NEW)
    once = booked(shop)
    assert run("book", NEW)[0] == 0
    assert booked(shop) == once


def test_a_ticket_gives_back_too(shop: Path, run: Callable[..., tuple[int, str, str]]) -> None:
    from interview.session import ticket_code

    run("book", NEW)
    assert run("release", ticket_code("thin-off-tight-turf").lower())[0] == 0
    assert not booked(shop)


def test_the_next_golfer_is_not_sold_what_is_promised(
    shop: Path, run: Callable[..., tuple[int, str, str]], tmp_path: Path
) -> None:
    """Of every head and shaft one: the second golfer like the first gets others, or is told."""
    for name in ("heads.toml", "shafts.toml"):
        file = shop / name
        lines = ["count = 1" if line.startswith("count") else line for line in file.read_text().splitlines()]
        file.write_text("\n".join(lines) + "\n")
    second = tmp_path / "another.toml"
    second.write_text(Path(NEW).read_text().replace("thin-off-tight-turf", "another"))
    assert run("book", NEW)[0] == 0
    status, _, err = run("book", str(second))
    shelf = counts(load_shelf(shop))
    for key, number in booked(shop).items():
        there = shelf[key]
        assert there is None or number <= there, key
    heads = [id for sort, id in booked(shop) if sort == "head"]
    assert len(heads) == len(set(heads))
    assert status == 0 or ("nothing was booked" in err and err.count("\n") == 1)


@pytest.mark.parametrize(
    ("sample", "said"),
    [
        ("keep-what-he-has", "both clubs of session 'keep-what-he-has' are his own"),
        ("pain-stops", "a licensed professional comes first"),
    ],
)
def test_what_takes_nothing_books_nothing(
    shop: Path, run: Callable[..., tuple[int, str, str]], sample: str, said: str
) -> None:
    status, out, err = run("book", str(SAMPLES / f"{sample}.toml"))
    assert status == 2
    assert out == ""
    assert said in err
    assert err.count("\n") == 1
    assert not (shop / "bookings.toml").exists()


def test_the_demo_shop_is_never_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out) -> None:
    monkeypatch.setenv("TURFPAIR_SESSIONS", str(tmp_path))
    monkeypatch.delenv("TURFPAIR_CATALOGUE", raising=False)

    def state() -> dict[str, str]:
        return {p.name: hashlib.sha256(p.read_bytes()).hexdigest() for p in DEMO.iterdir() if p.is_file()}

    before = state()
    for words in (["book", NEW], ["release", "x"], ["book", NEW, "--catalogue", str(DEMO)]):
        assert main(["shop", *words]) == 2
        assert "the built-in demo shop is never written" in capsys.readouterr().err
    assert state() == before


def test_nothing_booked_for_it_is_one_sentence(run: Callable[..., tuple[int, str, str]]) -> None:
    status, out, err = run("release", "nobody")
    assert (status, out) == (2, "")
    assert err == "turfpair: nothing is booked for session 'nobody'\n"
    run("book", NEW)
    assert "did you mean 'thin-off-tight-turf'?" in run("release", "thin-off-tight-turff")[2]


def test_damaged_bookings_are_reported_and_left_as_they_are(
    shop: Path, run: Callable[..., tuple[int, str, str]]
) -> None:
    (shop / "bookings.toml").write_text("not toml at all [")
    status, _, err = run("book", NEW)
    assert status == 2
    assert "bookings.toml" in err
    assert (shop / "bookings.toml").read_text() == "not toml at all ["


def test_the_order_list_counts_what_is_promised(shop: Path, run: Callable[..., tuple[int, str, str]]) -> None:
    assert run("orders") == (0, "Nothing has run out.\n", "")
    run("book", NEW)
    heads = [id for sort, id in booked(shop) if sort == "head"]
    file = shop / "heads.toml"
    text = file.read_text()
    for id in heads:
        start = text.index(f'id = "{id}"')
        at = text.index("count = ", start)
        text = text[:at] + "count = 1" + text[text.index("\n", at) :]
    file.write_text(text)
    status, out, _ = run("orders")
    assert status == 0
    rows = {line.split()[1]: line.split() for line in out.splitlines()[1:]}
    assert set(heads) <= set(rows)
    for id in heads:
        assert rows[id][2:6] == ["1", "1", "0", "0"]
    assert len(run("orders", "--at-most", "3")[1].splitlines()) > len(out.splitlines())


def test_orders_take_a_sensible_number(run: Callable[..., tuple[int, str, str]]) -> None:
    assert run("orders", "--at-most", "-1")[0] == 2
    assert run("orders", "--at-most", "many")[0] == 2


def test_a_kill_while_booking_loses_nothing(shop: Path, run: Callable[..., tuple[int, str, str]]) -> None:
    """Killed between writing and renaming, the old bookings stand, and the next booking goes through."""
    run("book", NEW)
    before = (shop / "bookings.toml").read_bytes()
    code = textwrap.dedent(
        """
        import os, signal, sys
        from interview.commands.main import main
        def killed(*_):
            os.kill(os.getpid(), signal.SIGKILL)
        os.replace = killed
        main(["shop", "book", sys.argv[1], "--catalogue", sys.argv[2]])
        """
    )
    other = str(SAMPLES / "hates-hybrids.toml")
    done = subprocess.run(
        [sys.executable, "-c", code, other, str(shop)], capture_output=True, timeout=60, env={**os.environ}
    )
    assert done.returncode == -signal.SIGKILL
    assert (shop / "bookings.toml").read_bytes() == before
    assert run("book", other)[0] == 0
    assert {one.session for one in read_bookings(shop)} == {"thin-off-tight-turf", "hates-hybrids"}


def test_two_at_once_never_promise_one_part_twice(shop: Path, tmp_path: Path) -> None:
    """Five golfers want the same clubs at the same moment, and there are fewer heads than golfers."""
    files = []
    for number in range(5):
        file = tmp_path / f"golfer-{number}.toml"
        file.write_text(Path(NEW).read_text().replace("thin-off-tight-turf", f"golfer-{number}"))
        files.append(str(file))
    command = [sys.executable, "-m", "interview.commands.main", "shop", "book"]
    jobs = [
        subprocess.Popen(
            [*command, file, "--catalogue", str(shop)], stdout=subprocess.PIPE, stderr=subprocess.PIPE
        )
        for file in files
    ]
    statuses = {job.communicate(timeout=120) and job.returncode for job in jobs}
    assert statuses <= {0, 2}
    there = counts(load_shelf(shop))
    for key, number in booked(shop).items():
        have = there[key]
        assert have is None or number <= have, key
    assert len(read_bookings(shop)) >= 1
