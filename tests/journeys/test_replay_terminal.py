"""A replay in a real terminal: its bar fills and goes, and Ctrl-C leaves one line and no process behind."""

from __future__ import annotations

import contextlib
import os
import re
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pexpect
import pytest
import tomli_w

from rules.inquiry.invented import invented
from tests.journeys.real_terminal import TURFPAIR

ESCAPE = re.compile(r"\x1b\[[0-9;?<>=]*[A-Za-z]")
"""A control sequence of a terminal (ECMA-48, CSI)."""


def written(folder: Path, count: int) -> Path:
    folder.mkdir()
    for number in range(count):
        (folder / f"{number:03d}.toml").write_text(tomli_w.dumps(invented(number)), encoding="utf-8")
    (folder / "broken.toml").write_text(
        "schema = 1\nid = 'b'\n[answers]\nhandicap = 'lots'\n", encoding="utf-8"
    )
    return folder


@pytest.fixture
def replay(tmp_path: Path) -> Iterator[Any]:
    """Starts a replay in a terminal, its report going to a file as a reviewer would have it."""
    running: list[Any] = []

    def run(count: int, *words: str) -> Any:
        folder = written(tmp_path / "cases", count)
        command = f"exec {TURFPAIR} replay {folder} {' '.join(words)} > {tmp_path / 'report.md'}"
        env = {**os.environ, "XDG_STATE_HOME": str(tmp_path), "TERM": "xterm-256color"}
        child = pexpect.spawn("/bin/sh", ["-c", command], env=env, timeout=60, dimensions=(24, 80))
        running.append(child)
        return child

    yield run
    for child in running:
        with contextlib.suppress(OSError, pexpect.ExceptionPexpect):
            child.close(force=True)


def workers(pid: int) -> list[int]:
    """The processes that another one has started, as Linux tells them."""
    with contextlib.suppress(OSError):
        return [int(one) for one in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]
    return []


def works(pid: int) -> bool:
    """Whether a process is still there and no mere entry of one that has ended."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def test_the_bar_fills_and_goes_and_the_report_is_whole(replay: Any, tmp_path: Path) -> None:
    child = replay(30)
    child.expect_exact("sessions")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
    shares = [int(one) for one in re.findall(r"(\d+)%", ESCAPE.sub("", child.before.decode()))]
    assert shares == sorted(shares)
    assert len(set(shares)) > 2
    assert shares[-1] > 60
    report = (tmp_path / "report.md").read_text(encoding="utf-8")
    assert report.startswith("# Replay\n\n31 sessions: ")
    assert "| broken |" in report
    assert "\x1b" not in report


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="looks for processes as Linux tells them")
def test_ctrl_c_ends_it_in_one_line_with_every_worker_gone(replay: Any, tmp_path: Path) -> None:
    child = replay(400, "--cores", "2")
    child.expect_exact("sessions")
    until = time.monotonic() + 30
    while len(started := workers(child.pid)) < 2:
        assert time.monotonic() < until
        time.sleep(0.02)
    child.sendintr()
    child.expect(pexpect.EOF, timeout=15)
    child.close()
    assert child.exitstatus == 130
    left = [line for line in ESCAPE.sub("", child.before.decode()).splitlines() if line.strip(" ━╸╺\r^C")]
    said = [line for line in left if "turfpair" in line or "nterrupted" in line]
    assert len(said) <= 1
    assert not any("Traceback" in line or "Process " in line for line in left), left
    until = time.monotonic() + 10
    while any(works(pid) for pid in started):
        assert time.monotonic() < until, "a worker is still there"
        time.sleep(0.05)
    assert (tmp_path / "report.md").read_text(encoding="utf-8") == ""
