"""Files are replaced whole or not at all, whoever is killed and whoever else writes."""

from __future__ import annotations

import os
import signal
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest

from interview.store import files as files_module
from interview.store.faults import Busy, CannotKeep
from interview.store.files import digest, locked, replace_file, sweep, text_digest

WRITER = """
import sys
from pathlib import Path
from interview.store.files import replace_file
file, n = Path(sys.argv[1]), 0
print("ready", flush=True)
while True:
    n += 1
    replace_file(file, f"begin {n}\\n" + "x" * 200_000 + f"\\nend {n}\\n")
"""


def test_a_new_file_is_private_and_an_old_one_keeps_its_mode(tmp_path: Path) -> None:
    file = tmp_path / "a.toml"
    replace_file(file, "one")
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    file.chmod(0o640)
    replace_file(file, "two")
    assert file.read_text() == "two"
    assert stat.S_IMODE(file.stat().st_mode) == 0o640
    assert [p.name for p in tmp_path.iterdir()] == ["a.toml"]


def test_a_symbolic_link_keeps_pointing_where_it_did(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    target, link = tmp_path / "elsewhere" / "real.toml", tmp_path / "link.toml"
    target.write_text("one")
    link.symlink_to(target)
    replace_file(link, "two")
    assert link.is_symlink()
    assert target.read_text() == "two"


@pytest.mark.parametrize("breaks", ["fsync", "replace"])
def test_when_the_disk_fails_the_old_text_stands(
    breaks: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "a.toml"
    replace_file(file, "old")

    def fails(*args: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, breaks, fails)
    with pytest.raises(CannotKeep, match="no space left on device; what was kept before is untouched"):
        replace_file(file, "new")
    assert file.read_text() == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["a.toml"]


def test_a_folder_that_is_not_there_is_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(CannotKeep, match="no such file or directory"):
        replace_file(tmp_path / "gone" / "a.toml", "x")


def test_killed_writers_leave_a_whole_file(tmp_path: Path) -> None:
    file = tmp_path / "a.toml"
    replace_file(file, "begin 0\nend 0\n")
    for round in range(8):
        writer = subprocess.Popen([sys.executable, "-c", WRITER, str(file)], stdout=subprocess.PIPE)
        assert writer.stdout is not None
        writer.stdout.readline()
        time.sleep(0.004 * (round + 1))
        os.kill(writer.pid, signal.SIGKILL)
        writer.communicate()
        text = file.read_text()
        assert text.startswith("begin ")
        assert text.split()[1] == text.split()[-1]
    sweep(file)
    assert [p.name for p in tmp_path.iterdir()] == ["a.toml"]


def test_a_lock_keeps_others_out_and_a_killed_holder_lets_go(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(files_module, "_PATIENCE", 0.2)
    lock = tmp_path / "deep" / ".lock"
    program = (
        "import sys, time\nfrom pathlib import Path\nfrom interview.store.files import locked\n"
        "with locked(Path(sys.argv[1])):\n    print('held', flush=True)\n    time.sleep(60)\n"
    )
    holder = subprocess.Popen([sys.executable, "-c", program, str(lock)], stdout=subprocess.PIPE)
    assert holder.stdout is not None
    holder.stdout.readline()
    with pytest.raises(Busy, match="another Turfpair is writing"), locked(lock):
        pass
    os.kill(holder.pid, signal.SIGKILL)
    holder.communicate()
    with locked(lock):
        pass


def test_a_digest_tells_what_a_file_holds(tmp_path: Path) -> None:
    file = tmp_path / "a"
    assert digest(file) is None
    replace_file(file, "ä")
    assert digest(file) == text_digest("ä")
