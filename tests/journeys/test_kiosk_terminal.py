"""The kiosk in a real terminal: an attacker's list, the disk read before and after, the PIN, and a kill."""

from __future__ import annotations

import os
import re
import signal
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pexpect
import pytest

PIN = "918273"
ATTACKS = {
    "interrupt": b"\x03" * 5, "quit": b"\x11" * 3, "palette": b"\x10", "suspend": b"\x1a" * 3,
    "core": b"\x1c" * 3, "end of input": b"\x04" * 5, "stop output": b"\x13\x11", "literal": b"\x16\x03",
    "backslash": b"\x1c", "escape": b"\x1b" * 6, "function keys": b"\x1bOP\x1bOQ\x1b[15~\x1b[21~\x1b[24~",
    "alt keys": b"\x1bq\x1bx\x1b:\x1b.", "paste": b"\x1b[200~\x03\x11quit\nexit\n:q!\n\x1b[201~",
    "unended paste": b"\x1b[200~rm -rf\n", "end of it": b"\x1b[201~",
    "mouse": b"\x1b[<0;1;1M\x1b[<0;1;1m\x1b[<2;5;5M",
    "wheel": b"\x1b[<64;9;9M\x1b[<65;9;9M" * 9, "wild mouse": b"\x1b[<0;9999;9999M\x1b[<0;0;0m",
    "vi": b":q!\r:wq\r", "emacs": b"\x18\x03", "screen": b"\x01d\x02d", "shell": b"!sh\r$(sh)\r`sh`\r",
    "nul and controls": bytes(range(32)), "high controls": bytes(range(128, 160)),
    "not utf-8": b"\xff\xfe\xc0\x80",
    "window title": b"\x1b]0;x\x07", "device control": b"\x1bP$qm\x1b\\",
    "reports": b"\x1b[1;1R\x1b[?1;2c\x1b[8;1;1t",
    "focus": b"\x1b[O\x1b[I", "kitty keys": b"\x1b[99;5u\x1b[113;5u\x1b[122;5u", "flood": b"qQxX~" * 400,
}  # fmt: skip
"""What an attacker sends, by what it is meant to do."""


def everything(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, byte for byte."""
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A home of its own, with a PIN set the way the staff set it."""
    child = spawn(tmp_path, "--set-pin")
    child.expect("New staff PIN")
    child.sendline(PIN)
    child.expect("same again")
    child.sendline(PIN)
    child.expect("is set")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
    return tmp_path


def spawn(home: Path, *more: str) -> Any:
    """Start the installed command where every place it could write to is below one folder."""
    (home / "tmp").mkdir(exist_ok=True)
    kept = {
        name: value for name, value in os.environ.items() if re.match("PATH$|LANG$|LC_ALL$|COVERAGE", name)
    }
    env = {
        **kept, "HOME": str(home), "XDG_STATE_HOME": str(home / "state"), "TMPDIR": str(home / "tmp"),
        "XDG_CACHE_HOME": str(home / "cache"), "TERM": "xterm-256color", "PYTHONDONTWRITEBYTECODE": "1",
        "TEXTUAL_ALLOW_SIGNALS": "1",
    }  # fmt: skip
    command = ["-m", "interview.commands.main", "kiosk", *more]
    return pexpect.spawn(sys.executable, command, env=env, timeout=30, dimensions=(24, 80), cwd=home)


@pytest.fixture
def child(home: Path) -> Iterator[Any]:
    """A kiosk at its welcome."""
    started = spawn(home)
    started.expect("Which two long clubs")
    yield started
    started.close(force=True)


def press(child: Any, keys: bytes, wanted: str) -> None:
    """Press a key until the page that it leads to has come; early presses fall on the floor."""
    for _ in range(40):
        child.send(keys)
        if child.expect([wanted, pexpect.TIMEOUT], timeout=0.5) == 0:
            time.sleep(0.35)
            return
    raise AssertionError((keys, wanted, child.before))


def drained(child: Any) -> None:
    """Read what was written meanwhile."""
    while child.expect([".+", pexpect.TIMEOUT], timeout=0.1) == 0:
        pass


def state_of(child: Any) -> str:
    """The state of the process: R or S while it lives, T when stopped."""
    return Path(f"/proc/{child.pid}/stat").read_text().rpartition(")")[2].split()[0]


@pytest.mark.slow
def test_an_attacker_does_not_get_out(child: Any, home: Path) -> None:
    before = everything(home)
    for name, sent in ATTACKS.items():
        child.send(sent)
        drained(child)
        assert child.isalive(), name
        assert state_of(child) in "RSD", name
    for rows, columns in ((1, 1), (24, 3), (2, 200), (60, 160), (24, 80)):
        child.setwinsize(rows, columns)
        drained(child)
        assert child.isalive(), (rows, columns)
    os.kill(child.pid, signal.SIGINT)
    os.kill(child.pid, signal.SIGQUIT)
    os.kill(child.pid, signal.SIGTSTP)
    drained(child)
    assert child.isalive(), "signals that a chord might send"
    assert state_of(child) in "RSD"
    assert everything(home) == before, "nothing of it is on the disk"
    welcomed(child)
    press(child, b"1", "right-handed or left-handed")


def welcomed(child: Any) -> None:
    """Start over until the welcome stands there; it may already, so the page is made to be drawn anew."""
    for turn in range(40):
        child.send(b"s2")
        child.setwinsize(24, 81 - turn % 2)
        if child.expect(["Which two long clubs", pexpect.TIMEOUT], timeout=0.5) == 0:
            time.sleep(0.35)
            return
    raise AssertionError(child.before)


@pytest.mark.slow
def test_the_pin_is_the_way_out_and_the_terminal_is_sound_afterwards(child: Any) -> None:
    press(child, b"\x1b[B", "Staff")
    press(child, b"\r", "Staff only")
    for digit in PIN:
        child.send(digit)
    child.send(b"\r")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0


@pytest.mark.slow
def test_nothing_is_on_the_disk_without_consent_and_one_ticket_with_it(child: Any, home: Path) -> None:
    before = everything(home)
    press(child, b"1", "right-handed or left-handed")
    press(child, b"2", "hurt anywhere")
    press(child, b"2", "handicap")
    child.send(b"37")
    press(child, b"\r", "junior, an adult or a senior")
    assert everything(home) == before
    press(child, b"2", "Question 5")
    for _ in range(40):
        child.send(b"d")
        if child.expect(["Two clubs to begin with", pexpect.TIMEOUT], timeout=0.5) == 0:
            break
    time.sleep(0.35)
    press(child, b"1", "Try this in the bay")
    press(child, b"1", "Before anybody swings")
    press(child, b"1", "Shall we keep")
    assert everything(home) == before, "nothing yet, not even beside the store"
    press(child, b"1", "Your ticket")
    after = everything(home)
    new = {name: text for name, text in after.items() if name not in before and not name.endswith(".lock")}
    assert len(new) == 1
    assert b"handicap = 37" in next(iter(new.values()))
    assert b"consent = true" in next(iter(new.values()))


@pytest.mark.slow
def test_a_kill_by_the_system_leaves_a_sound_terminal_and_no_trace(child: Any, home: Path) -> None:
    before = everything(home)
    press(child, b"1", "right-handed or left-handed")
    child.kill(signal.SIGTERM)
    child.expect("\x1b\\[\\?1049l")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 143
    assert everything(home) == before


def test_without_a_pin_one_is_asked_for_and_two_that_differ_set_none(tmp_path: Path) -> None:
    child = spawn(tmp_path)
    child.expect("New staff PIN")
    child.sendline(PIN)
    child.expect("same again")
    child.sendline("918274")
    child.expect("differ")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 2
    assert not list(tmp_path.rglob("pin.json"))
