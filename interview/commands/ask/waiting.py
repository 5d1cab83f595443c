"""Waiting for a typed line so that an interruption is never missed.

Python hears a signal between two steps of the program. One that falls after the last such step and before
the system begins to read would wait for the next key. The system is therefore asked to wait for either: a
line, or the byte that Python writes at once when a signal comes (`signal.set_wakeup_fd`).
"""

from __future__ import annotations

import contextlib
import os
import select
import signal
from collections.abc import Iterator


def await_line(descriptor: int) -> None:
    """Return when a terminal holds a line; a signal's handler runs at once and may raise.

    Where the terminal hands out letters instead of lines, or the system cannot wait so, return at once.
    """
    if not _hands_out_lines(descriptor):
        return
    with _woken_by_signals() as bell:
        while True:
            ready, _, _ = select.select([descriptor, bell], [], [])
            if bell not in ready:
                return
            os.read(bell, 64)


def _hands_out_lines(descriptor: int) -> bool:
    """Return whether a terminal keeps letters back until their line is ended: what is read then is a line."""
    try:
        import termios

        return bool(termios.tcgetattr(descriptor)[3] & termios.ICANON)
    except (ImportError, OSError, termios.error):
        return False


@contextlib.contextmanager
def _woken_by_signals() -> Iterator[int]:
    """Yield a descriptor that can be read once a signal has come."""
    bell, clapper = os.pipe()
    os.set_blocking(clapper, False)
    before = signal.set_wakeup_fd(clapper, warn_on_full_buffer=False)
    try:
        yield bell
    finally:
        signal.set_wakeup_fd(before)
        os.close(bell)
        os.close(clapper)
