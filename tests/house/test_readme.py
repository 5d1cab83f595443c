"""The README promises nothing that the program does not keep."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

from interview.commands.registry import listed
from tests import golden

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "README.md"
README = PAGE.read_text(encoding="utf-8")
EXAMPLE = "sample_sessions/thin-off-tight-turf.toml"
REASONS = 6
"""How many reasons for the pair the worked example shows before it breaks off."""
LIKEWISE = "[the shorter club likewise]"
AND_SO_ON = "[... every line that spoke, then each decision's ledger, assumptions, cautions, the proof]"
RUN = "import sys; from interview.commands.main import main; sys.exit(main(sys.argv[1:]))"


def shortened(said: str) -> str:
    """Return what the program says as the worked example shows it: the first club, the first reasons."""
    lines = [line.rstrip() for line in said.splitlines()]
    shorter, ladder, why = (
        next(at for at, line in enumerate(lines) if line.startswith(heading))
        for heading in ("SHORTER CLUB", "LADDER", "WHY THIS PAIR")
    )
    reasons = [at for at, line in enumerate(lines) if at > why and re.match(r" +[+-]\d", line)]
    shown = [*lines[:shorter], LIKEWISE, "", *lines[ladder : reasons[REASONS]], AND_SO_ON]
    return "".join(f"    {line}".rstrip() + "\n" for line in shown)


def test_the_worked_example_is_what_the_program_says() -> None:
    done = subprocess.run(
        [sys.executable, "-c", RUN, "recommend", EXAMPLE],
        cwd=ROOT, capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    before, says, rest = README.partition("`turfpair recommend` says:\n\n")
    _, points, after = rest.partition("\nThe points of a ledger")
    golden.held(PAGE, before + says + shortened(done.stdout) + points + after)


def test_every_command_it_names_exists() -> None:
    named = set(re.findall(r"^\| `turfpair ([a-z]+)", README, flags=re.MULTILINE))
    assert len(named) >= 8
    assert named <= {command.name for command in listed()}


def test_its_two_lines_stand_as_promised() -> None:
    assert ".venv/bin/pip install -q . && .venv/bin/turfpair recommend sample_sessions/" in README
    assert ".venv/bin/pip install -q -e '.[dev]' && .venv/bin/pytest\n" in README
