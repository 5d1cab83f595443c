"""Nothing is written over that was not meant: sessions changed meanwhile, tables, folders of others."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from interview.commands import trial
from tests.proof.fuzz_kit import SAMPLES, place_of_its_own, polite, ran

SWEEPER = next(file for file in SAMPLES if file.stem == "sweeper")
BALLS = SWEEPER.parent / "trials" / "a-three-wood-that-stays-down.csv"


@pytest.fixture
def own(tmp_path: Path) -> Iterator[Path]:
    with place_of_its_own(tmp_path) as folder:
        (folder / "kept").mkdir()
        (folder / "kept" / "sweeper.toml").write_bytes(SWEEPER.read_bytes())
        yield folder


def meanwhile(monkeypatch: pytest.MonkeyPatch, change: Callable[[], object]) -> None:
    """Let something happen while the balls are looked at: after the session was read, before it is kept."""
    real = trial._taken

    def taken(*given: Any) -> Any:
        found = real(*given)
        change()
        return found

    monkeypatch.setattr(trial, "_taken", taken)


def test_balls_beside_a_session_that_somebody_changed_meanwhile(
    own: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    theirs = own / "kept" / "sweeper.toml"
    text = theirs.read_text().replace("handicap = ", "typical_score = 80\nhandicap = ", 1)
    meanwhile(monkeypatch, lambda: theirs.write_text(text))
    done = polite(ran(["trial", "sweeper", "--shots", str(BALLS), "--sessions", "kept"]))
    assert done.status == 0
    assert b"somebody else changed sweeper.toml meanwhile" in done.out
    assert theirs.read_text() == text
    ours = tomllib.loads((own / "kept" / "sweeper-2.toml").read_text())
    assert len(ours["shots"]) == len(BALLS.read_text().splitlines()) - 1
    assert "typical_score" not in ours["answers"]


def test_balls_for_a_session_that_is_half_written_meanwhile(
    own: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    theirs = own / "kept" / "sweeper.toml"
    meanwhile(monkeypatch, lambda: theirs.write_bytes(b"half a [line"))
    assert ran(["trial", "sweeper", "--shots", str(BALLS), "--sessions", "kept"]).status == 0
    assert theirs.read_bytes() == b"half a [line"
    assert (own / "kept" / "sweeper-2.toml").exists()


@pytest.mark.parametrize("name", ["kept/sweeper.toml", "kept", "notes", "x.csv.txt"])
def test_a_table_is_saved_as_a_table_alone(own: Path, name: str) -> None:
    before = {p: p.read_bytes() for p in own.rglob("*") if p.is_file()}
    done = polite(ran(["trial", "sweeper", "--shots", str(BALLS), "--save", name, "--sessions", "kept"]))
    assert done.status == 2
    assert b".csv" in done.err
    assert {p: p.read_bytes() for p in own.rglob("*") if p.is_file()} == before


def test_the_table_that_is_read_is_not_written_over(own: Path) -> None:
    (own / "balls.csv").write_bytes(BALLS.read_bytes() + b"demo 3-wood,fairway,15,42.5,what,,,,,,,,\n")
    (own / "other.csv").symlink_to("balls.csv")
    before = (own / "balls.csv").read_bytes()
    for save in ("balls.csv", "./balls.csv", "other.csv"):
        words = ["trial", "sweeper", "--shots", "balls.csv", "--save", save, "--sessions", "kept"]
        assert polite(ran(words)).status == 2
    assert (own / "balls.csv").read_bytes() == before
    assert (own / "kept" / "sweeper.toml").read_bytes() == SWEEPER.read_bytes(), "not even taken in"


def test_folders_of_others_are_left_alone(own: Path) -> None:
    (own / "full").mkdir()
    (own / "full" / "mine.txt").write_text("mine")
    for words in (
        ["shop", "init", "full"],
        ["rules", "check", "--witnesses", "full"],
        ["shop", "init", "full/mine.txt"],
    ):
        assert polite(ran(words)).status == 2
    assert [p.name for p in (own / "full").iterdir()] == ["mine.txt"]
