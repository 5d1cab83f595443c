"""Memory stays bounded whatever a file of its size holds: measured as the most a process ever had."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.proof.fuzz_kit import LONG
from tests.proof.test_large_values import BEGIN, SESSIONS

MOST = 300_000
"""Kilobytes that no command may need for a file that it reads; some 60,000 are Python's and ours."""
MEASURED = """
import contextlib, io, sys
from interview.commands.main import main
with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
    status = main(sys.argv[1:])
most = next(line.split()[1] for line in open("/proc/self/status") if line.startswith("VmHWM"))
print(status, most)
"""
FULL = 990_000
WORST = {
    "small tables": BEGIN + "x = [" + "{a=1}," * (FULL // 6) + "]\n",
    "keys": BEGIN + "[answers]\n" + "".join(f"a{n} = 1\n" for n in range(FULL // 12)),
}
"""Sessions of a megabyte that take the most memory for each of their bytes."""


def peak(folder: Path, *words: str) -> int:
    """Run a command in a process of its own; return the most memory it had (kB)."""
    made = subprocess.run(
        [sys.executable, "-c", MEASURED, *words], cwd=folder, capture_output=True, text=True
    )
    assert made.returncode == 0, made.stderr
    status, most = map(int, made.stdout.split())
    assert status in (0, 1, 2)
    return most


@pytest.mark.parametrize("what", [*WORST, *(SESSIONS if LONG else ())])
def test_a_session(tmp_path: Path, what: str) -> None:
    (tmp_path / "large.toml").write_text(WORST.get(what) or SESSIONS[what])
    assert peak(tmp_path, "recommend", "large.toml") < MOST


@pytest.mark.parametrize("text", ["," * 1_900_000, '"' + "x" * 1_900_000])
def test_a_table(tmp_path: Path, text: str) -> None:
    (tmp_path / "one.toml").write_text(BEGIN)
    (tmp_path / "shots.csv").write_text(text)
    assert peak(tmp_path, "trial", "one.toml", "--shots", "shots.csv") < MOST


def test_a_store_of_several(tmp_path: Path) -> None:
    for n in range(4):
        (tmp_path / f"large-{n}.toml").write_text(WORST["small tables"])
    assert peak(tmp_path, "sessions", "list", "--sessions", ".") < MOST
