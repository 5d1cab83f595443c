"""A second process of this program: silent, ended with the first, and deaf to the key that interrupts it."""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import signal
import sys
import threading
import time

_LOOKS = 0.25
"""Seconds between looks whether the first process is still there."""


def begin_child() -> None:
    """Make this process one that only works for the one that started it.

    An interruption goes to every process of a terminal; it is the first that ends the others. Where the
    first was killed, nobody ends them, so they look for themselves. What goes wrong is told through the
    pipe or nobody is there to be told.
    """
    with contextlib.suppress(ValueError):  # only the main thread may
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
    sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115  # until the process ends
    parent = multiprocessing.parent_process()
    if parent is not None and parent.pid is not None:
        threading.Thread(target=_end_with, args=(parent.pid,), daemon=True).start()


def _end_with(parent: int) -> None:
    """End this process when its parent has ended."""
    while os.getppid() == parent:
        time.sleep(_LOOKS)
    os._exit(1)
