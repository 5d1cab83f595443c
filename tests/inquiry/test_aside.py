"""Work in a process of its own: part by part, and gone with whoever wanted it."""

from __future__ import annotations

import contextlib
import os
import pickle
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from rules.fitting import House, load_house
from rules.inquiry import aside
from rules.inquiry.aside import Aside, Gone
from rules.inquiry.roads import Superseded, never
from tests.inquiry.aside_work import counted, endless, torn

ROOT = Path(__file__).parents[2]


def gone(process: int) -> bool:
    """Whether a process has ended, or ended and nobody asked how."""
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return True
    with contextlib.suppress(OSError):  # a system that tells it otherwise leaves none that nobody asked about
        return Path(f"/proc/{process}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()[0] == "Z"
    return False


def soon(holds: Callable[[], bool]) -> bool:
    until = time.monotonic() + 20
    while not holds() and time.monotonic() < until:
        time.sleep(0.02)
    return holds()


def test_parts_come_one_by_one_and_it_hears_what_it_is_told() -> None:
    work = Aside(counted, 3, 6)
    try:
        assert [work.next(never) for _ in range(3)] == [3, 4, 5]
        work.tell(7)
        assert work.next(never) == 42
        with pytest.raises(Gone):
            work.next(never)
        work.tell(8)
    finally:
        work.stop()


def test_it_may_be_begun_from_any_thread() -> None:
    found: list[object] = []

    def begin() -> None:
        work = Aside(counted, 0, 1)
        found.append(work.next(never))
        work.stop()

    thread = threading.Thread(target=begin)
    thread.start()
    thread.join(60)
    assert found == [0]


def test_modules_of_the_folder_it_stands_in_are_not_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("queue.py", "pickle.py", "rules.py"):
        (tmp_path / name).write_text("raise SystemExit('taken')\n", encoding="utf-8")
    monkeypatch.setattr(sys, "path", [str(ROOT), *(one for one in sys.path if one)])
    monkeypatch.chdir(tmp_path)
    work = Aside(counted, 0, 1)
    assert work.next(never) == 0
    work.stop()


def test_work_that_fails_is_gone_after_the_parts_it_made() -> None:
    work = Aside(torn)
    try:
        assert work.next(never) == 1
        with pytest.raises(Gone):
            work.next(never)
    finally:
        work.stop()


def test_nobody_waits_for_what_is_not_wanted_any_more(tmp_path: Path) -> None:
    note = tmp_path / "process"
    work = Aside(endless, note)
    assert work.next(never) == 1
    with pytest.raises(Superseded):
        work.next(lambda: True)
    process = int(note.read_text(encoding="utf-8"))
    assert os.getsid(process) == process, "no signal of this terminal reaches it"
    work.stop()
    assert gone(process)


@pytest.mark.parametrize("program", ["none", "", None])
def test_without_a_program_to_begin_it_is_gone_at_once(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, program: str | None
) -> None:
    monkeypatch.setattr(sys, "executable", program and str(tmp_path / program))
    with pytest.raises(Gone):
        Aside(torn)


def test_what_does_not_pickle_is_refused_before_a_process_is_begun(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "executable", "")
    with pytest.raises((pickle.PicklingError, AttributeError)):
        Aside(counted, 0, lambda: 1)


def test_nobody_waits_for_a_process_that_listens_to_nothing() -> None:
    much = bytes(1 << 20)  # more than any pipe holds
    work = Aside(counted, 0, much)
    work._process.send_signal(signal.SIGSTOP)
    telling = threading.Thread(target=work.tell, args=(much,), daemon=True)
    telling.start()
    telling.join(20)
    assert not telling.is_alive()
    work.stop()
    assert not any(carrier.is_alive() for carrier in work._carriers)


def test_no_file_and_no_thread_stays_behind() -> None:
    files, threads = set(os.listdir("/dev/fd")), set(threading.enumerate())
    for pause in (0, 0.01, 0.1):
        work = Aside(counted, 0, bytes(1 << 20))
        time.sleep(pause)  # stopped before it has begun, while it reads, and after it failed
        work.stop()
    assert set(os.listdir("/dev/fd")) <= files
    assert set(threading.enumerate()) <= threads


def test_what_is_no_part_ends_the_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    for spoilt in (b"hello\n", b"cnowhere\nnothing\n.", b"\x80\x05\x95"):
        monkeypatch.setattr(aside, "_BEGIN", f"import os; os.write(1, {spoilt!r})")
        work = Aside(counted, 0, 1)
        with pytest.raises(Gone):
            work.next(never)
        work.stop()


def test_it_ends_with_a_first_process_that_is_killed(tmp_path: Path) -> None:
    note = tmp_path / "process"
    code = (
        "import sys, time; from pathlib import Path; from rules.inquiry.aside import Aside; "
        "from tests.inquiry.aside_work import endless; "
        "Aside(endless, Path(sys.argv[1])).next(lambda: False); print('begun', flush=True); time.sleep(60)"
    )
    with subprocess.Popen(
        [sys.executable, "-c", code, str(note)], stdout=subprocess.PIPE, text=True
    ) as first:
        assert first.stdout is not None
        assert first.stdout.readline() == "begun\n"
        other = int(note.read_text(encoding="utf-8"))
        assert not gone(other)
        os.kill(first.pid, signal.SIGKILL)
    assert soon(lambda: gone(other))


def test_a_house_goes_to_another_process_and_decides_there_as_here() -> None:
    house = load_house()
    there: House = pickle.loads(pickle.dumps(house))
    assert there.base.digest == house.base.digest
    assert there.base.scopes == house.base.scopes
    assert there.base.largest_cliff == house.base.largest_cliff
    assert there.shelf == house.shelf
    assert there.shelf.digest == ""
    assert there.kept == {}
    swung = house.base.with_assumptions({"turf-loft": 0.5})
    other = pickle.loads(pickle.dumps(house.with_base(swung)))
    assert other.base.assumptions["turf-loft"].value == 0.5
    assert other.base.digest == swung.digest != house.base.digest
