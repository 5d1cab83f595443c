"""A kiosk served on this machine, with a home of its own, and ways to knock at its door."""

from __future__ import annotations

import http.client
import json
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("websockets", reason="the extra 'web' is not installed")

PIN = "918273"


class Served:
    """A running kiosk."""

    def __init__(self, home: Path, *options: str) -> None:
        self.home = home
        self.process = subprocess.Popen(
            [sys.executable, "-m", "interview.commands.main", "kiosk", "--web", "--port", "0", *options],
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=home,
            env=environment(home),
        )  # fmt: skip
        assert self.process.stdout is not None
        self.said = self.process.stdout.readline()
        found = re.search(r"http://([\d.]+):(\d+)/", self.said)
        assert found, (self.said, self.process.poll())
        self.host, self.port = found[1], int(found[2])

    @property
    def origin(self) -> str:
        return f"http://{self.host}:{self.port}"

    def get(self, path: str, host: str | None = None, method: str = "GET") -> http.client.HTTPResponse:
        """Ask for something, under a name."""
        asked = http.client.HTTPConnection(self.host, self.port, timeout=10)
        asked.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
        asked.putheader("Host", host or f"{self.host}:{self.port}")
        asked.endheaders()
        return asked.getresponse()

    def talk(self, origin: str | None = None, **more: Any) -> Any:
        """Open a talk, as our own page does unless told otherwise; to be used in a `with`."""
        from websockets.sync import client

        connect: Any = client.connect
        at = f"ws://{self.host}:{self.port}/talk"
        return connect(at, origin=origin or self.origin, proxy=None, max_size=2**22, **more)

    def seats(self) -> list[int]:
        """Return the processes that hold a seat."""
        children = Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children").read_text().split()
        return [int(one) for one in children]

    def close(self) -> None:
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
        self.process.communicate(timeout=20)


def environment(home: Path) -> dict[str, str]:
    """Return an environment in which every place that could be written to is below one folder."""
    (home / "tmp").mkdir(exist_ok=True)
    kept = {
        name: value for name, value in os.environ.items() if re.match("PATH$|LANG$|LC_ALL$|COVERAGE", name)
    }
    return {
        **kept, "HOME": str(home), "XDG_STATE_HOME": str(home / "state"), "TMPDIR": str(home / "tmp"),
        "XDG_CACHE_HOME": str(home / "cache"), "PYTHONDONTWRITEBYTECODE": "1", "TEXTUAL_PRESS": "q",
    }  # fmt: skip


def page(talk: Any, seconds: float = 20.0) -> Any:
    """Return the next page that a talk brings."""
    end = time.monotonic() + seconds
    while not (said := talk.recv(timeout=max(0.01, end - time.monotonic()))):
        pass
    return json.loads(said)


def text(shown: Any) -> str:
    """Return a page as text."""
    return "\n".join("".join(sign for _, sign in row) for row in shown["rows"])


def until(true: Callable[[], Any], seconds: float = 20.0) -> Any:
    """Wait until something is true, and return it."""
    end = time.monotonic() + seconds
    while not (what := true()):
        assert time.monotonic() < end, "it did not come true"
        time.sleep(0.02)
    return what


@pytest.fixture(scope="module")
def web() -> Any:
    """What the tests of this folder share."""
    from types import SimpleNamespace

    return SimpleNamespace(PIN=PIN, page=page, text=text, until=until, environment=environment, Served=Served)


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A home with a staff PIN in it."""
    from interview.kiosk.pin import PinFile

    folder = tmp_path_factory.mktemp("home")
    PinFile(folder / "state" / "turfpair" / "kiosk").set(PIN)
    return folder


@pytest.fixture(scope="module")
def served(home: Path) -> Iterator[Served]:
    """A running kiosk that the tests of one file share."""
    running = Served(home)
    yield running
    running.close()
