"""An interruption between the prompt and the reading: sent into that window again and again, never missed."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from interview.commands.ended import Ended, ended_by_signals
from interview.session import begin
from interview.store import Store
from interview.store.files import unbroken

RACE = """
import io, os, pty, random, signal, sys, threading, time
from interview.commands.ask.lines import Lines

ours, theirs = pty.openpty()
lines = Lines(open(theirs), io.StringIO())
asking, heard, missed = threading.Event(), threading.Event(), 0

def interrupt():
    global missed
    while True:
        asking.wait()
        asking.clear()
        until = time.perf_counter() + random.random() * 60e-6
        while time.perf_counter() < until:
            pass
        os.kill(os.getpid(), signal.SIGINT)
        if not heard.wait(0.5):
            missed += 1
            os.write(ours, b"a key\\n")
            heard.wait()
        heard.clear()

threading.Thread(target=interrupt, daemon=True).start()
sys.setswitchinterval(1e-6)
for _ in range(1200):
    try:
        try:
            asking.set()
            lines.ask()
        except KeyboardInterrupt:
            pass
        heard.set()
    except KeyboardInterrupt:
        heard.set()
    time.sleep(0.0003)
print(missed, flush=True)
os._exit(0)
"""


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="there is no terminal to ask in")
def test_an_interruption_just_before_reading_is_heard_at_once() -> None:
    """Read plainly, one in fifteen of these waited for the next key. Run at its own speed, unmeasured."""
    own = {name: text for name, text in os.environ.items() if not name.startswith("COVERAGE")}
    done = subprocess.run([sys.executable, "-c", RACE], capture_output=True, text=True, timeout=120, env=own)
    assert (done.stdout, done.stderr) == ("0\n", "")


def test_several_lines_at_once_are_each_an_answer(tmp_path: Path) -> None:
    """What a terminal holds already is not waited for again."""
    program = (
        "import os, pty\nfrom interview.commands.ask.lines import Lines\n"
        "ours, theirs = pty.openpty()\nos.write(ours, b'one\\ntwo\\n' + b'x' * 3000 + b'\\nthree\\n')\n"
        "lines = Lines(open(theirs))\nprint([(lines.ask() or '')[:5] for _ in range(4)])\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=30)
    assert done.stdout.endswith("['one', 'two', 'xxxxx', 'three']\n"), done


@pytest.fixture
def hearing() -> Iterator[None]:
    """Hear an interruption as a command does: one started in the background would be deaf to it."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("hearing")
def test_a_save_is_not_broken_into(tmp_path: Path) -> None:
    """An interruption in the middle of a save comes when it is whole, and the next save goes on from it."""
    store = Store(tmp_path)
    draft = store.begin(begin("whole"))
    write = draft._write

    def broken_into(*args: object) -> object:
        os.kill(os.getpid(), signal.SIGINT)
        return write(*args)  # type: ignore[arg-type]

    draft._write = broken_into  # type: ignore[assignment, method-assign]
    with pytest.raises(KeyboardInterrupt):
        draft.save(replace(draft.session, note="first"))
    assert tomllib.loads(draft.file.read_text())["note"] == "first"
    draft._write = write  # type: ignore[method-assign]
    draft.save(replace(draft.session, note="second"))
    assert [path.name for path in tmp_path.glob("*.toml")] == ["whole.toml"]


def held_back() -> None:
    with ended_by_signals():
        with unbroken():
            os.kill(os.getpid(), signal.SIGTERM)
            print("whole")
        print("too late")


@pytest.mark.parametrize("threads", [0, 1])
def test_signals_are_held_back_and_come_afterwards(capsys: pytest.CaptureFixture[str], threads: int) -> None:
    before = signal.getsignal(signal.SIGTERM)
    idle = [threading.Thread(target=time.sleep, args=(0.2,)) for _ in range(threads)]
    for one in idle:
        one.start()
    with pytest.raises(Ended) as ended:
        held_back()
    for one in idle:
        one.join()
    assert capsys.readouterr().out == "whole\n"
    assert ended.value.number == signal.SIGTERM
    assert signal.getsignal(signal.SIGTERM) == before
