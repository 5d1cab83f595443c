"""Work done aside, in a process of its own begun anew, whatever threads are running in this one.

A fork would copy locks that another thread holds at that moment; a process begun anew holds none. What it
works on goes to it pickled, through its standard input, and what it finds comes back part by part.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import subprocess
import sys
from collections.abc import Callable, Iterator
from queue import Empty, SimpleQueue
from threading import Thread
from typing import IO, TYPE_CHECKING, Any, cast

from rules.inquiry.roads import Superseded

if TYPE_CHECKING:
    from rules.inquiry.roads import Stale

Work = Callable[..., Iterator[object]]
"""A function of a module, which yields parts; its last argument returns the next thing told, once it is."""
_LOOK = 0.02
"""Seconds between looks whether the work is still wanted."""
_BEGIN = "import sys; sys.path[:] = sys.argv[1:]; from {0} import {1}; {1}()"
"""Modules come from where this process found its own, never from the folder that it happens to stand in."""
_GONE = object()
"""In place of a part: nothing more will come."""


class Gone(Exception):  # noqa: N818  # no fault of anybody's: the work is done here instead
    """The process could not be begun, or it ended before its time."""


class Aside:
    """One piece of work in a process of its own."""

    def __init__(self, work: Work, *about: object) -> None:
        """Begin it; `about` are its arguments, which pickle. Raises Gone where no process can be begun."""
        self._parts: SimpleQueue[object] = SimpleQueue()
        self._letters: SimpleQueue[bytes | None] = SimpleQueue()
        self.tell((work, about))
        if not sys.executable:
            raise Gone
        try:
            # A session of its own: a terminal's signals are for the first process alone.
            self._process = subprocess.Popen(
                [sys.executable, "-P", "-c", _BEGIN.format(main.__module__, main.__name__), *sys.path],
                stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
                start_new_session=True,
            )  # fmt: skip
        except OSError as error:
            raise Gone from error
        self._carriers = [Thread(target=carry, daemon=True) for carry in (self._hand_over, self._take)]
        for carrier in self._carriers:
            carrier.start()

    def _hand_over(self) -> None:
        """Hand over what there is to tell, the work first. A process that reads nothing keeps no one else."""
        pipe = cast("IO[bytes]", self._process.stdin)
        with contextlib.suppress(OSError):  # it has ended: who asks for a part will hear of it
            while (letter := self._letters.get()) is not None:
                pipe.write(letter)
                pipe.flush()

    def _take(self) -> None:
        """Take what comes back, to the end; whatever may be wrong with it, nothing comes after."""
        with contextlib.suppress(Exception):  # half a pickle may raise anything at all
            while True:
                self._parts.put(pickle.load(cast("IO[bytes]", self._process.stdout)))
        self._parts.put(_GONE)

    def tell(self, thing: object) -> None:
        """Tell the work something that was not known when it began, without waiting until it hears."""
        self._letters.put(pickle.dumps(thing, pickle.HIGHEST_PROTOCOL))

    def next(self, stale: Stale) -> Any:
        """Return the next part. Raises Gone when none will come, Superseded once `stale` says so."""
        while not stale():
            with contextlib.suppress(Empty):
                part = self._parts.get(timeout=_LOOK)
                if part is _GONE:
                    raise Gone
                return part
        raise Superseded

    def stop(self) -> None:
        """End the process, whatever it is doing."""
        self._process.kill()
        self._process.wait()
        self._letters.put(None)
        for carrier in self._carriers:
            carrier.join()
        for pipe in (self._process.stdin, self._process.stdout):
            with contextlib.suppress(OSError):
                cast("IO[bytes]", pipe).close()


def _listen(source: IO[bytes], told: SimpleQueue[object]) -> None:
    """Take what is told, and end this process as soon as nobody is there to tell it anything."""
    try:
        while True:
            told.put(pickle.load(source))
    finally:
        os._exit(1)


def main() -> None:
    """Do the work that is handed over, in the process begun for it."""
    source, sink = sys.stdin.buffer, os.fdopen(os.dup(1), "wb")
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)  # what is printed would spoil the parts
    work, about = pickle.load(source)
    told: SimpleQueue[object] = SimpleQueue()
    Thread(target=_listen, args=(source, told), daemon=True).start()
    try:
        for part in work(*about, told.get):
            pickle.dump(part, sink, pickle.HIGHEST_PROTOCOL)
            sink.flush()
    finally:
        os._exit(0)  # at once: an orderly end would wait for the thread that listens
