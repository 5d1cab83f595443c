"""The command line: what it lists, what it refuses, and that it never shows a traceback."""

from __future__ import annotations

import os
import subprocess
import sys
from argparse import ArgumentParser
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

from interview.commands import main as main_module
from interview.commands.common import Parser, add_common
from interview.commands.errors import BAD_INPUT, BROKEN, DONE, INTERRUPTED, guarded
from interview.commands.installation import foreign_rules
from interview.commands.main import main
from interview.commands.registry import COMMANDS, Command, listed
from rules.problems import Problem


def raising(error: BaseException) -> Callable[[], int]:
    def job() -> int:
        raise error

    return job


@pytest.fixture
def state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    return tmp_path / "turfpair"


def test_only_commands_that_are_here_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    absent = Command("no_such_command_module", "")
    assert absent not in listed()
    assert main(["--help"]) == DONE
    printed = capsys.readouterr().out
    here = {command.name for command in listed()}
    assert {"ask", "sessions"} <= here
    for command in COMMANDS:
        assert (f"  {command.name} " in printed) == (command.name in here)


def test_without_a_command_and_without_a_terminal_help_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == BAD_INPUT
    assert "usage: turfpair COMMAND" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["sesions"], "there is no command 'sesions'; did you mean 'sessions'?"),
        (["--sessions", "x", "ask"], "the command comes first, then its options"),
        (["sessions"], "the following arguments are required"),
        (["sessions", "find"], "the following arguments are required"),
        (["sessions", "list", "--unit", "metric"], "unrecognized arguments: --unit metric"),
        (["sessions", "list", "--units", "parsecs"], "invalid choice: 'parsecs'"),
        (["sessions", "purge", "--older-than", "soon"], "an age is wanted, such as 90d"),
        (["x\x1b[31m\u202ey"], "there is no command 'xy'"),
    ],
)
def test_bad_usage_is_one_line_and_status_2(
    words: list[str], sentence: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(words) == BAD_INPUT
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("turfpair: ")
    assert sentence in said.err
    assert said.err.count("\n") == 1
    assert "\x1b" not in said.err


def test_common_options_stand_anywhere_after_the_command(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for words in (["--sessions", str(tmp_path), "list"], ["list", f"--sessions={tmp_path}"]):
        assert main(["sessions", *words]) == DONE
        assert str(tmp_path) in capsys.readouterr().out


def test_a_problem_is_said_in_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert guarded(raising(Problem("first\nsecond \x1b[2Jthird"))) == BAD_INPUT
    assert capsys.readouterr().err == "turfpair: first second third\n"


def test_a_missing_file_is_said_in_the_words_of_the_system(capsys: pytest.CaptureFixture[str]) -> None:
    assert guarded(raising(FileNotFoundError(2, "No such file or directory", "shots.csv"))) == BAD_INPUT
    assert capsys.readouterr().err.startswith("turfpair: shots.csv: no such file or directory")


def test_a_fault_of_ours_is_logged_without_any_answer(
    state: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert guarded(raising(ValueError("handicap 18, pain yes"))) == BROKEN
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "ValueError" in said
    assert "Traceback" not in said
    (log,) = (state / "log").iterdir()
    assert str(log) in said
    kept = log.read_text()
    assert "test_main_command_line.py" in kept
    assert "handicap" not in kept
    assert "pain" not in said


def test_a_fault_that_cannot_be_logged_is_still_one_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "turfpair").write_text("a file where the folder should be")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    assert guarded(raising(KeyError("x"))) == BROKEN
    assert "could not be noted" in capsys.readouterr().err


def test_an_interruption_has_its_own_status_and_no_words(capsys: pytest.CaptureFixture[str]) -> None:
    assert guarded(raising(KeyboardInterrupt())) == INTERRUPTED
    assert capsys.readouterr() == ("", "")


def test_a_reader_that_leaves_early_is_no_fault() -> None:
    program = "from interview.commands.main import main; import sys; sys.exit(main(['--help']))"
    shell = f'{sys.executable} -c "{program}" | true; echo status ${{PIPESTATUS[0]}}'
    done = subprocess.run(["bash", "-c", shell], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "status 0"
    assert done.stderr == ""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no /dev/full")
@pytest.mark.parametrize("unbuffered", ["", "1"])
def test_a_full_disk_is_one_sentence(unbuffered: str) -> None:
    program = "from interview.commands.main import main; import sys; sys.exit(main(['--help']))"
    with open("/dev/full", "w") as full:
        done = subprocess.run(
            [sys.executable, "-c", program], stdout=full, stderr=subprocess.PIPE, text=True,
            env={**os.environ, "PYTHONUNBUFFERED": unbuffered},
        )  # fmt: skip
    assert "no space left on device" in done.stderr
    assert len(done.stderr.splitlines()) == 1
    assert done.returncode == BAD_INPUT


def test_an_output_that_cannot_write_every_letter_still_works(tmp_path: Path) -> None:
    (tmp_path / "case.toml").write_text('schema = 1\nid = "case"\nnote = "30 °C – Zoë"\n', encoding="utf-8")
    program = "from interview.commands.main import main; import sys; sys.exit(main(sys.argv[1:]))"
    done = subprocess.run(
        [sys.executable, "-c", program, "sessions", "list", "--sessions", str(tmp_path)],
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
    )
    assert done.returncode == DONE
    assert b"30 degC - Zoe" in done.stdout


def test_the_installed_rules_are_ours() -> None:
    assert foreign_rules() is None


@pytest.mark.parametrize("marker", [None, "somebody-else"])
def test_rules_of_another_distribution_are_noticed_before_use(
    marker: str | None, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    foreign = ModuleType("rules")
    foreign.__file__ = "/somewhere/site-packages/rules/__init__.py"
    if marker:
        foreign.DISTRIBUTION = marker  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "rules", foreign)
    assert main(["sessions", "list"]) == BAD_INPUT
    said = capsys.readouterr().err
    assert "is not Turfpair's" in said
    assert "virtual environment" in said
    assert said.count("\n") == 1


def test_an_interview_of_another_distribution_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("interview.__file__", "/somewhere/site-packages/interview/__init__.py")
    said = foreign_rules()
    assert said is not None
    assert "the package 'interview' at /somewhere/site-packages/interview is not Turfpair's" in said


def test_rules_that_cannot_even_be_imported_are_noticed(tmp_path: Path) -> None:
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "__init__.py").write_text("import a_framework_that_is_not_installed\n")
    program = "from interview.commands.main import main; import sys; sys.exit(main(['--help']))"
    search = os.pathsep.join((str(tmp_path), str(Path(main_module.__file__).parents[2])))
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": search},
        cwd=tmp_path,
    )
    assert done.returncode == BAD_INPUT
    assert done.stderr.count("\n") == 1
    assert "is not Turfpair's" in done.stderr


def test_the_help_loads_no_screen_and_no_rule_base() -> None:
    program = (
        "import sys; from interview.commands.main import main; main(['--help']); "
        "print(sorted(m for m in sys.modules if m.split('.')[0] in ('textual', 'rich', 'pydantic', 'numpy')"
        " or m.startswith('rules.engine')))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_asking_which_screen_takes_a_number_or_a_name(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    opened: list[str] = []

    def run(command: Command, words: list[str]) -> int:
        opened.append(command.name)
        return 0

    screens = [command for command in COMMANDS if command.screen]
    monkeypatch.setattr(main_module, "run", run)
    for typed in (["7", "2"], ["nonsense", "Trainer "], [""]):
        answers = iter(typed)
        monkeypatch.setattr("builtins.input", lambda prompt, answers=answers: next(answers))
        assert main_module._ask_which(screens) == 0
    assert opened == ["kiosk", "trainer"]
    assert "That is not one of them." in capsys.readouterr().out


def test_options_are_never_abbreviated() -> None:
    parser = Parser(prog="turfpair x")
    add_common(parser)
    assert isinstance(parser, ArgumentParser)
    with pytest.raises(Problem, match="unrecognized arguments: --cat"):
        parser.parse_args(["--cat", "folder"])
