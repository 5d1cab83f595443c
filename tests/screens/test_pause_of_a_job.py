"""A screen that its shell stops: it gives the terminal back, and takes it again only where it holds none."""

from __future__ import annotations

import os
from types import SimpleNamespace
from typing import Any

import pytest

from interview.screens.kit import pause
from interview.screens.kit.app import TurfApp
from interview.views.pictures import FULL


class Terminal:
    """A driver that notes what it is asked for."""

    can_suspend = True

    def __init__(self) -> None:
        self.asked: list[str] = []
        self._writer_thread: Any = SimpleNamespace(is_alive=lambda: True)

    def suspend_application_mode(self) -> None:
        self.asked.append("given back")

    def resume_application_mode(self) -> None:
        self.asked.append("taken")


@pytest.fixture
def app() -> Any:
    return SimpleNamespace(_driver=Terminal(), is_headless=False, refresh=lambda layout: None)


def test_it_stops_where_a_shell_waits_and_nowhere_else(app: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    stopped: list[int] = []
    monkeypatch.setattr(os, "kill", lambda process, number: stopped.append(process))
    for shell, can, asked in ((False, True, []), (True, False, []), (True, True, ["given back", "taken"])):
        monkeypatch.setattr(pause, "shell_waits", lambda shell=shell: shell)
        app._driver = Terminal()
        app._driver.can_suspend = can
        assert pause.Pause(app).begin() == bool(asked)
        assert app._driver.asked == asked
    assert stopped == [os.getpid()]


def test_woken_after_its_own_stop_it_leaves_the_terminal_that_it_holds(
    app: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "kill", lambda process, number: None)
    monkeypatch.setattr(pause, "shell_waits", lambda: True)
    job = pause.Pause(app)
    job.begin()
    app._driver.asked.clear()
    job._woken()
    assert app._driver.asked == [], "it was taken when the stop ended"
    job._woken()
    assert app._driver.asked == ["given back", "taken"], "a stop from outside gave nothing back"


def test_woken_where_the_terminal_is_another_s_it_only_takes_it(
    app: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "kill", lambda process, number: None)
    monkeypatch.setattr(pause, "shell_waits", lambda: True)
    app._driver._writer_thread = None
    job = pause.Pause(app)
    job.begin()
    app._driver.asked.clear()
    job._woken()
    assert app._driver.asked == ["taken"]
    app._driver = None
    job._woken()


async def test_without_a_shell_it_says_that_there_is_none() -> None:
    app = TurfApp(glyphs=FULL, blink=False)
    told: list[str] = []
    async with app.run_test():
        app.notify = lambda text, **_: told.append(text)  # type: ignore[method-assign]
        app.action_suspend_process()
        app._pause.begin = lambda: True  # type: ignore[method-assign]
        app.action_suspend_process()
    assert told == ["No shell started this screen, so there is none to go to."]
