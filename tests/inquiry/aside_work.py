"""Work that the tests have done in a process of its own."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path


def counted(first: int, last: int, told: Callable[[], int]) -> Iterator[int]:
    """Counts, then multiplies the last by what it is told; what it prints is nobody's part."""
    print("not a part", flush=True)
    print("nor this", file=sys.stderr, flush=True)
    yield from range(first, last)
    yield last * told()


def torn(told: Callable[[], int]) -> Iterator[int]:
    """Fails after its first part."""
    yield 1
    raise ValueError("on the way")


def endless(note: Path, told: Callable[[], int]) -> Iterator[int]:
    """Notes which process it is in, and never ends by itself."""
    note.write_text(str(os.getpid()), encoding="utf-8")
    yield 1
    while True:
        time.sleep(1)
