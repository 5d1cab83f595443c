"""What the attacks share: the installed command in a folder of its own, and disks and clocks that fail."""

from __future__ import annotations

import os
import random
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2]))  # the real terminal is a module beside the tests

TURFPAIR = Path(sys.executable).with_name("turfpair")
SAMPLES = Path(__file__).parents[2] / "sample_sessions"

Run = Callable[..., "subprocess.CompletedProcess[str]"]

SABOTEUR = """
import os, signal, sys
how, _, where = os.environ.get("SABOTAGE", "").partition(" in ")
sort, _, when = how.partition(" ")
count = 0

def named(args):
    first = os.readlink(f"/proc/self/fd/{args[0]}") if type(args[0]) is int else args[0]
    paths = [path for path in (first, *args[1:]) if isinstance(path, (str, os.PathLike))]
    return any(where in os.fspath(path) for path in paths)

def around(name, real):
    def call(*args, **kwargs):
        global count
        mine = named(args)
        if sort == "fail" and mine and os.path.exists(os.environ["SABOTAGE_FLAG"]):
            raise OSError(int(when), os.strerror(int(when)), args[0] if isinstance(args[0], str) else None)
        done = real(*args, **kwargs)
        if sort == "kill" and mine:
            count += 1
            if count == int(when):
                os.kill(os.getpid(), signal.SIGKILL)
        return done
    return call

if sort:
    for name in ("open", "fsync", "replace", "rename", "unlink", "chmod", "mkdir"):
        setattr(os, name, around(name, getattr(os, name)))
"""
"""Read by every process that starts with `SABOTAGE`: fails, or is killed, at the calls that write files.

`fail 28 in FOLDER` refuses with that error number while the file `SABOTAGE_FLAG` is there; `kill 3 in
FOLDER` ends the process hard right after the third such call.
"""


@pytest.fixture(scope="session")
def long() -> bool:
    """Whether this is the long run: `TURFPAIR_LONG=1` makes it one."""
    return os.environ.get("TURFPAIR_LONG", "") not in ("", "0")


@pytest.fixture
def rounds(long: bool) -> Callable[[int, int], int]:
    """Choose how often to attack: a few times in the gate, many times in the long run."""
    return lambda few, many: many if long else few


@pytest.fixture
def chance() -> random.Random:
    """Random moments, the same ones each time; `TURFPAIR_SEED` tries others."""
    return random.Random(int(os.environ.get("TURFPAIR_SEED", "11")))


@pytest.fixture
def environment(tmp_path: Path) -> dict[str, str]:
    """An environment with nothing of ours in it but a home, a state folder and a store of its own."""
    (tmp_path / "home").mkdir()
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("TURFPAIR_", "LC_"))}
    return {
        **kept, "HOME": str(tmp_path / "home"), "XDG_STATE_HOME": str(tmp_path / "state"),
        "TURFPAIR_SESSIONS": str(tmp_path / "sessions"), "TMPDIR": str(tmp_path), "TERM": "xterm-256color",
        "LANG": "C.UTF-8",
    }  # fmt: skip


@pytest.fixture
def sessions(tmp_path: Path) -> Path:
    """The store of the environment."""
    return tmp_path / "sessions"


@pytest.fixture
def run(environment: dict[str, str]) -> Run:
    """Return a function that runs the installed command to its end."""

    def call(*words: str | Path, typed: str = "", **more: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [TURFPAIR, *words], input=typed, capture_output=True, text=True, timeout=120,
            encoding="utf-8", errors="surrogateescape", env={**environment, **more},
        )  # fmt: skip

    return call


@pytest.fixture
def sabotage(tmp_path: Path) -> Callable[..., dict[str, str]]:
    """Return a function that gives the settings under which a process fails or is killed as it writes."""
    (tmp_path / "saboteur").mkdir()
    (tmp_path / "saboteur" / "sitecustomize.py").write_text(SABOTEUR)

    def settings(how: str, where: Path, flag: Path | None = None) -> dict[str, str]:
        path = os.pathsep.join(filter(None, (str(tmp_path / "saboteur"), os.environ.get("PYTHONPATH"))))
        flag = flag or tmp_path / "flag"
        return {"PYTHONPATH": path, "SABOTAGE": f"{how} in {where}", "SABOTAGE_FLAG": str(flag)}

    return settings


@pytest.fixture
def started() -> Iterator[list[subprocess.Popen[bytes]]]:
    """Processes that a test has started; whatever is left of them ends with it."""
    running: list[subprocess.Popen[bytes]] = []
    yield running
    for process in running:
        if process.poll() is None:
            process.kill()
        process.communicate()
