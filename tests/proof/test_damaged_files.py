"""Damaged files: cut, bytes flipped, wrong types, a later schema: one sentence says where."""

from __future__ import annotations

import random
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import tomli_w

from interview.session import begin, load, with_answer
from interview.store import AlreadyThere, Store
from rules.facts.answers import AnswerProblem
from rules.fitting import House
from rules.problems import Problem
from rules.shelf import load_shelf
from rules.shelf.start import start_shop
from rules.units import UnitError

SAMPLES = sorted((Path(__file__).parents[2] / "sample_sessions").glob("*.toml"))
WRONG: tuple[Any, ...] = (
    True, -1, 0, 10**30, 3.5, float("nan"), float("inf"), "", "x", "[/b]\x1b[2J", [], [1], {}, {"a": 1}, [{}],
    "\u202e85 mph", "9" * 400, "1e999 mph",
)  # fmt: skip
"""Values that some key or other does not take."""


def refused(read: Callable[[], object], file: Path) -> bool:
    """Read a file; when it is refused, that is one sentence with its file, which is as it was."""
    before = file.read_bytes()
    try:
        read()
        sentence = ""
    except (Problem, AnswerProblem, UnitError) as problem:
        sentence = str(problem)
        assert "\n" not in sentence
        assert sentence.isprintable(), sentence
        assert file.name in sentence
    assert file.read_bytes() == before
    return bool(sentence)


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda file: file.stem)
def test_a_sample_cut_at_every_hundredth_byte(sample: Path, tmp_path: Path, house: House) -> None:
    file, whole = tmp_path / sample.name, sample.read_bytes()
    cuts = range(0, len(whole), 100)
    found = 0
    for cut in cuts:
        file.write_bytes(whole[:cut])
        found += refused(lambda: load(file, house.base.facts), file)
    assert found >= 1


def test_samples_with_bytes_flipped(
    chance: random.Random, rounds: Callable[[int, int], int], tmp_path: Path, house: House
) -> None:
    found = 0
    for n in range(times := rounds(150, 12_000)):
        sample = SAMPLES[n % len(SAMPLES)]
        raw = bytearray(sample.read_bytes())
        for _ in range(chance.choice((1, 1, 2, 8))):
            raw[chance.randrange(len(raw))] ^= 1 << chance.randrange(8)
        file = tmp_path / sample.name
        file.write_bytes(raw)
        found += refused(lambda file=file: load(file, house.base.facts), file)  # type: ignore[misc]
    assert times // 3 < found < times


def places(value: Any, at: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Every place in plain data, the tables themselves among them."""
    if at:
        yield at
    parts = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, part in parts:
        yield from places(part, (*at, key))


def with_value(data: Any, at: tuple[str | int, ...], value: Any) -> Any:
    """Return data with another value at a place."""
    first, *rest = at
    changed = data.copy()
    changed[first] = with_value(data[first], tuple(rest), value) if rest else value
    return changed


def test_wrong_types_on_every_key(rounds: Callable[[int, int], int], tmp_path: Path, house: House) -> None:
    step = rounds(61, 1)
    tried = [
        (sample, data, at, wrong)
        for sample in SAMPLES
        for data in [tomllib.loads(sample.read_text())]
        for at in places(data)
        for wrong in WRONG
    ]
    found = 0
    for sample, data, at, wrong in tried[::step]:
        file = tmp_path / sample.name
        file.write_text(tomli_w.dumps(with_value(data, at, wrong)))
        found += refused(lambda file=file: load(file, house.base.facts), file)  # type: ignore[misc]
    assert found > len(tried[::step]) // 2


@pytest.mark.parametrize("schema", ["2", "99999999999999999999", '"1"', "1.0", "true", "-1", "[1]"])
def test_a_schema_of_another_time(schema: str, tmp_path: Path, house: House) -> None:
    file = tmp_path / "later.toml"
    file.write_text(SAMPLES[0].read_text().replace("schema = 1", f"schema = {schema}\nwonder = 3", 1))
    with pytest.raises(Problem, match=r"later\.toml line 1.*(newer Turfpair|begins with)") as caught:
        load(file, house.base.facts)
    assert "fault" not in str(caught.value), "what a later version means is not judged key by key"


def test_a_damaged_session_is_kept_aside_and_said_where(tmp_path: Path, house: House) -> None:
    """Whoever begins under its name gets its place, and the damaged one is still there to be mended."""
    store = Store(tmp_path)
    for n, raw in enumerate((b"", b"\x00\xff", b"[[[", SAMPLES[0].read_bytes()[:500] + b"\x80"), 1):
        store.file("torn").write_bytes(raw)
        draft = store.begin(begin("torn"))
        (notice,) = draft.notices
        aside = tmp_path / "damaged" / f"torn-{n}.toml"
        assert str(aside) in notice
        draft.save(with_answer(begin("torn"), house.base.facts, "handicap", n))
        assert aside.read_bytes() == raw
    store.file("later").write_text("schema = 2\n")
    with pytest.raises(AlreadyThere):
        store.begin(begin("later"))
    assert [entry.problem for entry in store.find("later")] == ["written by a newer Turfpair"]
    assert load(store.file("torn"), house.base.facts).subject.answers["handicap"].value == 4


def test_a_shop_with_bytes_flipped(
    chance: random.Random, rounds: Callable[[int, int], int], tmp_path: Path
) -> None:
    shop = tmp_path / "shop"
    files = start_shop(shop)
    whole = {file: file.read_bytes() for file in files}
    found = 0
    for n in range(rounds(15, 800)):
        file = files[n % len(files)]
        raw = bytearray(whole[file])
        raw[chance.randrange(len(raw))] ^= 1 << chance.randrange(8)
        file.write_bytes(raw[: chance.choice((len(raw), chance.randrange(len(raw))))])
        found += refused(lambda: load_shelf(shop), file)
        file.write_bytes(whole[file])
    assert found > 3
