"""What other systems lack is not missed: signals, ways to hold them back, streams without a console."""

from __future__ import annotations

import asyncio
import signal
import sys
from collections import Counter
from functools import partial
from typing import Any

import pytest

from interview.commands.ended import ended_by_signals
from interview.commands.errors import guarded
from interview.commands.printing import cleaned_output
from interview.commands.replay import _progress
from interview.screens.kit import pause
from interview.screens.kit.app import TurfApp
from interview.views.pictures import FULL
from interview.web.serve import Kiosk, _obey_signals
from rules.inquiry.crew import Crew


@pytest.fixture
def without_hangup(monkeypatch: pytest.MonkeyPatch) -> None:
    """A system that knows no SIGHUP, as where there are no terminals that hang up."""
    monkeypatch.delattr(signal, "SIGHUP")


def nothing() -> None:
    """Begin a process that needs nothing."""


def test_where_signals_cannot_be_held_back_the_work_is_done_all_the_same(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delattr(signal, "pthread_sigmask")
    with Crew(["a", "b", "c"], 2, nothing, str.upper) as crew:
        assert Counter(crew.results()) == Counter("ABC")


@pytest.mark.usefixtures("without_hangup")
async def test_a_screen_and_a_served_kiosk_obey_the_signals_there_are(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    obeyed: list[int] = []
    loop = asyncio.get_running_loop()
    monkeypatch.setattr(loop, "add_signal_handler", lambda number, *_: obeyed.append(number))
    async with TurfApp(glyphs=FULL, blink=False).run_test():
        assert obeyed == [signal.SIGTERM, signal.SIGINT]
    _obey_signals(Kiosk(()))
    assert obeyed == [signal.SIGTERM, signal.SIGINT] * 2


@pytest.mark.usefixtures("without_hangup")
def test_a_command_is_ended_by_the_signals_there_are() -> None:
    before = signal.getsignal(signal.SIGTERM)
    with ended_by_signals():
        assert signal.getsignal(signal.SIGTERM) != before
    assert signal.getsignal(signal.SIGTERM) == before


def test_without_a_shell_s_signals_a_screen_is_never_stopped(monkeypatch: pytest.MonkeyPatch) -> None:
    deaf: list[Any] = []
    monkeypatch.setattr(signal, "signal", lambda *told: deaf.append(told))
    app: Any = type("App", (), {"is_headless": False, "_driver": None})()
    for missing in ("STOP", "GO_ON"):
        with monkeypatch.context() as lacking:
            lacking.setattr(pause, missing, None)
            pause.Pause(app).watch(allowed=False)
    assert deaf == []
    pause.Pause(app).watch(allowed=False)
    assert deaf == [(signal.SIGTSTP, signal.SIG_IGN)], "where they are, and it may not be stopped"
    assert not pause.Pause(app).begin(), "without a terminal there is nothing to give back"


def test_started_without_a_console_a_command_still_tells_its_status(monkeypatch: pytest.MonkeyPatch) -> None:
    for stream in ("stdout", "stderr"):
        monkeypatch.setattr(sys, stream, None)
    assert guarded(lambda: 0) == 0
    assert guarded(lambda: 1) == 1
    with cleaned_output():
        assert sys.stdout is None
    with _progress(3) as step:
        step()


@pytest.mark.parametrize(("left_with", "status"), [(None, 0), (0, 0), (3, 3), ("there is no more", 2)])
def test_leaving_early_keeps_its_status_and_says_its_sentence(
    left_with: object, status: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert guarded(partial(sys.exit, left_with)) == status  # type: ignore[arg-type]
    said = capsys.readouterr().err
    assert said == (f"turfpair: {left_with}\n" if isinstance(left_with, str) else "")
