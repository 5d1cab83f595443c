"""The README promises nothing that the program does not keep."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

from interview.commands.registry import listed

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
RUN = "import sys; from interview.commands.main import main; sys.exit(main(sys.argv[1:]))"


def test_the_worked_example_is_what_the_program_says() -> None:
    start, end = README.index("`turfpair recommend` says:"), README.index("The points of a ledger")
    shown = [line[4:].rstrip() for line in README[start:end].splitlines()[1:] if line.startswith("    ")]
    sample = "sample_sessions/thin-off-tight-turf.toml"
    done = subprocess.run(
        [sys.executable, "-c", RUN, "recommend", sample], cwd=ROOT, capture_output=True, text=True, timeout=60
    )
    said = {line.rstrip() for line in done.stdout.splitlines()}
    assert len(shown) > 30
    assert [line for line in shown if line not in said and not line.startswith("[")] == []


def test_every_command_it_names_exists() -> None:
    named = set(re.findall(r"^\| `turfpair ([a-z]+)", README, flags=re.MULTILINE))
    assert len(named) >= 8
    assert named <= {command.name for command in listed()}


def test_its_two_lines_stand_as_promised() -> None:
    assert ".venv/bin/pip install -q . && .venv/bin/turfpair recommend sample_sessions/" in README
    assert ".venv/bin/pip install -q -e '.[dev]' && .venv/bin/pytest\n" in README
