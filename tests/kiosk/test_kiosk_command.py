"""The command around the screen: a fault opens a fresh screen, never the shell; keys send no signals."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from types import SimpleNamespace
from typing import Any

import pytest

from interview.commands import kiosk


@pytest.fixture(autouse=True)
def heard_again() -> Iterator[None]:
    """Hear the keys' signals again after a test: an open kiosk is deaf until its process ends."""
    numbers = (signal.SIGINT, signal.SIGQUIT, signal.SIGTSTP)
    before = [(number, signal.getsignal(number)) for number in numbers]
    yield
    for number, handler in before:
        signal.signal(number, handler)


def screens(*endings: Any) -> Any:
    """Make screens that end one after another as told: with a status, or with a fault."""
    left = list(endings)

    def make() -> Any:
        ending = left.pop(0)
        fault = ending if isinstance(ending, Exception) else None
        return SimpleNamespace(run=lambda: None if fault else ending, fault=fault)

    return make


def test_leaving_with_the_pin_ends_it() -> None:
    assert kiosk.keep_open(screens(0)) == 0


def test_a_signal_of_the_system_ends_it_with_its_own_status() -> None:
    assert kiosk.keep_open(screens(143)) == 143


def test_a_fault_of_ours_opens_a_fresh_screen_and_slows_down(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    pauses: list[float] = []
    broken = [ValueError("handicap 17")] * 4
    assert kiosk.keep_open(screens(*broken, None, 0), pauses.append, lambda: 5.0) == 0
    assert pauses == [0.5, 1.0, 2.0, 4.0, 8.0]
    told = capsys.readouterr().err
    assert "Traceback" not in told
    assert "handicap 17" not in told, "nothing that was said is shown or noted"
    for note in tmp_path.rglob("fault-*"):
        assert "handicap" not in note.read_text()


def test_faults_far_apart_are_not_held_against_it(monkeypatch: pytest.MonkeyPatch, tmp_path: Any) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    pauses: list[float] = []
    moments = iter((0.0, 1000.0, 2000.0))
    kiosk.keep_open(screens(*[ValueError()] * 3, 0), pauses.append, lambda: next(moments))
    assert pauses == [0.5, 0.5, 0.5]


def test_signals_of_chords_are_not_heard_and_heard_again_afterwards() -> None:
    before = signal.getsignal(signal.SIGINT)
    with kiosk.deaf_to_keys():
        os.kill(os.getpid(), signal.SIGINT)
        os.kill(os.getpid(), signal.SIGQUIT)
    assert signal.getsignal(signal.SIGINT) is before
