"""The installed command in a pipe and in a real terminal: an interview from the first word to the outcome."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pexpect
import pytest

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
TURFPAIR = Path(sys.executable).with_name("turfpair")

Ask = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture
def environment(tmp_path: Path) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith("TURFPAIR_")}
    return {**kept, "XDG_STATE_HOME": str(tmp_path / "state"), "TERM": "dumb"}


@pytest.fixture
def sessions(tmp_path: Path) -> Path:
    return tmp_path / "state" / "turfpair" / "sessions"


@pytest.fixture
def ask(environment: dict[str, str]) -> Ask:
    """Return a function that runs `turfpair ask` over typed lines."""

    def run(*words: str, typed: str = "") -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [TURFPAIR, "ask", *words],
            input=typed,
            capture_output=True,
            text=True,
            env=environment,
            timeout=60,
        )

    return run


def only_session(folder: Path) -> dict[str, Any]:
    (file,) = folder.glob("*.toml")
    return tomllib.loads(file.read_text(encoding="utf-8"))


def test_a_whole_interview_goes_through_a_pipe(ask: Ask, sessions: Path) -> None:
    typed = "pain = no\nhand = left\nhandicap = 14\ndriver_speed = 95 mph measured\n" + "dk\n" * 60
    done = ask("--voice", "customer", typed=typed)
    assert (done.returncode, done.stderr) == (0, "")
    assert "\x1b" not in done.stdout
    assert "Kept as session" in done.stdout
    kept = only_session(sessions)
    assert kept["voice"] == "customer"
    assert kept["answers"]["driver_speed"] == {"value": "95 mph", "how": "measured"}
    assert kept["answers"]["lies"] == {"unknown": True}
    assert len(kept["record"]["rules_digest"]) >= 16


def test_the_outcome_is_told_at_the_end(ask: Ask) -> None:
    told = ask(str(SAMPLES / "sweeper.toml"), typed="done\n")
    untold = ask(str(SAMPLES / "sweeper.toml"), typed="quit\n")
    assert told.returncode == untold.returncode == 0
    assert len(told.stdout) > len(untold.stdout) + 400
    assert told.stdout.count(" in") > untold.stdout.count(" in")


def test_looking_at_a_file_writes_nothing(ask: Ask, sessions: Path) -> None:
    done = ask(str(SAMPLES / "sweeper.toml"), typed="list\ndone\n")
    assert done.returncode == 0
    assert not sessions.exists() or not list(sessions.glob("*.toml"))


def test_changing_a_file_copies_it_and_says_so(ask: Ask, sessions: Path) -> None:
    before = (SAMPLES / "sweeper.toml").read_bytes()
    done = ask(str(SAMPLES / "sweeper.toml"), typed="handicap = 3\nquit\n")
    assert "is left as it is" in done.stdout.replace("\n", " ")
    assert (SAMPLES / "sweeper.toml").read_bytes() == before
    assert only_session(sessions)["answers"]["handicap"] == 3


def test_in_place_changes_the_file_itself(ask: Ask, sessions: Path, tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_bytes((SAMPLES / "sweeper.toml").read_bytes())
    assert ask(str(file), "--in-place", typed="handicap = 3\nquit\n").returncode == 0
    assert tomllib.loads(file.read_text())["answers"]["handicap"] == 3
    assert not sessions.exists()


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["nobody"], "there is no session or ticket 'nobody'"),
        (["./nothing.toml"], "there is no such file"),
        (["--new", "No Good"], "cannot be a session's id"),
        (["x", "--new", "y"], "not both"),
        (["--voice", "robot"], "invalid choice: 'robot'"),
        (["--rules", "/nonexistent"], "/nonexistent"),
    ],
)
def test_what_cannot_be_opened_is_one_line_and_status_2(words: list[str], sentence: str, ask: Ask) -> None:
    done = ask(*words)
    assert done.returncode == 2
    assert sentence in done.stderr
    assert done.stderr.count("\n") == 1


def test_a_damaged_session_is_told_and_left_alone(ask: Ask, sessions: Path) -> None:
    sessions.mkdir(parents=True)
    (sessions / "torn.toml").write_text('schema = 1\nid = "torn"\n[answers]\nhandicap = ')
    done = ask("torn")
    assert done.returncode == 2
    assert "torn.toml line 4" in done.stderr
    assert (sessions / "torn.toml").read_text().endswith("handicap = ")


def test_rubbish_in_a_pipe_answers_nothing(ask: Ask, sessions: Path) -> None:
    rubbish = "\x1b[2J\x00\n" + "🏌\n" * 3 + "'; drop\n{0.__class__}\n[/b]\n" + "x" * 50_000 + "\n"
    done = ask(typed=rubbish)
    assert (done.returncode, done.stderr) == (0, "")
    assert "\x1b" not in done.stdout
    assert "Nothing was said, so nothing was kept." in done.stdout
    assert not list(sessions.glob("*.toml"))


@pytest.fixture
def terminal(environment: dict[str, str]) -> Iterator[Callable[..., pexpect.spawn]]:
    """Return a function that runs `turfpair ask` in a real terminal."""
    running: list[pexpect.spawn] = []

    def run(*words: str) -> pexpect.spawn:
        child = pexpect.spawn(
            str(TURFPAIR), ["ask", *words], env=environment, encoding="utf-8", timeout=20, dimensions=(24, 80)
        )
        running.append(child)
        return child

    yield run
    for child in running:
        child.close(force=True)


def test_a_kill_at_any_moment_loses_at_most_the_answer_being_typed(
    terminal: Callable[..., pexpect.spawn], sessions: Path
) -> None:
    for said in range(1, 4):
        id = f"killed-{said}"
        child = terminal("--new", id)
        child.expect("> ")
        for handicap in range(said):
            child.sendline(f"handicap = {handicap}")
            child.expect("(Noted|index|hand|\\?)[^>]*> ")
        child.send("half an ans")
        child.kill(signal.SIGKILL)
        kept = tomllib.loads((sessions / f"{id}.toml").read_text())
        assert kept["answers"] == {"handicap": said - 1}


def test_an_interruption_keeps_what_was_said(terminal: Callable[..., pexpect.spawn], sessions: Path) -> None:
    child = terminal("--new", "broken-off", "--voice", "customer")
    child.expect("> ")
    child.sendline("handicap = 9")
    child.expect("[^>]*> ")
    child.sendintr()
    child.expect("Kept as session 'broken-off'")
    child.expect(pexpect.EOF)
    child.wait()
    assert child.exitstatus == 130
    assert "\x1b" not in child.before
    assert tomllib.loads((sessions / "broken-off.toml").read_text())["answers"] == {"handicap": 9}


def test_the_outcome_is_as_narrow_as_the_terminal(terminal: Callable[..., pexpect.spawn]) -> None:
    child = terminal("--new", "narrow", "--voice", "customer")
    child.setwinsize(24, 40)
    child.expect("> ")
    child.sendline("done")
    child.expect("Your two clubs")
    child.expect("so nothing was")
    lines = child.before.splitlines()
    assert len(lines) > 40
    assert max(map(len, lines)) <= 39


def test_the_end_of_input_in_a_terminal_ends_gracefully(terminal: Callable[..., pexpect.spawn]) -> None:
    child = terminal()
    child.expect("> ")
    child.sendeof()
    child.expect("Nothing was said, so nothing was kept")
    child.expect(pexpect.EOF)
    child.wait()
    assert child.exitstatus == 0


def test_the_interview_loads_no_screen_and_nothing_heavy(environment: dict[str, str]) -> None:
    program = (
        "import sys; from interview.commands.main import main; main(['ask']); "
        "print(sorted({m.split('.')[0] for m in sys.modules}"
        " & {'textual', 'rich', 'numpy', 'scipy', 'pydantic'}))"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        input="no\n",
        capture_output=True,
        text=True,
        env=environment,
        check=True,
    )
    assert done.stdout.splitlines()[-1] == "[]"
