"""`shop init` killed after any of its calls: a whole shop or none, and what is left goes next time."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

from rules.shelf import load_shelf

TURFPAIR = Path(sys.executable).with_name("turfpair")


def test_a_shop_is_begun_whole_or_not_at_all(
    sabotage: Callable[..., dict[str, str]], environment: dict[str, str], tmp_path: Path, long: bool
) -> None:
    place = tmp_path / "place"
    seen = set()
    for step in range(1, 9) if long else (1, 2, 3):
        shop = place / f"shop-{step}"
        hurt = {**environment, **sabotage(f"kill {step}", place)}
        killed = subprocess.run([TURFPAIR, "shop", "init", shop], env=hurt, capture_output=True)
        if killed.returncode != -signal.SIGKILL:
            break  # there were fewer calls than that
        seen.add(shop.exists())
        if shop.exists():
            assert load_shelf(shop).heads
    assert False in seen, "some kill came before the shop stood there"
    left = [p for p in place.iterdir() if p.name.startswith(".")]
    assert left, "some kill left a half-made folder"
    for one in left:
        os.utime(one, (time.time() - 3600, time.time() - 3600))
        shop = place / one.name[1:].rpartition(".")[0]
        done = subprocess.run([TURFPAIR, "shop", "init", shop], env=environment, capture_output=True)
        assert done.returncode == 0
        assert not one.exists()
        assert load_shelf(shop).heads
