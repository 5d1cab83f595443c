"""The kiosk, its seats in browsers and the trainer ended at random moments, hard and by signals.

A visitor leaves nothing behind, wherever this is looked for; a ticket is there whole or not at all; what a
lesson had marked is in the class.
"""

from __future__ import annotations

import os
import random
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import Any

import pexpect
import pytest

from interview.classroom import ClassBook
from interview.kiosk.pin import PinFile
from interview.session import load
from rules.fitting import House

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
TURFPAIR = Path(sys.executable).with_name("turfpair")
ENDS = (signal.SIGKILL, signal.SIGTERM, signal.SIGHUP)
ANSWERS = (b"1", b"2", b"2", b"37\r", b"2", b"d", b"d", b"d", b"1", b"d", b"d", b"d")
"""Keys that answer one question after another; the first leaves the welcome."""
Rounds = Callable[[int, int], int]


def everything(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, byte for byte; locks, which are empty, apart."""
    files = (p for p in folder.rglob("*") if p.is_file() and not p.name.endswith(".lock"))
    return {str(p.relative_to(folder)): p.read_bytes() for p in files}


@pytest.fixture
def kiosk(environment: dict[str, str], tmp_path: Path) -> Iterator[Callable[..., Any]]:
    """Return a function that opens the kiosk; every place it could write to is below one folder."""
    PinFile(tmp_path / "state" / "turfpair" / "kiosk").set("918273")
    running: list[Any] = []

    def start() -> Any:
        child = pexpect.spawn(
            str(TURFPAIR), ["kiosk"], env=environment, timeout=60, dimensions=(24, 80), cwd=tmp_path
        )
        running.append(child)
        child.expect("Which two long clubs")
        return child

    yield start
    for child in running:
        child.close(force=True)


def pressed(child: Any, keys: bytes, chance: random.Random) -> None:
    """Press keys as a visitor does, and read what comes."""
    child.send(keys)
    child.expect([pexpect.TIMEOUT, pexpect.EOF], timeout=chance.uniform(0.05, 0.5))


def test_a_kiosk_ended_while_somebody_answers_keeps_nothing(
    kiosk: Callable[..., Any], rounds: Rounds, chance: random.Random, tmp_path: Path
) -> None:
    before = everything(tmp_path)
    reached = set()
    for n in range(rounds(3, 60)):
        child = kiosk()
        for keys in ANSWERS[: (count := chance.randrange(1, len(ANSWERS)))]:
            pressed(child, keys, chance)
        reached.add(count)
        child.kill(ENDS[n % 3])
        child.expect([pexpect.EOF, pexpect.TIMEOUT], timeout=10)
        child.close(force=True)
        assert everything(tmp_path) == before, f"round {n}, {ENDS[n % 3].name} after {count} answers"
    assert len(reached) > 1


def test_a_kiosk_ended_as_it_keeps_a_ticket_keeps_it_whole_or_not_at_all(
    kiosk: Callable[..., Any], rounds: Rounds, chance: random.Random, tmp_path: Path, sessions: Path,
    house: House,
) -> None:  # fmt: skip
    for n in range(rounds(1, 30)):
        child = kiosk()
        to_the_consent(child)
        child.send(b"1")
        time.sleep(chance.uniform(0.0, 0.12))
        child.kill(ENDS[n % 3])
        child.expect([pexpect.EOF, pexpect.TIMEOUT], timeout=10)
        child.close(force=True)
        for ticket in sessions.glob("*.toml"):
            kept = load(ticket, house.base.facts)
            assert kept.record.consent
            assert kept.record.expires
    places = {str(Path(name).parent) for name in everything(tmp_path)}
    assert places <= {"sessions", "state/turfpair/kiosk"}
    again = kiosk()
    assert not list(sessions.glob(".*.tmp")), "what a killed kiosk left was nobody's any more"
    again.close(force=True)


def to_the_consent(child: Any) -> None:
    """Answer everything with as little as possible, up to the page that asks whether a ticket may be kept."""
    for keys, wanted in ((b"1", "right-handed or left-handed"), (b"2", "hurt anywhere"), (b"2", "handicap")):
        until_seen(child, keys, wanted)
    until_seen(child, b"d", "Two clubs to begin with")
    for wanted in ("Try this in the bay", "Before anybody swings", "Shall we keep"):
        until_seen(child, b"1", wanted)


def until_seen(child: Any, keys: bytes, wanted: str) -> None:
    """Press a key until a page has come; early presses fall on the floor."""
    for _ in range(60):
        child.send(keys)
        if child.expect([wanted, pexpect.TIMEOUT], timeout=0.6) == 0:
            time.sleep(0.4)
            return
    raise AssertionError((keys, wanted))


def test_what_a_killed_kiosk_left_of_a_ticket_goes_with_the_next_start(
    kiosk: Callable[..., Any], sessions: Path
) -> None:
    sessions.mkdir()
    (sessions / ".k7m4q2xd.toml.abcd_123.tmp").write_text("[answers]\nhandicap = 37\n")
    kiosk()
    assert os.listdir(sessions) in ([], [".lock"])


def test_browsers_ended_with_their_kiosk_leave_nothing(
    rounds: Rounds, chance: random.Random, tmp_path: Path
) -> None:
    pytest.importorskip("websockets", reason="the extra 'web' is not installed")
    from tests.web.conftest import Served, page, until

    (tmp_path / "tmp").mkdir()
    PinFile(tmp_path / "state" / "turfpair" / "kiosk").set("918273")
    before = everything(tmp_path)
    for n in range(rounds(2, 40)):
        served = Served(tmp_path)
        with served.talk() as talk:
            talk.send('{"size":[80,24]}')  # as large as a seat is before it is told
            page(talk, 60.0)
            for key in ("1", "2", "2", "3", "7", "Enter", "2")[: chance.randrange(1, 8)]:
                talk.send(f'{{"key":"{key}"}}')
                time.sleep(chance.uniform(0.0, 0.3))
            seats = served.seats()
            assert seats
            served.process.send_signal(ENDS[n % 3])
            served.process.communicate(timeout=20)
            until(partial(all_ended, seats))
        assert everything(tmp_path) == before, f"round {n}, {ENDS[n % 3].name}"


def all_ended(processes: list[int]) -> bool:
    """Whether none of these processes is still at work."""
    for process in processes:
        try:
            if Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0] != "Z":
                return False
        except OSError:
            continue
    return True


LESSON = "exercise claim\n1\n" * 400
MARKED = re.compile(rb"(?m)^(?:Right\.|Not so\.)")


def test_a_lesson_ended_at_any_moment_has_kept_what_it_marked(
    rounds: Rounds, chance: random.Random, environment: dict[str, str], tmp_path: Path
) -> None:
    folder, said, typed = tmp_path / "class", tmp_path / "said", tmp_path / "typed"
    ClassBook.open(folder).add("Ann")
    typed.write_text(LESSON)
    kept = 0
    words = ["trainer", "--plain", str(SAMPLES / "sweeper.toml"), "--class", str(folder), "--trainee", "Ann"]
    for n in range(rounds(3, 60)):
        with said.open("wb") as out, typed.open() as lines:
            process = subprocess.Popen(
                [TURFPAIR, *words], stdin=lines, stdout=out, stderr=out,
                env={**environment, "PYTHONUNBUFFERED": "1"},
            )  # fmt: skip
            until_some_marks(process, said, chance.randrange(1, 12))
            time.sleep(chance.uniform(0.0, 0.03))
            process.send_signal(ENDS[n % 3])
            process.wait(20)
        marked = len(MARKED.findall(said.read_bytes()))
        book = ClassBook.open(folder)
        assert [one.name for one in book.trainees] == ["Ann"]
        assert kept + marked <= len(book.attempts) <= kept + marked + 1
        kept = len(book.attempts)
    ClassBook.open(folder).add("Bo")
    assert sorted(p.name for p in folder.iterdir()) == [".class.lock", "class.toml"]


def until_some_marks(process: subprocess.Popen[bytes], said: Path, many: int) -> None:
    """Wait until so many answers were marked; the process goes on."""
    end = time.monotonic() + 60
    while len(MARKED.findall(said.read_bytes())) < many:
        assert process.poll() is None, said.read_bytes()[-300:]
        assert time.monotonic() < end
        time.sleep(0.005)
