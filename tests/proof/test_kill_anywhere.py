"""SIGKILL at random moments of the real command: what was confirmed is there, and no half file is read.

The gate tries a few moments; `TURFPAIR_LONG=1` tries three hundred. Besides random moments, a writer is
killed right after each of the calls by which a file is replaced.
"""

from __future__ import annotations

import os
import random
import re
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from interview.session import load
from rules.shelf.bookings import read_bookings

if TYPE_CHECKING:
    from rules.fitting import House

TURFPAIR = Path(sys.executable).with_name("turfpair")
SAMPLES = Path(__file__).parents[2] / "sample_sessions"
SAID = (
    "hand = left", "pain = no", "handicap = 14", "age_band = adult", "driver_speed = 92 mph measured",
    "miss = right", "curve = slice", "turf_mark = bruise", "flight = medium", "tempo = smooth",
    "airborne_of_six = 4", "hits_five_wood = well", "confidence_fairway = 3", "confidence_hybrid = 4",
)  # fmt: skip

Started = list["subprocess.Popen[bytes]"]
Rounds = Callable[[int, int], int]


def start(words: list[str], environment: Mapping[str, str], started: Started) -> subprocess.Popen[bytes]:
    process = subprocess.Popen(
        [str(TURFPAIR), *words], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        env=dict(environment),
    )  # fmt: skip
    started.append(process)
    return process


def kill_within(process: subprocess.Popen[bytes], seconds: float) -> bool:
    """Kill a process after so long; return whether it was still running."""
    try:
        process.wait(seconds)
    except subprocess.TimeoutExpired:
        os.kill(process.pid, signal.SIGKILL)
        process.wait()
        return True
    return False


def leftovers(folder: Path) -> list[str]:
    return sorted(str(p.relative_to(folder)) for p in folder.rglob("*.tmp"))


def answers_in(file: Path, house: House) -> int:
    """How many answers a session's file holds; reading it must not fail."""
    return len(load(file, house.base.facts).answered) if file.exists() else 0


def typed_until_killed(process: subprocess.Popen[bytes], after: float) -> int:
    """Type answers into `ask` as fast as they are taken and kill it; return how many were confirmed."""
    assert process.stdin is not None
    assert process.stdout is not None
    out = bytearray()
    stream = process.stdout

    def listen() -> None:
        while piece := stream.read1(4096):  # type: ignore[attr-defined]
            out.extend(piece)

    ear = threading.Thread(target=listen)
    ear.start()
    while b"\n> " not in out and process.poll() is None:
        time.sleep(0.002)
    process.stdin.write("".join(f"{line}\n" for line in SAID).encode())
    process.stdin.flush()
    kill_within(process, after)
    ear.join()
    return len(re.findall(rb"\n> ", bytes(out))) - 1  # a prompt comes when what was typed before it is kept


def test_ask_killed_while_answers_come_in(
    rounds: Rounds, chance: random.Random, environment: dict[str, str], sessions: Path, started: Started,
    house: House,
) -> None:  # fmt: skip
    lost = confirmed_in_all = unfinished = 0
    kept = ""
    for n in range(rounds(2, 80)):
        id = f"killed-{n}"
        process = start(["ask", "--new", id], environment, started)
        confirmed = typed_until_killed(process, chance.uniform(0.0, 0.15 if n % 2 == 0 else 1.2))
        there = answers_in(sessions / f"{id}.toml", house)
        assert confirmed <= there <= len(SAID)
        lost += there < confirmed
        confirmed_in_all += confirmed
        unfinished += there < len(SAID)
        kept = id if there else kept
    assert lost == 0
    assert confirmed_in_all > 0
    assert unfinished > 0, "no kill came in time to interrupt anything"
    done = subprocess.run([TURFPAIR, "ask", kept], input=b"sole_marks = toe\nquit\n", env=environment)
    assert done.returncode == 0
    assert leftovers(sessions) == []


def test_a_writer_killed_after_each_of_its_calls(
    sabotage: Callable[..., dict[str, str]], environment: dict[str, str], sessions: Path, house: House
) -> None:
    """Lock, temporary file, its sync, its mode, its renaming, the folder's sync: a kill after any of them."""
    sessions.mkdir()
    before = load(SAMPLES / "sweeper.toml", house.base.facts)
    seen, half_written = set(), False
    for step in range(1, 7):
        file = sessions / f"step-{step}.toml"
        file.write_bytes((SAMPLES / "sweeper.toml").read_bytes())
        words = [str(TURFPAIR), "ask", file.stem]
        hurt = {**environment, **sabotage(f"kill {step}", sessions)}
        killed = subprocess.run(words, input=b"handicap = 3\nquit\n", env=hurt, capture_output=True)
        assert killed.returncode == -signal.SIGKILL
        after = load(file, house.base.facts).subject.answers
        seen.add(after["handicap"] != before.subject.answers["handicap"])
        half_written |= bool(leftovers(sessions))
    assert seen == {False, True}, "some kills come before the renaming and some after it"
    assert half_written
    words = [str(TURFPAIR), "ask", "step-1"]
    subprocess.run(words, input=b"handicap = 5\nquit\n", env=environment, capture_output=True, check=True)
    assert leftovers(sessions) == []


def test_sheets_killed_as_they_are_written(
    rounds: Rounds, chance: random.Random, environment: dict[str, str], tmp_path: Path, started: Started
) -> None:
    page = tmp_path / "out" / "sheet.html"
    page.parent.mkdir()
    words = ["sheet", str(SAMPLES / "sweeper.toml"), "--for", "golfer", "--html", str(page)]
    begun = time.monotonic()
    assert start(words, environment, started).wait() == 0
    usual = time.monotonic() - begun
    first = page.read_text()
    killed = 0
    for n in range(rounds(2, 45)):
        process = start(words, environment, started)
        if n % 2:
            killed += kill_when_writing(process, page.parent, chance)
        else:
            killed += kill_within(process, chance.uniform(0.0, usual * 1.1))
        assert page.read_text() == first
    assert killed > 0
    clean_up_after(page.parent, words, environment, started)
    assert os.listdir(page.parent) == ["sheet.html"]


def kill_when_writing(process: subprocess.Popen[bytes], folder: Path, chance: random.Random) -> bool:
    """Kill a process as soon as a temporary file shows, or a blink later."""
    while process.poll() is None:
        if any(name.endswith(".tmp") for name in os.listdir(folder)):
            return kill_within(process, chance.uniform(0.0, 0.002))
    return False


def clean_up_after(folder: Path, words: list[str], environment: Mapping[str, str], started: Started) -> None:
    """Let a while go by for whatever was left, and do the same once more."""
    for left in folder.glob(".*.tmp"):
        os.utime(left, (time.time() - 3600, time.time() - 3600))
    assert start(words, environment, started).wait() == 0


def test_bookings_killed_as_they_are_made(
    rounds: Rounds, chance: random.Random, environment: dict[str, str], tmp_path: Path, started: Started
) -> None:
    shop = tmp_path / "shop"
    assert start(["shop", "init", str(shop)], environment, started).wait() == 0
    seen = set()
    for n in range(rounds(2, 45)):
        sample = SAMPLES / f"{('sweeper', 'hates-hybrids', 'very-slow')[n % 3]}.toml"
        job = "release" if n % 4 == 3 else "book"
        process = start(["shop", job, str(sample), "--catalogue", str(shop)], environment, started)
        if n % 2:
            kill_when_writing(process, shop, chance)
        else:
            kill_within(process, chance.uniform(0.2, 0.9))
        seen.add(len(read_bookings(shop)))
        assert all(booking.bills for booking in read_bookings(shop))
    words = ["shop", "book", str(SAMPLES / "sweeper.toml"), "--catalogue", str(shop)]
    assert start(words, environment, started).wait() == 0
    assert leftovers(shop) == []
    assert start(["shop", "check", str(shop)], environment, started).wait() == 0


def test_trials_killed_take_in_all_balls_or_none(
    rounds: Rounds, chance: random.Random, environment: dict[str, str], sessions: Path, started: Started,
    house: House,
) -> None:  # fmt: skip
    table = SAMPLES / "trials" / "a-three-wood-that-stays-down.csv"
    balls = len(table.read_text().splitlines()) - 1
    seen = []
    sessions.mkdir()
    for n in range(rounds(2, 40)):
        file = sessions / f"trial-{n}.toml"
        file.write_bytes((SAMPLES / "sweeper.toml").read_bytes())
        process = start(["trial", f"trial-{n}", "--shots", str(table)], environment, started)
        if n % 2:
            kill_when_writing(process, sessions, chance)
        else:
            kill_within(process, chance.uniform(0.2, 1.0))
        seen.append(len(load(file, house.base.facts).subject.shots))
    assert set(seen) <= {0, balls}
    words = ["trial", "trial-0", "--shots", str(SAMPLES / "trials" / "the-longest-ball-of-the-day.csv")]
    start(words, environment, started).wait()
    assert leftovers(sessions) == []


def test_a_replay_killed_leaves_sessions_alone_and_no_process(
    rounds: Rounds, chance: random.Random, environment: dict[str, str], tmp_path: Path
) -> None:
    folder = tmp_path / "cases"
    folder.mkdir()
    for n in range(60):
        (folder / f"case-{n}.toml").write_bytes((SAMPLES / "sweeper.toml").read_bytes())
    before = {p.name: p.read_bytes() for p in folder.iterdir()}
    for _ in range(rounds(1, 20)):
        process = subprocess.Popen(
            [TURFPAIR, "replay", folder, "--cores", "2"], env=environment, start_new_session=True,
            stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
        )  # fmt: skip
        kill_within(process, chance.uniform(0.5, 1.6))
        assert process.stderr is not None
        assert process.stderr.read() == b"", "a worker complained when it was left alone"
        until = time.monotonic() + 10
        while of_group(process.pid) and time.monotonic() < until:
            time.sleep(0.05)
        assert of_group(process.pid) == []
    assert {p.name: p.read_bytes() for p in folder.iterdir()} == before


def of_group(leader: int) -> list[int]:
    """The processes of a group that are still at work."""
    listed = subprocess.run(["ps", "-eo", "pid=,pgid=,stat="], capture_output=True, text=True).stdout
    rows = [line.split() for line in listed.splitlines()]
    return [int(pid) for pid, group, state in rows if int(group) == leader and not state.startswith("Z")]
