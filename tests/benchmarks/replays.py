"""What a replay costs: sessions a second on one core and on two, and the peak memory of N and of 2N."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import tomli_w

from rules.inquiry.invented import invented
from tests.benchmarks.start_up import ROOT, environment

RULES = 'off = ["five-wood-hit-well"]\n'
PEAK = """
import pathlib, resource, sys
from interview.commands.main import main
main(["replay", *sys.argv[1:]])
status = pathlib.Path("/proc/self/status")
lines = status.read_text().splitlines() if status.exists() else []
high = [line.split()[1] for line in lines if line.startswith("VmHWM:")]
print(high[0] if high else resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, file=sys.stderr)
"""
"""Where the system tells it, the peak since the program began: the other one may be its parent's."""


@dataclass(frozen=True, slots=True)
class Replayed:
    """One replay: seconds on the clock, and the peak memory of the process that was started, MB."""

    sessions: int
    seconds: float
    peak: float

    @property
    def rate(self) -> float:
        """Sessions a second."""
        return self.sessions / self.seconds


@contextmanager
def invented_sessions(count: int) -> Iterator[Path]:
    """Write sessions of invented golfers into a folder that is gone afterwards."""
    with tempfile.TemporaryDirectory() as folder:
        for number in range(count):
            text = tomli_w.dumps(invented(number))
            Path(folder, f"invented-{number:05d}.toml").write_text(text, encoding="utf-8")
        yield Path(folder)


def replayed(folder: Path, sessions: int, cores: int) -> Replayed:
    """Replay a folder under a changed rule base, in a process of its own."""
    with tempfile.TemporaryDirectory() as rules:
        Path(rules, "base.toml").write_text(RULES)
        start = time.perf_counter()
        done = subprocess.run(
            [sys.executable, "-c", PEAK, str(folder), "--rules", rules, "--cores", str(cores)],
            capture_output=True, text=True, check=True, cwd=ROOT, env=environment(),
        )  # fmt: skip
        taken = time.perf_counter() - start
    return Replayed(sessions, taken, int(done.stderr.splitlines()[-1]) / 1024)
