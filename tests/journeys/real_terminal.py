"""A real terminal of any size, with the installed command in it: keys go in, the screen comes out."""

from __future__ import annotations

import shutil
import subprocess
import sys
import time
import uuid
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import pytest

TURFPAIR = Path(sys.executable).with_name("turfpair")
TMUX = shutil.which("tmux")
needs_tmux = pytest.mark.skipif(TMUX is None, reason="tmux is not installed: no real terminal to try it in")
PATIENCE = 30.0
"""Seconds to wait for words on the screen."""


class Terminal:
    """A terminal of a size, with a shell's way of starting a command in it."""

    def __init__(self, folder: Path, width: int, height: int) -> None:
        self.folder = folder
        self.socket = f"turfpair-{uuid.uuid4().hex[:10]}"
        self.size = (str(width), str(height))
        self.keys = 0

    def tmux(self, *words: str) -> str:
        assert TMUX is not None
        done = subprocess.run([TMUX, "-L", self.socket, *words], capture_output=True, text=True, timeout=20)
        return done.stdout

    def start(self, *args: str, **environment: str) -> None:
        """Run `turfpair` with these words; what it leaves and its status stay on the screen."""
        self._open(f"{self._words(args, environment)}; echo STATUS $?; exec sleep 60")

    def start_from_shell(self, *args: str, **environment: str) -> None:
        """Run `turfpair` as a job of a shell that can stop it and let it go on."""
        words = self._words(args, environment)
        file = self.folder / "go"
        file.write_text(f"PS1='SHELL '\nalias turf='{words}'\n")
        self._open(f"bash --rcfile {file} -i")
        self.wait("SHELL")
        self.type("turf")
        self.press("Enter")

    def _words(self, args: Sequence[str], environment: Mapping[str, str]) -> str:
        """Return the words of a command with its settings before it."""
        settings = {
            "TURFPAIR_SESSIONS": str(self.folder / "sessions"), "XDG_STATE_HOME": str(self.folder / "state"),
            "TERM": "xterm-256color", **environment,
        }  # fmt: skip
        words = " ".join(f'{key}="{value}"' for key, value in settings.items())
        return f"{words} {TURFPAIR} {' '.join(args)}"

    def _open(self, command: str) -> None:
        """Open the terminal with a command in it."""
        width, height = self.size
        self.tmux("new-session", "-d", "-s", "bay", "-x", width, "-y", height, command)

    def resize(self, width: int, height: int) -> None:
        """Give the terminal another size while it is in use."""
        self.size = (str(width), str(height))
        self.tmux("resize-window", "-t", "bay", "-x", str(width), "-y", str(height))

    def screen(self) -> str:
        return self.tmux("capture-pane", "-p", "-t", "bay")

    def wait(self, words: str | Callable[[str], bool]) -> str:
        """Wait until words are on the screen, and return it."""
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            text = self.screen()
            if words in text if isinstance(words, str) else words(text):
                return text
            time.sleep(0.05)
        raise AssertionError(f"never saw {words!r} on:\n{self.screen()}")

    def rest(self) -> str:
        """Wait until nothing moves on the screen any more, and return it."""
        before = ""
        while before != (now := self.screen()):
            before = now
            time.sleep(0.15)
        return now

    def type(self, text: str) -> None:
        self.keys += len(text)
        self.tmux("send-keys", "-t", "bay", "-l", text)

    def press(self, *keys: str) -> None:
        self.keys += len(keys)
        self.tmux("send-keys", "-t", "bay", *keys)

    def pid(self) -> int:
        """The process of the program, a child of the terminal's shell."""
        shell = self.tmux("list-panes", "-t", "bay", "-F", "#{pane_pid}").strip()
        found = subprocess.run(["pgrep", "-P", shell], capture_output=True, text=True).stdout.split()
        return int(found[0])

    def end(self) -> None:
        self.tmux("kill-server")
