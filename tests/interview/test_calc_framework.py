"""The frame of `turfpair calc`: laziness, minus signs, unquoted words, JSON and one-line refusals."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from interview.commands import calc
from interview.commands.main import main

Capture = pytest.CaptureFixture[str]


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        (["--attack", "-3 deg"], ["--attack=-3 deg"]),
        (["--attack", "-3", "deg"], ["--attack=-3 deg"]),
        (["--attack=-3deg"], ["--attack=-3deg"]),
        (["--attack", "-.5"], ["--attack=-.5"]),
        (["--from", "43", "in", "--to", "42", "in"], ["--from", "43 in", "--to", "42 in"]),
        (["--from", "43 1/4", "in"], ["--from", "43 1/4 in"]),
        (["--face", "2", "deg", "closed"], ["--face", "2 deg closed"]),
        (["--face", "square"], ["--face", "square"]),
        (["clubs.toml", "--json"], ["clubs.toml", "--json"]),
        (["--port", "heel=12", "g", "--hand", "left"], ["--port", "heel=12 g", "--hand", "left"]),
        ([], []),
    ],
)
def test_values_are_joined_to_their_options_and_units(typed: list[str], read: list[str]) -> None:
    assert calc.joined(typed) == read


def test_every_calculation_that_is_here_can_be_loaded_and_is_documented(capsys: Capture) -> None:
    for name in ("balance", "shorten", "ports", "bore", "loft", "calibrate"):
        assert calc.load(name).HELP
        assert main(["calc", name, "--help"]) == 0
        out = capsys.readouterr().out
        assert f"usage: turfpair calc {name}" in out
        assert "--json" in out


def test_only_the_module_asked_for_is_imported() -> None:
    program = (
        "import sys; from interview.commands.main import main; "
        "main(['calc', 'bore', '--hosel-length', '2.375 in', '--insertion', '1.125 in']); "
        "print(sorted(m for m in sys.modules if m.startswith(('interview.commands.calc.', 'rules.'))), "
        "[m for m in ('textual', 'rich', 'numpy', 'pydantic') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    loaded = done.stdout.splitlines()[-1]
    assert "interview.commands.calc.bore" in loaded
    for absent in ("calc.ports", "calc.loft", "rules.golf", "rules.bench.ports", "'numpy'", "'textual'"):
        assert absent not in loaded


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["loft", "--loft", "18 deg"], "the following arguments are required: --face"),
        (["loft", "--loft", "18 mm", "--face", "square"], "--loft: '18 mm' is a length; an angle is wanted"),
        (["loft", "--loft", "0 deg", "--face", "square"], "the loft is 0 deg; it must lie between"),
        (["loft", "--loft", "nan", "--face", "square"], "--loft: 'nan' does not start with a number"),
        (["loft", "--loft", "1e400", "--face", "square"], "--loft: "),
        (["loft", "--lo", "18", "--face", "square"], "the following arguments are required: --loft"),
        (["balance", "--mass", "-390 g", "--point", "29.5 in"], "mass of the club is -390 g"),
        (["balance"], "give either --mass and --point"),
        (["balance", "--mass", "390 g"], "wants both --mass and --point"),
        (["balance", "--part", "215 g"], "is not a mass and a place"),
        (["balance", "--part", "-5 g @ 3 in"], "mass of the part is -5 g"),
        (["bore", "--hosel-length", "1 in", "--insertion", "2 in"], "cannot be deeper than the hosel"),
        (["bore", "--insertion", "1 in"], "--hosel-length is missing"),
        (["bore"], "give either --hosel-length"),
        (
            ["shorten", "--from", "42 in", "--to", "43 in", "--head-mass", "212", "--shaft-mass", "65"],
            "must not exceed the old one",
        ),
        (["calibrate", "no-such-file.toml"], "there is no such file"),
    ],
)
def test_bad_input_is_one_line_and_status_2(words: list[str], said: str, capsys: Capture) -> None:
    assert main(["calc", *words]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err
    assert err.count("\n") == 1


def test_json_is_strict(capsys: Capture) -> None:
    assert main(["calc", "balance", "--mass", "390 g", "--point", "29.5 in", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["inertia_kg_cm2"] is None


def test_notes_fit_eighty_columns(capsys: Capture) -> None:
    main(["calc", "shorten", "--from", "43", "--to", "41", "--head-mass", "212", "--shaft-mass", "65"])
    main(["calc", "loft", "--loft", "18 deg", "--face", "2 deg closed"])
    main(["calc", "bore", "--shaft-length", "45 in", "--length-with-head", "46.25 in"])
    assert all(len(line) <= 80 for line in capsys.readouterr().out.splitlines())


def test_tables_line_up() -> None:
    text = calc.table(("", "one"), [("long name", "1"), ("x", "222")])
    assert text.splitlines() == ["              one", "  long name     1", "  x           222"]


def test_tidy_takes_away_binary_dust_and_minus_nought() -> None:
    assert calc.tidy(1.2500000000000002) == 1.25
    assert str(calc.tidy(-1e-12)) == "0.0"
