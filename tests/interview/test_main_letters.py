"""Every command where the output knows few letters: none fails, and what is written reads well."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interview.commands.letters import ALIKE, write_anything
from interview.text import seven_bit_locale

SAMPLE = str(Path(__file__).parents[2] / "sample_sessions" / "sweeper.toml")
TYPED = "list\nhandicap = 9\ntempo = français \udcff\nballs\nquit\n".encode("utf-8", "surrogateescape")
COMMANDS = (
    ["--help"], ["recommend", SAMPLE], ["recommend", SAMPLE, "--json"],
    ["trial", SAMPLE],
    ["whatif", SAMPLE, "handicap=3"], ["sheet", SAMPLE, "--for", "golfer"], ["ask", SAMPLE],
    ["sheet", SAMPLE, "--for", "workshop"], ["trainer", SAMPLE, "--plain"], ["sessions", "list"],
    ["rules", "check"], ["shop", "check"], ["bay"], ["kiosk"],
)  # fmt: skip
PLACES: dict[str, dict[str, str]] = {
    "C": {"LC_ALL": "C"}, "POSIX": {"LANG": "POSIX"}, "ascii": {"PYTHONIOENCODING": "ascii"},
    "strict": {"PYTHONIOENCODING": "ascii:strict", "LC_ALL": "C", "PYTHONUTF8": "0"},
    "latin": {"PYTHONIOENCODING": "latin-1"},
}  # fmt: skip
"""Ways of having few letters. In the C locale Python writes UTF-8 unless it is told otherwise (PEP 540)."""

write_anything()


def run(words: list[str], place: str, folder: Path) -> subprocess.CompletedProcess[bytes]:
    bare = {n: v for n, v in os.environ.items() if not n.startswith(("LC_", "LANG", "PYTHON", "TURFPAIR"))}
    environment = {**bare, "XDG_STATE_HOME": str(folder), **PLACES[place]}
    command = [sys.executable, "-m", "interview.commands.main", *words]
    return subprocess.run(command, input=TYPED, capture_output=True, env=environment, timeout=120)


@pytest.mark.parametrize("words", COMMANDS, ids=lambda words: "-".join(w for w in words if w != SAMPLE))
def test_no_command_fails_for_want_of_letters(words: list[str], tmp_path: Path) -> None:
    wide = {"bay": 2, "kiosk": 2}.get(words[0], 0)
    for place in ("strict", "C") if words[0] in ("ask", "sheet") else ("strict",):
        done = run(words, place, tmp_path / place)
        assert done.returncode == wide, done.stderr
        assert b"Traceback" not in done.stderr
        assert place != "strict" or (done.stdout + done.stderr).isascii()


def test_what_has_a_likeness_is_written_as_that(tmp_path: Path) -> None:
    golfer = run(["sheet", SAMPLE, "--for", "golfer"], "ascii", tmp_path).stdout
    workshop = run(["sheet", SAMPLE, "--for", "workshop"], "ascii", tmp_path).stdout
    assert b" deg\n" in golfer
    assert b"+/-" in workshop
    assert b"?" not in golfer + workshop
    said = run(["ask", SAMPLE], "ascii", tmp_path).stdout
    assert b"fran??ais" in said, "what came in as other letters than were promised cannot be told"


@pytest.mark.parametrize("place", ["POSIX", "latin"])
def test_other_places_work_too(place: str, tmp_path: Path) -> None:
    done = run(["sheet", SAMPLE, "--for", "golfer"], place, tmp_path)
    assert done.returncode == 0
    assert ("°".encode("latin-1" if place == "latin" else "utf-8")) in done.stdout


@given(st.text(max_size=40))
def test_anything_can_be_written_in_seven_bits(text: str) -> None:
    written = text.encode("ascii", ALIKE).decode("ascii")
    assert written == text or not text.isascii()
    assert len(written) >= len(text.encode("ascii", "ignore"))


def test_letters_lose_their_accents_and_signs_are_spelled() -> None:
    said = "Zoë Ōtani, 30 °C, 16.75°, 2 ± 1, 42¼ in, Øst, g·cm² …"
    assert said.encode("ascii", ALIKE) == b"Zoe Otani, 30 degC, 16.75 deg, 2 +/- 1, 42 1/4 in, Ost, g.cm2 ..."


@pytest.mark.parametrize(
    ("environment", "few"),
    [
        ({}, False), ({"LANG": "en_GB.UTF-8"}, False), ({"LANG": "C"}, True), ({"LC_ALL": "POSIX"}, True),
        ({"LANG": "C", "LC_CTYPE": "C.UTF-8"}, True), ({"LC_ALL": "C.UTF-8", "LANG": "C"}, False),
        ({"LANG": "en_GB.UTF-8", "LC_CTYPE": "C"}, True), ({"LC_CTYPE": "C.UTF-8"}, False),
    ],
)  # fmt: skip
def test_who_asked_for_seven_bits(environment: dict[str, str], few: bool) -> None:
    assert seven_bit_locale(environment) is few
