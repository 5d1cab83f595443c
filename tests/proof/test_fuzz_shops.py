"""A shop's files changed at random places: the catalogue, the bookings, and clubs to calibrate by."""

from __future__ import annotations

import shutil
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from rules.house import load_house
from rules.shelf.reader import DEMO
from tests.proof.fuzz_kit import (
    SAMPLES,
    mutated,
    nasty_text,
    place_of_its_own,
    polite,
    ran,
    spliced,
    toml_values,
    tries,
)

SWEEPER = str(next(file for file in SAMPLES if file.stem == "sweeper"))
SHOP = {file.name: file.read_text() for file in sorted(DEMO.glob("*.toml"))}
LINES = (
    "shop check shop", "shop check shop", "shop orders --catalogue shop", "recommend {0} --catalogue shop",
    "sheet {0} --for workshop --catalogue shop", "shop book {0} --catalogue shop",
    "shop release {0} --catalogue shop", "shop learn {0} --catalogue shop --keep",
)  # fmt: skip
WRONG = toml_values() | st.sampled_from(
    [
        "17 deg",
        "212 g",
        "42 in",
        "right",
        "fairway",
        0,
        1,
        2,
        True,
        [],
        [["15 deg", "1 in"]],
        "low-17",
        "rear",
    ]
)
BOOKED = tomllib.loads("""
schema = 1
[[booking]]
session = "somebody"
made = 2026-05-04T09:30:00Z
[[booking.bill]]
head = "heath-19"
shaft = "reed-65-r"
grip = "cord-50"
pieces = { "2 g" = 3, "8 g" = 1 }
""")
CLUB = """
[[club]]
head = "212 g"
shaft = "65 g"
shaft_balance = "20.5 in"
grip = "50 g"
length = "43 in"
total = "331 g"
balance_point = "{0} in"
"""
CLUBS = tomllib.loads("".join(CLUB.format(point) for point in ("32.5", "32.7", "32.4")))


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    with place_of_its_own(tmp_path_factory.mktemp("shops")) as folder:
        yield folder


def read_by(own: Path, name: str, raw: bytes, line: str) -> int:
    """Make a shop with one file as given and let a command read it."""
    load_house.cache_clear()  # it remembers folders by name, for one command
    shutil.rmtree(own / "shop", ignore_errors=True)
    (own / "shop").mkdir()
    for other, text in SHOP.items():
        (own / "shop" / other).write_text(text)
    (own / "shop" / name).write_bytes(raw)
    done = polite(ran([word.format(SWEEPER) for word in line.split()]))
    if not line.startswith(("shop book", "shop release", "shop learn")) or done.status == 2:
        assert (own / "shop" / name).read_bytes() == raw
    return done.status


def with_few(whole: dict[str, Any], many: st.DataObject) -> dict[str, Any]:
    """Keep three parts of each sort beside the rest, so that each is often the one that is changed."""
    place = many.draw(st.integers(0, 4))
    return {key: part[place : place + 3] if isinstance(part, list) else part for key, part in whole.items()}


@given(name=st.sampled_from(sorted(SHOP)), line=st.sampled_from(LINES), data=st.data())
@tries(20, 1500)
def test_a_shop_s_file_changed_at_some_places(own: Path, name: str, line: str, data: st.DataObject) -> None:
    changed = data.draw(mutated(with_few(tomllib.loads(SHOP[name]), data), WRONG))
    read_by(own, name, tomli_w.dumps(changed).encode("utf-8", "replace"), line)


@given(
    name=st.sampled_from(sorted(SHOP)), at=st.floats(0, 1), length=st.integers(0, 40), put=nasty_text(),
    line=st.sampled_from(LINES),
)  # fmt: skip
@tries(15, 1000)
def test_a_shop_s_file_with_text_put_anywhere(
    own: Path, name: str, at: float, length: int, put: str, line: str
) -> None:
    read_by(own, name, spliced(SHOP[name], at, length, put), line)


@given(data=mutated(BOOKED, WRONG), line=st.sampled_from(LINES[2:]))
@tries(12, 800)
def test_bookings_changed_at_some_places(own: Path, data: dict[str, Any], line: str) -> None:
    read_by(own, "bookings.toml", tomli_w.dumps(data).encode("utf-8", "replace"), line)


@given(
    raw=st.binary(max_size=200), name=st.sampled_from([*SHOP, "bookings.toml"]), line=st.sampled_from(LINES)
)
@tries(10, 500)
def test_any_bytes_in_a_shop(own: Path, raw: bytes, name: str, line: str) -> None:
    read_by(own, name, raw, line)


@given(
    data=mutated(CLUBS, WRONG | st.floats() | st.sampled_from(["1e-300 g", "1e300 g", "-1 in"])),
    json=st.booleans(),
)
@tries(60, 3000)
def test_clubs_to_calibrate_by_changed_at_some_places(own: Path, data: dict[str, Any], json: bool) -> None:
    (own / "clubs.toml").write_bytes(tomli_w.dumps(data).encode("utf-8", "replace"))
    polite(ran(["calc", "calibrate", "clubs.toml", *(["--json"] if json else [])]))


@pytest.mark.parametrize("part", ["head", "shaft", "grip", "shop", "calibration", "port"])
def test_a_measure_that_nothing_stands_in_for_is_asked_for(own: Path, part: str) -> None:
    """A shop's own defaults may leave some out, and name them in any order."""
    defaults = tomllib.loads(SHOP["defaults.toml"])
    kept = [one for one in defaults["default"] if one["part"] != part]
    for some, line in ((kept, "shop check shop"), (kept[::-1], "recommend {0} --catalogue shop")):
        read_by(own, "defaults.toml", tomli_w.dumps({**defaults, "default": some}).encode(), line)
