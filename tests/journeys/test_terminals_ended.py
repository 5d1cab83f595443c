"""What ends a program from outside, signals or a closed window, in every talk and on every screen.

The bytes that reach the terminal are looked at: it must be left as it was found.
"""

from __future__ import annotations

import contextlib
import os
import signal
import termios
import time
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pexpect
import pytest

from interview.kiosk.pin import PinFile
from tests.journeys.real_terminal import TURFPAIR

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
CASE = str(SAMPLES / "digger-scattered.toml")
PIN = "918273"
GIVEN_BACK = (b"\x1b[?1049l", b"\x1b[?25h", b"\x1b[?1000l", b"\x1b[?1003l", b"\x1b[?1006l", b"\x1b[?2004l",
              b"\x1b[?1004l", b"\x1b[<u")  # fmt: skip
"""The usual screen, a cursor, no mouse reports, plain pastes, no focus reports, plain keys (xterm's control
sequences, DEC private mode reset, and kitty's keyboard protocol)."""
SCREENS = {
    "bay": (["bay"], "Hand"),
    "kiosk": (["kiosk"], "Which two"),
    "trainer": (["trainer", CASE], "predict"),
}
"""What each screen is started by, and words that it shows when it is there."""

Start = Callable[..., Any]


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    """Return a function that starts `turfpair` in a terminal, every file below one folder."""
    running: list[Any] = []

    def run(*words: str, **more: str) -> Any:
        kept = {name: value for name, value in os.environ.items() if not name.startswith("TURFPAIR_")}
        env = {**kept, "XDG_STATE_HOME": str(tmp_path / "state"), "TERM": "xterm-256color", **more}
        child = pexpect.spawn(str(TURFPAIR), list(words), env=env, timeout=30, dimensions=(24, 80))
        running.append(child)
        return child

    yield run
    for child in running:
        with contextlib.suppress(OSError, pexpect.ExceptionPexpect):
            child.close(force=True)


def set_pin(folder: Path) -> None:
    PinFile(folder / "state" / "turfpair" / "kiosk").set(PIN)


def ended(child: Any) -> int:
    """Wait for the end of a program; return its status as a shell tells it."""
    child.wait()
    return int(child.exitstatus if child.exitstatus is not None else 128 + child.signalstatus)


@pytest.mark.parametrize(
    ("name", "sent", "status"),
    [
        ("bay", "SIGTERM", 143), ("bay", "SIGINT", 130), ("trainer", "SIGHUP", 129), ("kiosk", "SIGHUP", 129),
        ("kiosk", "SIGINT", 130),
    ],
)  # fmt: skip
def test_a_signal_leaves_the_terminal_as_it_was_found(
    name: str, sent: str, status: int, start: Start, tmp_path: Path
) -> None:
    if name == "kiosk":
        set_pin(tmp_path)
    words, shown = SCREENS[name]
    child = start(*words)
    before = termios.tcgetattr(child.child_fd)
    child.expect(shown)
    child.send(b"\x1b[<35;9;9M")  # the mouse moves
    os.kill(child.pid, getattr(signal, sent))
    if name == "kiosk" and sent == "SIGINT":  # a chord may send it: a customer must not get out so
        assert child.expect([pexpect.EOF, pexpect.TIMEOUT], timeout=1.5) == 1
        os.kill(child.pid, signal.SIGTERM)
        status = 143
    child.expect(pexpect.EOF)
    assert [mode for mode in GIVEN_BACK if mode not in child.before] == []
    assert termios.tcgetattr(child.child_fd) == before
    assert ended(child) == status
    assert b"Traceback" not in child.before


def hang_up(child: Any) -> int:
    """Close the window; return the status that the program ends with, in reasonable time."""
    os.close(child.child_fd)
    until = time.monotonic() + 15
    while time.monotonic() < until:
        pid, raw = os.waitpid(child.pid, os.WNOHANG)
        if pid:
            child.closed = child.ptyproc.closed = True
            child.ptyproc.terminated = True
            return os.waitstatus_to_exitcode(raw)
        time.sleep(0.02)
    raise AssertionError("it is still there")


@pytest.mark.parametrize("name", [*SCREENS, "ask"])
def test_a_closed_window_ends_the_program(name: str, start: Start, tmp_path: Path) -> None:
    if name == "kiosk":
        set_pin(tmp_path)
    words, shown = SCREENS.get(name, (["ask"], "> "))
    child = start(*words)
    child.expect(shown)
    child.send({"bay": b"left\r", "ask": b"left\n"}.get(name, b""))
    if name in ("bay", "ask"):
        child.expect("1 said|pain")
    assert hang_up(child) == 129
    kept = [tomllib.loads(file.read_text()) for file in tmp_path.rglob("sessions/*.toml")]
    assert [one["answers"] for one in kept] == ([{"hand": "left"}] if name in ("bay", "ask") else [])
    assert not list(tmp_path.rglob("log/*"))


def in_memory_only(start: Start, tmp_path: Path) -> Any:
    """Begin a talk whose folder becomes a file, so that what is said is in memory only."""
    folder = tmp_path / "here"
    child = start("ask", "--new", "torn", TURFPAIR_SESSIONS=str(folder))
    child.expect("> ")
    (folder / ".lock").unlink()
    folder.rmdir()
    folder.write_text("")
    child.sendline("left")
    child.expect("memory")
    return child


def rescued(tmp_path: Path) -> Any:
    """The answers of the one session that was rescued."""
    (file,) = (tmp_path / "state").rglob("rescued/*.toml")
    return tomllib.loads(file.read_text())["answers"]


@pytest.mark.parametrize("sent", ["SIGTERM", "SIGHUP", "SIGINT"])
def test_what_could_not_be_kept_is_rescued_when_a_talk_is_ended(
    sent: str, start: Start, tmp_path: Path
) -> None:
    child = in_memory_only(start, tmp_path)
    child.expect("> ")
    os.kill(child.pid, getattr(signal, sent))
    child.expect(pexpect.EOF)
    assert ended(child) == 128 + getattr(signal, sent)
    assert rescued(tmp_path) == {"hand": "left"}


def test_a_closed_window_rescues_too(start: Start, tmp_path: Path) -> None:
    child = in_memory_only(start, tmp_path)
    hang_up(child)
    assert rescued(tmp_path) == {"hand": "left"}


@pytest.mark.parametrize(
    ("words", "sent", "status"),
    [
        (["recommend", CASE], "SIGTERM", 143), (["replay", str(SAMPLES)], "SIGTERM", 143),
        (["replay", str(SAMPLES)], "SIGINT", 130), (["replay", str(SAMPLES)], "SIGHUP", 129),
    ],
)  # fmt: skip
def test_a_command_that_only_reads_ends_at_once(
    words: list[str], sent: str, status: int, start: Start
) -> None:
    """A bar that shows how far it is hides the cursor meanwhile, and must give it back."""
    child = start(*words)
    if words[0] == "replay":
        child.expect_exact(b"\x1b[?25l")
        child.expect_exact(b"sessions")
    os.kill(child.pid, getattr(signal, sent))
    child.expect(pexpect.EOF, timeout=20)
    assert ended(child) == status
    assert b"Traceback" not in child.before
    assert words[0] != "replay" or b"\x1b[?25h" in child.before
