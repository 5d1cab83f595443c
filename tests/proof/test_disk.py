"""A disk that is full, read-only, gone or forbidden in the middle: said at once, nothing lost."""

from __future__ import annotations

import errno
import os
import re
import shutil
import signal
import subprocess
import sys
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path

import pexpect
import pytest

from tests.journeys.real_terminal import Terminal, needs_tmux

TURFPAIR = Path(sys.executable).with_name("turfpair")
SAMPLES = Path(__file__).parents[2] / "sample_sessions"

Talk = Callable[..., "pexpect.spawn[str]"]
PROMPT = r"\r\n> "


@pytest.fixture
def talk(environment: dict[str, str]) -> Iterator[Talk]:
    """Return a function that opens `turfpair ask` in a terminal and waits for its first question."""
    running: list[pexpect.spawn[str]] = []

    def open(*words: str, before: tuple[str, ...] = (), **more: str) -> pexpect.spawn[str]:
        line = (*before, str(TURFPAIR), "ask", *words)
        child = pexpect.spawn(
            line[0], list(line[1:]), env={**environment, "TERM": "dumb", **more}, encoding="utf-8", timeout=30
        )
        running.append(child)
        child.expect(PROMPT)
        return child

    yield open
    for child in running:
        child.close(force=True)


def say(child: pexpect.spawn[str], line: str) -> str:
    """Say a line; return what is answered before the next question, in one line."""
    child.sendline(line)
    child.expect(PROMPT)
    return " ".join(str(child.before).split())


def end(child: pexpect.spawn[str], line: str = "quit") -> tuple[int, str]:
    child.sendline(line)
    child.expect(pexpect.EOF)
    child.wait()
    return child.exitstatus, str(child.before)


def answers(file: Path) -> dict[str, object]:
    found = tomllib.loads(file.read_text())["answers"]
    assert isinstance(found, dict)
    return found


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EROFS, errno.EACCES, errno.EIO, errno.EDQUOT])
def test_a_disk_that_refuses_in_the_middle(
    number: int,
    talk: Talk,
    sabotage: Callable[..., dict[str, str]],
    sessions: Path,
    tmp_path: Path,
    long: bool,
) -> None:
    if number in (errno.EIO, errno.EDQUOT, errno.EROFS) and not long:
        pytest.skip("in the long run")
    child, flag = talk("--new", "x", **sabotage(f"fail {number}", sessions)), tmp_path / "flag"
    assert "could not" not in say(child, "hand = left")
    flag.touch()
    told = say(child, "handicap = 14")
    assert told.count("the session could not be kept in") == 1
    assert os.strerror(number).lower() in told
    assert "keep ~/turfpair-sessions" in told
    assert "could not" not in say(child, "pain = no"), "said once, not at each answer"
    assert answers(sessions / "x.toml") == {"hand": "left"}, "what was kept stands"
    flag.unlink()
    assert "Everything is kept again" in say(child, "age_band = adult")
    assert set(answers(sessions / "x.toml")) == {"hand", "handicap", "pain", "age_band"}
    assert end(child)[0] == 0


def test_another_place_is_offered_and_taken(
    talk: Talk, sabotage: Callable[..., dict[str, str]], sessions: Path, tmp_path: Path
) -> None:
    child = talk("--new", "x", **sabotage(f"fail {errno.ENOSPC}", sessions))
    say(child, "hand = left")
    (tmp_path / "flag").touch()
    say(child, "handicap = 14")
    assert "could not be kept in" in say(child, f"keep {sessions}/deeper")
    moved = tmp_path / "home" / "turfpair-sessions" / "x.toml"
    assert "kept again" in say(child, "keep ~/turfpair-sessions")
    say(child, "pain = no")
    assert set(answers(moved)) == {"hand", "handicap", "pain"}
    status, told = end(child)
    assert (status, str(moved.name) in told.replace("\r\n", "")) == (0, True)


def test_whoever_leaves_loses_nothing(
    talk: Talk, sabotage: Callable[..., dict[str, str]], sessions: Path, tmp_path: Path
) -> None:
    """Neither by an order nor by an interruption; and where nothing takes a file, the session is printed."""
    (tmp_path / "flag").touch()
    child = talk("--new", "a", **sabotage(f"fail {errno.ENOSPC}", sessions / "a.toml"))
    (tmp_path / "flag").unlink()
    say(child, "hand = left")
    shutil.rmtree(sessions)
    sessions.write_text("no folder any more")
    assert "could not be kept" in say(child, "handicap = 14")
    child.sendintr()
    child.expect(r"kept here\s+instead")
    child.expect(pexpect.EOF)
    rescued = tmp_path / "state" / "turfpair" / "rescued" / "a.toml"
    assert set(answers(rescued)) == {"hand", "handicap"}
    sessions.unlink()
    child = talk("--new", "b", **sabotage(f"fail {errno.ENOSPC}", Path("/"), flag=tmp_path / "full"))
    (tmp_path / "full").touch()
    say(child, "hand = left")
    status, told = end(child)
    assert status == 2
    printed = told.replace("\r\n", "\n").partition("\n\nschema")[2]
    assert tomllib.loads("schema" + printed)["answers"] == {"hand": "left"}


def test_a_folder_that_vanishes_is_made_again(talk: Talk, sessions: Path) -> None:
    child = talk("--new", "x")
    say(child, "hand = left")
    shutil.rmtree(sessions)
    assert "kept again" in say(child, "handicap = 14")
    assert set(answers(sessions / "x.toml")) == {"hand", "handicap"}


ROOT = os.geteuid() == 0
UNPRIVILEGED = ("setpriv", "--bounding-set=-dac_override,-dac_read_search", "--inh-caps=-all") if ROOT else ()


@pytest.mark.skipif(ROOT and shutil.which("setpriv") is None, reason="root may write anywhere")
def test_permission_taken_away_in_the_middle(talk: Talk, sessions: Path) -> None:
    child = talk("--new", "x", before=UNPRIVILEGED)
    say(child, "hand = left")
    sessions.chmod(0o500)
    assert "permission denied" in say(child, "handicap = 14")
    sessions.chmod(0o700)
    assert "Everything is kept again" in say(child, "pain = no")
    (sessions / "x.toml").chmod(0)
    assert "permission denied" in say(child, "age_band = adult")
    status, told = end(child)
    assert status == 0
    assert "instead" in told
    (sessions / "x.toml").chmod(0o600)
    assert len(answers(sessions / "x.toml")) == 3, "a file that may not be read is not written over"


@pytest.mark.skipif(not ROOT, reason="only root may make a small disk")
def test_a_disk_that_is_really_full(talk: Talk, tmp_path: Path, long: bool) -> None:
    if not long:
        pytest.skip("in the long run")
    disk = tmp_path / "disk"
    disk.mkdir()
    if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", disk]).returncode:
        pytest.skip("no disk may be mounted here")
    try:
        child = talk("--new", "x", TURFPAIR_SESSIONS=str(disk / "sessions"))
        say(child, "hand = left")
        subprocess.run(["dd", "if=/dev/zero", f"of={disk / 'fill'}", "bs=1k", "count=99"], stderr=-3)
        assert "no space left on device" in say(child, "handicap = 14")
        (disk / "fill").unlink()
        assert "Everything is kept again" in say(child, "pain = no")
        assert len(answers(disk / "sessions" / "x.toml")) == 3
    finally:
        child.close(force=True)
        subprocess.run(["umount", disk])


@needs_tmux
def test_the_bay_on_a_disk_that_refuses(
    sabotage: Callable[..., dict[str, str]], sessions: Path, tmp_path: Path
) -> None:
    one, flag = Terminal(tmp_path, 80, 24), tmp_path / "flag"
    hurt = sabotage(f"fail {errno.ENOSPC}", sessions)
    home = {"HOME": str(tmp_path / "home"), "TMPDIR": str(tmp_path)}
    try:
        one.start("bay", **hurt, **home)
        one.wait("Hand?")
        enter(one, "left", "1 said .* kept")
        flag.touch()
        enter(one, "pain no", "2 said .* NOT KEPT")
        one.wait(lambda text: "no space left on device" in " ".join(text.split()))
        enter(one, "handicap 14", "3 said .* NOT KEPT")
        one.press("C-q")
        assert "Nothing is lost" in one.rest(), "leaving is refused once"
        one.press("F10")
        one.wait("What to do")
        one.type("keep elsewhere")
        one.press("Enter")
        one.wait("~/turfpair-sessions")
        one.press("Enter")
        one.wait(lambda text: text.splitlines()[0].rstrip().endswith("open · kept"))
        enter(one, "age adult", "4 said .* kept")
        (file,) = (tmp_path / "home" / "turfpair-sessions").glob("*.toml")
        assert len(answers(file)) == 4
        os.rename(file.parent, tmp_path / "away")
        file.parent.write_text("in the way")
        enter(one, "miss right", "5 said .* NOT KEPT")
        os.kill(one.pid(), signal.SIGTERM)
        text = one.wait("STATUS 143")
        assert "instead" in text
        (rescued,) = (tmp_path / "state" / "turfpair" / "rescued").glob("*.toml")
        assert len(answers(rescued)) == 5
    finally:
        one.end()


def enter(one: Terminal, line: str, then: str) -> None:
    one.type(line)
    one.press("Enter")
    one.wait(lambda text: bool(text.strip()) and bool(re.search(then, text.splitlines()[0])))


@pytest.mark.parametrize("job", ["sheet", "trial", "book"])
def test_other_jobs_say_it_in_one_line_and_leave_the_old_file(
    job: str, run: Callable[..., subprocess.CompletedProcess[str]], tmp_path: Path,
    sabotage: Callable[..., dict[str, str]], sessions: Path,
) -> None:  # fmt: skip
    sessions.mkdir()
    kept = {
        "sheet": tmp_path / "a.html",
        "trial": sessions / "t.toml",
        "book": tmp_path / "shop/bookings.toml",
    }[job]
    if job == "book":
        run("shop", "init", tmp_path / "shop")
        run("shop", "book", SAMPLES / "very-slow.toml", "--catalogue", tmp_path / "shop")
    elif job == "trial":
        kept.write_bytes((SAMPLES / "sweeper.toml").read_bytes())
    else:
        kept.write_text("an older page")
    before = kept.read_bytes()
    words: dict[str, tuple[str | Path, ...]] = {
        "sheet": ("sheet", SAMPLES / "sweeper.toml", "--for", "golfer", "--html", kept),
        "trial": ("trial", "t", "--shots", SAMPLES / "trials" / "the-longest-ball-of-the-day.csv"),
        "book": ("shop", "book", SAMPLES / "sweeper.toml", "--catalogue", tmp_path / "shop"),
    }
    (tmp_path / "flag").touch()
    done = run(*words[job], **sabotage(f"fail {errno.ENOSPC}", kept.parent))
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    assert "no space left on device" in done.stderr
    assert kept.read_bytes() == before


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no such device here")
def test_an_output_that_is_full_is_one_line(environment: dict[str, str]) -> None:
    with open("/dev/full", "w") as full:
        done = subprocess.run(
            [TURFPAIR, "recommend", SAMPLES / "sweeper.toml"], stdout=full, stderr=subprocess.PIPE,
            env=environment, text=True,
        )  # fmt: skip
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    assert "the output could not be written: no space left on device; make room" in done.stderr
