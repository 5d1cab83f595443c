"""The app that every screen runs in: its looks and signs, its faults and the signals it obeys."""

from __future__ import annotations

import asyncio
import contextlib
import os
import signal
import threading
from pathlib import Path
from typing import Any, ClassVar

from textual._context import active_message_pump
from textual.app import App
from textual.binding import BindingType
from textual.css.query import NoMatches
from textual.filter import LineFilter
from textual.screen import Screen

from interview.screens.kit.pause import Pause
from interview.screens.kit.signs import SevenBits, terminal_glyphs
from interview.screens.kit.themes import THEMES
from interview.views.pictures import Glyphs

_LEAVE_BY = ("SIGTERM", "SIGHUP", "SIGINT")
"""Signals that end the program after everything is kept; not every system has all of them."""
_GRACE = 3.0
"""Seconds that leaving may take before the process is ended anyway."""


class TurfApp(App[int]):
    """An app that keeps what it was told, whatever ends it."""

    CSS_PATH = Path(__file__).with_name("kit.tcss")
    MAY_PAUSE: ClassVar[bool] = True
    """Whether the shell may stop it for a while."""
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = []
    HORIZONTAL_BREAKPOINTS: ClassVar[list[tuple[int, str]] | None] = [  # type: ignore[misc]
        (0, "-narrow"), (64, "-usual"), (112, "-wide"), (160, "-vast"),
    ]  # fmt: skip
    VERTICAL_BREAKPOINTS: ClassVar[list[tuple[int, str]] | None] = [  # type: ignore[misc]
        (0, "-slim"), (8, "-flat"), (20, "-low"), (39, "-high"), (50, "-tall"),
    ]  # fmt: skip

    def __init__(self, *, glyphs: Glyphs | None = None, blink: bool = True) -> None:
        super().__init__()
        self.glyphs = glyphs or terminal_glyphs()
        """The signs that the terminal can show."""
        self.blink = blink
        """Whether cursors blink."""
        self.fault: Exception | None = None
        """What went wrong inside; whoever started the app makes a sentence of it."""
        self._pause = Pause(self)
        if not self.glyphs.fine:
            self._filters.append(SevenBits())
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = THEMES[0].name

    def run(self, *args: Any, **kwargs: Any) -> int | None:
        """Run the app in the size that the terminal has, whatever variables say that it once had."""
        for name in ("COLUMNS", "LINES"):
            os.environ.pop(name, None)
        return super().run(*args, **kwargs)

    def on_mount(self) -> None:
        """Obey the signals that end a program, and those that stop it for a while."""
        self._pause.watch(allowed=self.MAY_PAUSE)
        loop = asyncio.get_running_loop()
        for name in _LEAVE_BY:
            number = getattr(signal, name, None)
            if number is not None:
                with contextlib.suppress(NotImplementedError, RuntimeError, ValueError):
                    loop.add_signal_handler(number, self.leave_for, number)

    def leave_for(self, number: int) -> None:
        """Keep everything and leave because of a signal; end the process if that takes too long."""
        self.keep_all()
        guard = threading.Timer(_GRACE, os._exit, args=(128 + number,))
        guard.daemon = True
        guard.start()
        self.exit(result=128 + number, return_code=128 + number)

    def action_suspend_process(self) -> None:
        """Keep everything and give the terminal back for a while; say so where no shell would wake us."""
        self.keep_all()
        if not self._pause.begin():
            self.notify("No shell started this screen, so there is none to go to.", markup=False)

    def keep_all(self) -> None:
        """Keep whatever is not kept yet; apps that keep things override it."""

    def action_help_quit(self) -> None:
        """Say how to leave, to somebody who tries it with ctrl+c."""
        self.notify("Ctrl+q leaves; everything is kept.", markup=False)

    def action_look(self) -> None:
        """Change between the look for the sun and the one for dusk."""
        names = [theme.name for theme in THEMES]
        self.theme = names[(names.index(self.theme) + 1) % len(names)]

    def get_line_filters(self) -> list[LineFilter]:
        """Return the filters that everything passes through on its way to the terminal."""
        return [one for one in self._filters if one.enabled]

    def _handle_exception(self, error: Exception) -> None:
        """Leave without printing anything: no local variables, no answers, on any screen.

        A screen that is left while it is still being set up misses its panes, which is nobody's fault.
        """
        where = active_message_pump.get(None)
        left = self._exit or (isinstance(where, Screen) and where not in self.screen_stack)
        if left and isinstance(error, NoMatches):
            return
        self._return_code = 1
        if self._exception is None:
            self._exception = error
            self._exception_event.set()
        inner = getattr(error, "error", error)  # a worker's fault comes wrapped
        self.fault = self.fault or (inner if isinstance(inner, Exception) else error)
        self._close_messages_no_wait()
