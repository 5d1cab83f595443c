"""What it costs to start: whole processes beside a bare one, both taken in turns."""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import pexpect

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "sample_sessions" / "digger-scattered.toml"
TURFPAIR = Path(sys.executable).with_name("turfpair")
RUN = "import sys; from interview.commands.main import main; status = main(sys.argv[1:])"
NAMES = "; import json; print(json.dumps(sorted({name.partition('.')[0] for name in sys.modules})))"
HEAVY = ("textual", "numpy", "scipy")
"""What `recommend` never imports."""
BARE = """
from textual.app import App
from textual.widgets import Static
class Bare(App):
    def compose(self):
        yield Static("the first question")
Bare().run()
"""


def environment() -> dict[str, str]:
    """The environment of a user: byte code is written once and read ever after."""
    return {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}


def cpu(*words: str) -> float:
    """CPU seconds of a whole process of Python."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    command = [sys.executable, *words]
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True, cwd=ROOT, env=environment())
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def recommend_times(rounds: int = 7) -> tuple[float, float]:
    """CPU seconds of `recommend` of one session, and of a bare `import pydantic`: the least of several."""
    ours, bare = ("-c", RUN, "recommend", str(SAMPLE)), ("-c", "import pydantic")
    cpu(*ours)
    both = [(cpu(*ours), cpu(*bare)) for _ in range(rounds)]
    return min(one for one, _ in both), min(other for _, other in both)


def heavy_loaded() -> set[str]:
    """Which of the heavy packages `recommend` imports."""
    command = [sys.executable, "-c", RUN + NAMES, "recommend", str(SAMPLE)]
    done = subprocess.run(command, capture_output=True, text=True, check=True, cwd=ROOT, env=environment())
    return set(json.loads(done.stdout.splitlines()[-1])) & set(HEAVY)


def until(command: str, args: list[str], words: str, surroundings: dict[str, str]) -> float:
    """Return the seconds until words are on the screen of a terminal of 80x24."""
    begun = time.perf_counter()
    child = pexpect.spawn(command, args, env=surroundings, dimensions=(24, 80), timeout=60)
    child.expect(words)
    taken = time.perf_counter() - begun
    child.close(force=True)
    return taken


class FirstQuestion:
    """Starts the bay and a bare app of the same toolkit in turns, in a terminal."""

    def __init__(self, folder: Path) -> None:
        """`folder` takes the bare app, and whatever the bay keeps."""
        self._bare = folder / "bare.py"
        self._bare.write_text(BARE)
        self._surroundings = {
            **environment(), "TERM": "xterm-256color", "TURFPAIR_SESSIONS": str(folder / "sessions"),
            "XDG_STATE_HOME": str(folder / "state"),
        }  # fmt: skip
        self._bay()  # the first start ever remembers its question
        time.sleep(1.0)

    def _bay(self) -> float:
        return until(str(TURFPAIR), ["bay"], "Hand", self._surroundings)

    def times(self, rounds: int) -> tuple[float, float]:
        """Seconds to the first question, and to the bare app's words: the least of several."""
        both = [
            (until(sys.executable, [str(self._bare)], "the first question", self._surroundings), self._bay())
            for _ in range(rounds)
        ]
        return min(bay for _, bay in both), min(bare for bare, _ in both)


def first_question(rounds: int = 4) -> tuple[float, float]:
    """Seconds to the first question in the bay, and of a bare app."""
    with tempfile.TemporaryDirectory() as folder:
        return FirstQuestion(Path(folder)).times(rounds)
