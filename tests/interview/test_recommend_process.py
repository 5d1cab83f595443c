"""`turfpair recommend` as it is run: what it prints, how it leaves, and what it never loads."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
ONE, TWO = SAMPLES / "digger-scattered.toml", SAMPLES / "keep-what-he-has.toml"
RUN = "import sys; from interview.commands.main import main; sys.exit(main(sys.argv[1:]))"
LOADED = """
import json, sys
from interview.commands.main import main
status = main(sys.argv[1:])
print(json.dumps(sorted({name.partition('.')[0] for name in sys.modules})), file=sys.stderr)
sys.exit(status)
"""


def run(*words: object, code: str = RUN, **options: Any) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", code, "recommend", *map(str, words)]
    return subprocess.run(command, capture_output=True, text=True, timeout=60, check=False, **options)


@pytest.mark.parametrize("words", [(ONE,), (ONE, "--json"), (ONE, TWO, "--units", "metric")])
def test_it_loads_no_toolkit_and_no_number_library(words: tuple[object, ...]) -> None:
    done = run(*words, code=LOADED)
    assert done.returncode == 0, done.stderr
    loaded = set(json.loads(done.stderr.splitlines()[-1]))
    assert {"interview", "rules"} <= loaded
    assert not loaded & {"textual", "rich", "numpy", "scipy", "pydantic", "asyncio", "filelock"}


def test_one_session_is_an_object_and_several_an_array() -> None:
    one, both = run(ONE, "--json"), run(ONE, TWO, "--json")
    first = json.loads(one.stdout)
    assert first["session"] == "digger-scattered"
    array = json.loads(both.stdout)
    assert [entry["session"] for entry in array] == ["digger-scattered", "keep-what-he-has"]
    assert array[0] == first


def test_text_is_in_the_voice_of_the_session() -> None:
    fitter, customer = run(ONE), run(SAMPLES / "dreads-every-wood.toml")
    assert fitter.stdout.startswith("The pair: ")
    assert "WHY THIS PAIR (points)" in fitter.stdout
    assert customer.stdout.startswith("Your two clubs: ")
    assert fitter.stderr == ""


def test_several_sessions_are_told_apart() -> None:
    printed = run(ONE, TWO).stdout
    assert printed.startswith("== digger-scattered ==\n\nThe pair: ")
    assert "\n\n== keep-what-he-has ==\n\n" in printed


def test_units_of_the_command_line_come_before_the_sessions() -> None:
    assert " cm long" in run(ONE, "--units", "metric").stdout
    assert " in long" in run(ONE).stdout


def test_a_bad_session_stops_everything_with_one_line(tmp_path: Path) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text('schema = 1\nid = "bad"\n[answers]\nhandicap = "very good"\n')
    done = run(ONE, bad, "--json")
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.count("\n") == 1
    assert "bad.toml" in done.stderr


@pytest.mark.parametrize("words", [(), ("no-such-session",), (ONE, "--colour")])
def test_bad_usage_is_one_line_and_status_two(tmp_path: Path, words: tuple[object, ...]) -> None:
    done = run(*words, "--sessions", tmp_path)
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    assert done.stdout == ""


def test_a_session_of_the_store_is_found_by_id_and_by_ticket(tmp_path: Path) -> None:
    from interview.session import ticket_code

    kept = tmp_path / "digger-scattered.toml"
    kept.write_text(ONE.read_text(encoding="utf-8"), encoding="utf-8")
    before = kept.stat().st_mtime_ns
    by_id = run("digger-scattered", "--json", "--sessions", tmp_path)
    by_ticket = run(ticket_code("digger-scattered"), "--json", "--sessions", tmp_path)
    assert json.loads(by_id.stdout) == json.loads(by_ticket.stdout)
    assert kept.stat().st_mtime_ns == before


def test_a_reader_that_leaves_early_is_no_fault() -> None:
    command = f"{sys.executable} -c '{RUN}' recommend {ONE} | head -1"
    done = subprocess.run(command, shell=True, capture_output=True, text=True, timeout=60, check=False)
    assert done.stderr == ""
    assert done.stdout.startswith("The pair: ")


def test_output_goes_through_where_letters_are_few() -> None:
    done = run(ONE, env={"PYTHONIOENCODING": "ascii", "PATH": "/usr/bin:/bin"})
    assert done.returncode == 0
    assert done.stdout.isascii()
