"""The bay killed hard while somebody types: every answer that the screen called kept is in the file."""

from __future__ import annotations

import os
import random
import re
import signal
import time
from collections.abc import Callable
from pathlib import Path

from interview.session import load
from rules.fitting import House
from tests.journeys.real_terminal import Terminal, needs_tmux

SAID = ("left", "pain no", "handicap 14", "age adult", "92 mph measured", "miss right", "curve slice")


def confirmed(screen: str) -> int:
    """How many answers the screen says are said and kept; none while it is still keeping one."""
    found = re.search(r" (\d+) said .* kept ", screen.splitlines()[0] + " ") if screen.strip() else None
    return int(found[1]) if found and "nothing kept" not in screen else 0


@needs_tmux
def test_the_bay_killed_while_somebody_types(
    rounds: Callable[[int, int], int], chance: random.Random, tmp_path: Path, house: House
) -> None:
    kept_in_all = 0
    for n in range(rounds(1, 70)):
        folder = tmp_path / str(n)
        one = Terminal(folder, 80, 24)
        one.start("bay", TURFPAIR_SESSIONS=str(folder / "sessions"))
        try:
            one.wait("Hand?")
            seen = type_until(one, time.monotonic() + chance.uniform(0.3, 4.0), chance)
            os.kill(one.pid(), signal.SIGKILL)
        finally:
            one.end()
        files = list((folder / "sessions").glob("*.toml"))
        there = len(load(files[0], house.base.facts).answered) if files else 0
        assert seen <= there <= len(SAID), f"round {n}: {seen} confirmed, {there} there"
        kept_in_all += there
    assert kept_in_all > 0


def type_until(one: Terminal, moment: float, chance: random.Random) -> int:
    """Type answers, some fast and some slowly, until a moment; return how many were confirmed on screen."""
    seen = 0
    for line in (*SAID, "x"):
        if time.monotonic() > moment:
            break
        one.type(line)
        if line == "x":
            break
        one.press("Enter")
        time.sleep(chance.uniform(0.0, 0.5))
        seen = max(seen, confirmed(one.screen()))
    return max(seen, confirmed(one.screen()))
