"""Giving the terminal back to the shell for a while, and taking it again when the shell says so.

The toolkit does this in a handler that may break in on any line, also one that is just handing something
to the thread that writes, and then waits for that thread for ever. Here it is a turn of the loop like any
other.
"""

from __future__ import annotations

import asyncio
import contextlib
import os
import signal
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from textual.app import App

STOP, GO_ON = getattr(signal, "SIGTSTP", None), getattr(signal, "SIGCONT", None)
"""Signals of a shell that stops its jobs and lets them go on; not every system has them."""


def shell_waits() -> bool:
    """Return whether a shell that can let a job go on started this program.

    Such a shell is of the same session and gave the program a process group of its own (POSIX.1-2017,
    section 2.9.3 of the shell, job control). Stopped without one, the program could not be woken.
    """
    try:
        parent = os.getppid()
        return os.getsid(parent) == os.getsid(0) and os.getpgid(parent) != os.getpgrp()
    except (OSError, AttributeError):  # the parent is gone, or the system knows no sessions
        return False


class Pause:
    """Lets one app be stopped by its shell, or keeps it from being stopped at all."""

    def __init__(self, app: App[Any]) -> None:
        self._app = app
        self._stopped_here = False

    def watch(self, *, allowed: bool) -> None:
        """Obey the signals of a shell from now on; where that is not allowed, be deaf to them."""
        if STOP is None or GO_ON is None or self._app.is_headless:
            return
        if not allowed:
            signal.signal(STOP, signal.SIG_IGN)
            return
        loop = asyncio.get_running_loop()
        with contextlib.suppress(NotImplementedError, RuntimeError, ValueError):
            loop.add_signal_handler(STOP, self.begin)
            loop.add_signal_handler(GO_ON, self._woken)

    def begin(self) -> bool:
        """Stop until the shell lets the app go on, and return whether that was done."""
        driver = self._app._driver
        if driver is None or not driver.can_suspend or not shell_waits():
            return False
        driver.suspend_application_mode()
        self._stopped_here = True
        os.kill(os.getpid(), signal.SIGSTOP)  # the next line is reached when the shell says so
        self._take_terminal()
        return True

    def _woken(self) -> None:
        """Take the terminal again after a stop from outside, which gave nothing back before it."""
        if self._stopped_here:
            self._stopped_here = False
            if self._holds_terminal():
                return
        if self._holds_terminal() and self._app._driver is not None:
            self._app._driver.suspend_application_mode()
        self._take_terminal()

    def _holds_terminal(self) -> bool:
        """Return whether the terminal is ours: in the background it cannot be taken."""
        writer = getattr(self._app._driver, "_writer_thread", None)
        return writer is not None and writer.is_alive()

    def _take_terminal(self) -> None:
        """Take the terminal and draw everything anew."""
        if self._app._driver is not None:
            self._app._driver.resume_application_mode()
            self._app.refresh(layout=True)
