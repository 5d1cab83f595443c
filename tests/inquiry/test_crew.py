"""Several processes at one list: each item once, whoever is ended in the middle of it."""

from __future__ import annotations

import os
import signal
from collections import Counter
from functools import partial
from pathlib import Path

import pytest

from rules.inquiry.crew import Crew


def begun(folder: Path) -> None:
    (folder / f"begun-{os.getpid()}").write_text("", encoding="utf-8")


def doubled(item: str) -> str:
    return item * 2


def killed_at(fatal: str, first: int, item: str) -> str:
    """Ends its own process at one item, as the system does when memory runs out; not the first process."""
    if item == fatal and os.getpid() != first:
        os.kill(os.getpid(), signal.SIGKILL)
    return item * 2


@pytest.mark.parametrize(("items", "count"), [(0, 2), (1, 2), (3, 2), (100, 3)])
def test_each_item_comes_back_once(items: int, count: int, tmp_path: Path) -> None:
    work = [f"{number}." for number in range(items)]
    with Crew(work, count, partial(begun, tmp_path), doubled) as crew:
        found = list(crew.results())
    assert Counter(found) == Counter(item * 2 for item in work)
    assert len(list(tmp_path.glob("begun-*"))) == count


def test_what_an_ended_process_had_not_sent_is_done_all_the_same(tmp_path: Path) -> None:
    work = [f"{number}." for number in range(200)]
    with Crew(work, 2, partial(begun, tmp_path), partial(killed_at, "120.", os.getpid())) as crew:
        found = list(crew.results())
    assert Counter(found) == Counter(item * 2 for item in work)
    assert (tmp_path / f"begun-{os.getpid()}").exists()


def test_leaving_early_ends_every_process_and_keeps_the_signals_as_they_were(tmp_path: Path) -> None:
    before = signal.pthread_sigmask(signal.SIG_BLOCK, ())
    with Crew([str(n) for n in range(10_000)], 2, partial(begun, tmp_path), doubled) as crew:
        assert next(crew.results())
        assert signal.pthread_sigmask(signal.SIG_BLOCK, ()) == before
        hands = [hand.process for hand in crew._hands]
    assert all(process.exitcode is not None for process in hands)
