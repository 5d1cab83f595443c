"""The bay in a real terminal: a whole fitting, a kill in the middle, signals, and places without a screen."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from interview.session import load
from rules.fitting import House
from tests.journeys.real_terminal import PATIENCE, TURFPAIR, Terminal, needs_tmux


def only_session(folder: Path) -> Path:
    files = list((folder / "sessions").glob("*.toml"))
    assert len(files) == 1
    return files[0]


def answered(folder: Path, house: House) -> int:
    return len(load(only_session(folder), house.base.facts).subject.answers)


@needs_tmux
@pytest.mark.parametrize(("width", "height"), [(80, 24), (120, 40)])
def test_a_fitting_with_a_kill_in_the_middle(
    terminals: Callable[[int, int], Terminal], tmp_path: Path, house: House, width: int, height: int
) -> None:
    first = terminals(width, height)
    first.start("bay")
    first.wait("Hand?")
    said = 0
    for line in ("right", "pain no", "handicap 18", "age adult", "92 mph measured"):
        first.type(line)
        first.press("Enter")
        said += 1
        first.wait(lambda text, said=said: bool(re.search(rf" {said} said .* kept", text)))  # type: ignore[misc]
    first.type("lies tigh")
    assert answered(tmp_path, house) == 5
    os.kill(first.pid(), signal.SIGKILL)
    first.end()

    again = terminals(width, height)
    again.start("bay", only_session(tmp_path).stem)
    again.wait("5 said")
    again.wait("92 mph, measured")
    assert len(again.screen().rstrip().splitlines()) == height
    for line in ("lies tight 30, fairway 40, rough 20, tee 10", "contact 2 6", "miss right", "curve slice"):
        again.type(line)
        again.press("Enter")
        said += 1
        again.wait(f"{said} said")
    rest = _ask_out(again)
    again.press("F8")
    again.wait("Source:")
    again.press("Escape")
    again.press("F7")
    again.wait("DISTANCES")
    again.press("C-q")
    again.wait("STATUS 0")
    keys = first.keys + again.keys
    print(f"\na fitting at {width}x{height}: {said} answers and {rest} unknowns in {keys} keys")
    assert answered(tmp_path, house) >= said + rest


def _ask_out(one: Terminal) -> int:
    """Say "I don't know" until nothing is worth asking; return how often."""
    unknowns = 0
    while not re.search(r" 0 open", one.rest().splitlines()[0]):
        before = _said(one.wait(" open · kept"))
        one.press("F2")
        unknowns += 1
        one.wait(lambda text, before=before: _said(text) > before)  # type: ignore[misc]
    return unknowns


def _said(text: str) -> int:
    """How many answers the top of the screen counts."""
    found = re.search(r"(\d+) said", text.splitlines()[0])
    return int(found[1]) if found else -1


@needs_tmux
@pytest.mark.parametrize(("name", "status"), [("SIGTERM", 143), ("SIGHUP", 129)])
def test_a_signal_loses_nothing_and_mends_the_terminal(
    terminals: Callable[[int, int], Terminal], tmp_path: Path, house: House, name: str, status: int
) -> None:
    one = terminals(80, 24)
    one.start("bay")
    one.wait("Hand?")
    one.type("right")
    one.press("Enter")
    one.wait(lambda text: bool(re.search(" 1 said .* kept", text)))
    os.kill(one.pid(), getattr(signal, name))
    text = one.wait(f"STATUS {status}")
    assert "Traceback" not in text
    assert answered(tmp_path, house) == 1


@needs_tmux
def test_a_closed_window_loses_nothing_and_leaves_no_process(
    terminals: Callable[[int, int], Terminal], tmp_path: Path, house: House
) -> None:
    one = terminals(80, 24)
    one.start("bay")
    one.wait("Hand?")
    one.type("left")
    one.press("Enter")
    one.wait(lambda text: bool(re.search(" 1 said .* kept", text)))
    pid = one.pid()
    one.end()
    until = time.monotonic() + PATIENCE
    while time.monotonic() < until and Path(f"/proc/{pid}").exists():
        time.sleep(0.05)
    assert not Path(f"/proc/{pid}").exists()
    assert answered(tmp_path, house) == 1


@needs_tmux
def test_no_colour_is_needed(terminals: Callable[[int, int], Terminal]) -> None:
    one = terminals(80, 24)
    one.start("bay", NO_COLOR="1")
    one.wait("Hand?")
    one.wait("STANDING")
    colours = one.tmux("capture-pane", "-e", "-p", "-t", "bay")
    assert "▸ " in one.screen()
    assert "\x1b[38;2;11;93;59m" not in colours, "no green where none was wanted"


@needs_tmux
def test_seven_bits_where_the_terminal_has_no_more(terminals: Callable[[int, int], Terminal]) -> None:
    one = terminals(80, 24)
    one.start("bay", PYTHONIOENCODING="ascii:replace", PYTHONUTF8="0")
    text = one.wait("STANDING")
    assert text.isascii()
    assert "> " in text


@pytest.mark.parametrize("terminal_kind", ["dumb", "xterm"])
def test_without_a_terminal_it_points_to_the_lines(terminal_kind: str, tmp_path: Path) -> None:
    environment = {**os.environ, "TERM": terminal_kind, "TURFPAIR_SESSIONS": str(tmp_path)}
    done = subprocess.run(
        [TURFPAIR, "bay"],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=60,
        env=environment,
    )
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.count("\n") == 1
    assert "turfpair ask" in done.stderr


def test_a_dumb_terminal_is_told_too(tmp_path: Path) -> None:
    import pexpect

    environment = {**os.environ, "TERM": "dumb", "TURFPAIR_SESSIONS": str(tmp_path)}
    child = pexpect.spawn(str(TURFPAIR), ["bay"], env=environment, timeout=60)
    child.expect("turfpair ask")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 2


@needs_tmux
def test_a_fault_is_one_sentence_and_its_log_holds_no_answer(
    terminals: Callable[[int, int], Terminal], tmp_path: Path
) -> None:
    """A program that breaks in the middle says so, keeps what was said, and tells nobody else of it."""
    breaker = tmp_path / "sitecustomize.py"
    breaker.write_text(
        "import sys\n"
        "class _Finder:\n"
        "    def find_spec(self, name, path=None, target=None):\n"
        "        if name == 'interview.screens.bay.why':\n"
        "            raise RuntimeError('secret 4242')\n"
        "sys.meta_path.insert(0, _Finder())\n"
    )
    one = terminals(80, 24)
    one.start("bay", PYTHONPATH=str(tmp_path))
    one.wait("Hand?")
    one.type("handicap 4.2")
    one.press("Enter")
    one.wait("1 said")
    one.press("F8")
    text = one.wait("STATUS 70")
    assert text.count("something went wrong inside Turfpair") == 1
    logs = list((tmp_path / "state" / "turfpair" / "log").glob("*.txt"))
    assert len(logs) == 1
    kept = logs[0].read_text()
    assert "4.2" not in kept
    assert "secret" not in kept + text
    assert "Traceback" not in text
