"""Where a file is wanted and a pipe or a device stands, nothing waits and nothing is read without end."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from interview.store import Store
from tests.proof.fuzz_kit import SAMPLES, place_of_its_own, polite, ran

SWEEPER = str(next(file for file in SAMPLES if file.stem == "sweeper"))


@pytest.fixture
def own(tmp_path: Path) -> Iterator[Path]:
    with place_of_its_own(tmp_path) as folder:
        yield folder


def pipe(file: Path) -> None:
    os.mkfifo(file)


def device(file: Path) -> None:
    file.symlink_to("/dev/zero")


@pytest.mark.parametrize("make", [pipe, device])
@pytest.mark.parametrize(
    "line",
    [
        "ask {0}", "recommend {0}", "sheet {0} --for golfer", "whatif {0} handicap=3", "shop learn {0}",
        "trial {0}", "trial {1} --shots {0}", "calc calibrate {0}", "trainer --plain {0}",
        "ask there --sessions store", "recommend there --sessions store", "recommend {1} --rules {2}/rules",
        "recommend {1} --catalogue {2}/shop", "trainer --plain --class class",
    ],
)  # fmt: skip
def test_is_refused_in_one_sentence(make: Callable[[Path], None], line: str, own: Path) -> None:
    for folder, name in (
        ("store", "there"), ("rules", "base"), ("shop", "heads"), ("class", "class"), (".", "odd")
    ):  # fmt: skip
        (own / folder).mkdir(exist_ok=True)
        make(own / folder / f"{name}.toml")
    done = polite(ran([word.format("odd.toml", SWEEPER, own) for word in line.split()]))
    assert done.status == 2
    assert b"ordinary file" in done.err


@pytest.mark.parametrize("make", [pipe, device])
def test_a_list_of_sessions_goes_on(make: Callable[[Path], None], own: Path) -> None:
    make(own / "odd.toml")
    (own / "sweeper.toml").write_bytes(Path(SWEEPER).read_bytes())
    done = polite(ran(["sessions", "list", "--sessions", "."]))
    assert done.status == 0
    assert b"damaged" in done.out
    assert b"sweeper" in done.out
    assert [entry.id for entry in Store(own).old(datetime.now(UTC), datetime.now(UTC).date())]


def test_a_table_beyond_all_measure_is_not_read(own: Path) -> None:
    with (own / "shots.csv").open("wb") as file:
        file.truncate(2**40)
    done = polite(ran(["trial", SWEEPER, "--shots", "shots.csv"]))
    assert done.status == 2
    assert b"shots.csv" in done.err
