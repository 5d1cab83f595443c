"""Files of a shop are replaced whole or not at all, a kill included."""

from __future__ import annotations

import os
import random
import signal
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest

from rules.shelf import load_shelf
from rules.shelf.bookings import read_bookings
from rules.shelf.files import CannotWrite, replace_file
from rules.shelf.start import FolderTaken, start_shop
from rules.shelf.stock import book, release

WRITER = """
import sys
from pathlib import Path
from rules.shelf.bookings import Bill
from rules.shelf.stock import book, release
shop = Path(sys.argv[1])
print("ready", flush=True)
for number in range(10_000):
    book(shop, f"s{number % 7}", [Bill("heath-17", "even-64", "cord-48", {0.0005: 1})] * (number % 2))
    print(number, flush=True)
"""


def test_replacing_keeps_mode_and_link(tmp_path: Path) -> None:
    file, link = tmp_path / "real.toml", tmp_path / "link.toml"
    file.write_text("old")
    file.chmod(0o640)
    link.symlink_to(file)
    replace_file(link, "new")
    assert link.is_symlink()
    assert file.read_text() == "new"
    assert stat.S_IMODE(file.stat().st_mode) == 0o640
    assert sorted(path.name for path in tmp_path.iterdir()) == ["link.toml", "real.toml"]


def test_what_cannot_be_written_leaves_the_old_text(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "kept.toml"
    file.write_text("old")

    def refuse(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", refuse)
    with pytest.raises(CannotWrite, match=r"kept.toml: no space left on device; nothing was changed"):
        replace_file(file, "new")
    assert file.read_text() == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["kept.toml"]


def test_a_folder_that_has_gone_is_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match="no such file or directory; nothing was changed"):
        replace_file(tmp_path / "gone" / "file.toml", "x")


@pytest.mark.parametrize("seed", range(4))
def test_a_kill_at_any_moment_leaves_bookings_that_read(shop: Path, seed: int) -> None:
    with subprocess.Popen(
        [sys.executable, "-c", WRITER, str(shop)], stdout=subprocess.PIPE, text=True
    ) as writer:
        assert writer.stdout is not None
        assert writer.stdout.readline() == "ready\n"
        first = writer.stdout.readline()  # however slow the disk is, one write is done before the kill
        time.sleep(0.1 + random.Random(seed).random() * 0.3)
        writer.send_signal(signal.SIGKILL)
        done = [int(line) for line in (first + writer.stdout.read()).split("\n")[:-1]]
    assert done
    bookings = read_bookings(shop)
    assert {one.session for one in bookings} >= {f"s{number % 7}" for number in done[-7:]}
    # The lock of a killed writer is free again, and what it left behind is written over.
    book(shop, "after", [])
    release(shop, "after")
    assert [path.name for path in shop.iterdir() if path.name.endswith(".tmp")] == []


def test_a_new_shop_is_the_demo_again(tmp_path: Path) -> None:
    folder = tmp_path / "deep" / "shop"
    made = start_shop(folder)
    assert sorted(path.name for path in made) == sorted(path.name for path in folder.iterdir())
    assert load_shelf(folder).digest == load_shelf().digest
    assert [path.name for path in folder.parent.iterdir()] == ["shop"]
    for file in made:
        file.write_text(file.read_text() + "\n")


def test_an_empty_folder_will_do_and_a_taken_one_will_not(tmp_path: Path) -> None:
    start_shop(tmp_path / "shop")
    own = tmp_path / "shop" / "heads.toml"
    own.write_text("mine")
    with pytest.raises(FolderTaken, match="nothing is written over"):
        start_shop(tmp_path / "shop")
    assert own.read_text() == "mine"
    with pytest.raises(FolderTaken):
        start_shop(own)
    (tmp_path / "empty").mkdir()
    start_shop(tmp_path / "empty")
    assert len(load_shelf(tmp_path / "empty").heads) == len(load_shelf().heads)


def test_a_place_that_cannot_be_written_is_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(CannotWrite, match="nothing was changed"):
        start_shop(tmp_path / "file" / "shop")


def test_a_copy_cut_short_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "rename", refuse)
    with pytest.raises(CannotWrite):
        start_shop(tmp_path / "shop")
    assert list(tmp_path.iterdir()) == []
