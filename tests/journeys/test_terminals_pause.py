"""Stopping a screen from its shell and going on: by a key, by a signal, in the middle of everything."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable
from pathlib import Path

from interview.session import load
from rules.fitting import House
from tests.journeys.real_terminal import PATIENCE, Terminal, needs_tmux

CASE = Path(__file__).parents[2] / "sample_sessions" / "digger-scattered.toml"


def state_of(pid: int) -> str:
    """The state of a process: R or S while it lives, T when stopped."""
    return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0]


def until(true: Callable[[], bool]) -> None:
    end = time.monotonic() + PATIENCE
    while not true():
        assert time.monotonic() < end
        time.sleep(0.05)


@needs_tmux
def test_the_bay_stops_and_goes_on_with_every_answer_and_a_whole_screen(
    terminal: Terminal, tmp_path: Path, house: House
) -> None:
    terminal.start_from_shell("bay")
    terminal.wait("Hand?")
    pid = terminal.pid()
    said = ("right", "pain no", "handicap 18")
    for number, line in enumerate(said, 1):
        terminal.type(line)
        terminal.press("Enter", "C-z")  # while the answer is still being worked out
        terminal.wait("Stopped")
        until(lambda: state_of(pid) == "T")
        terminal.type("stty -a | grep -c ' icanon' ; clear")
        terminal.press("Enter")
        terminal.wait(lambda text: text.strip() == "SHELL")
        terminal.resize(*((100, 30) if number % 2 else (80, 24)))
        terminal.type("fg")
        terminal.press("Enter")
        terminal.wait(f" {number} said")
    text = terminal.rest()
    assert "STANDING" in text
    assert "SHELL" not in text
    assert "F10 more" in text.rstrip().splitlines()[-1]
    terminal.press("C-q")
    terminal.wait("SHELL")
    (file,) = (tmp_path / "sessions").glob("*.toml")
    assert len(load(file, house.base.facts).subject.answers) == len(said)


@needs_tmux
def test_a_stop_by_signal_gives_the_terminal_back_first(terminal: Terminal) -> None:
    terminal.start_from_shell("trainer", str(CASE))
    terminal.wait("Digger scattered")
    pid = terminal.pid()
    for _ in range(2):
        os.kill(pid, signal.SIGTSTP)
        terminal.wait("Stopped")
        terminal.type("stty -a | tr ';' '\\n' | grep isig; clear")
        terminal.press("Enter")
        os.kill(pid, signal.SIGCONT)  # still in the background: the terminal is the shell's
        time.sleep(0.3)
        terminal.type("fg")
        terminal.press("Enter")
        terminal.wait("Digger scattered")
    terminal.press("F4")
    terminal.wait("type a fact to find it")
    terminal.press("Escape", "C-q")
    terminal.wait(lambda text: text.rstrip().endswith("SHELL"))


@needs_tmux
def test_a_stop_from_outside_is_mended_when_it_ends(terminal: Terminal) -> None:
    """SIGSTOP cannot be caught: nothing is given back before it, everything is drawn anew after it."""
    terminal.start_from_shell("bay")
    terminal.wait("Hand?")
    pid = terminal.pid()
    os.kill(pid, signal.SIGSTOP)
    until(lambda: state_of(pid) == "T")
    terminal.wait("SHELL")
    terminal.type("fg")
    terminal.press("Enter")
    terminal.wait(lambda text: "SHELL" not in text and "F10 more" in text)
    terminal.rest()
    terminal.type("left")
    terminal.press("Enter")
    terminal.wait(" 1 said")


@needs_tmux
def test_without_a_shell_the_key_says_so_and_nothing_stops(terminal: Terminal) -> None:
    terminal.start("bay")
    terminal.wait("Hand?")
    pid = terminal.pid()
    terminal.press("C-z")
    terminal.wait("No shell started this")
    os.kill(pid, signal.SIGTSTP)
    terminal.type("right")
    terminal.press("Enter")
    terminal.wait(" 1 said")
    assert state_of(pid) in "SR"
