"""`turfpair calc calibrate`: a shop's file of finished clubs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from interview.commands.main import main
from rules.units import swing_weight_name

Capture = pytest.CaptureFixture[str]
SETBACK, GLUE, RULER = 0.9, 4.5, 0.1
"""Planted: in, g, in."""
BUILDS = (
    (43, 212, 62, 20.9, 50),
    (42.5, 217, 66, 20.7, 46),
    (42, 222, 71, 20.5, 52),
    (41.5, 228, 58, 20.3, 50),
    (41, 232, 75, 20.1, 44),
    (40, 238, 80, 19.9, 48),
)
"""Official length, head, cut shaft, its balance from the club's butt, grip: invented."""


def club(number: int, *, plane: bool) -> str:
    """One club as its maker would write it down, its swing weight worked out beside the program."""
    length, head, shaft, centre, grip = BUILDS[number]
    moment = (
        head * (length - SETBACK - 14)
        + shaft * (centre - 14)
        + grip * (4 - 14)
        + GLUE * (length - 2.375 - 14)
    )
    points = (moment / 28.349523125 - 213.5) / 1.75
    lines = [
        "[[club]]",
        f'name = "build {number + 1}"',
        f'head = "{head} g"',
        f'shaft = "{shaft} g"',
        f'shaft_balance = "{centre - 0.125} in"',
        f'grip = "{grip} g"',
        f'length = "{length - RULER} in"',
        f'total = "{head + shaft + grip + GLUE} g"',
        f'swing_weight = "{swing_weight_name(points)}"',
    ]
    return "\n".join([*lines, f'plane_length = "{length} in"'] if plane else lines)


def clubs_file(folder: Path, *, plane: bool = True) -> Path:
    path = folder / "clubs.toml"
    path.write_text("\n\n".join(club(n, plane=plane) for n in range(6)), encoding="utf-8")
    return path


def test_six_builds_give_back_what_was_planted(tmp_path: Path, capsys: Capture) -> None:
    assert main(["calc", "calibrate", str(clubs_file(tmp_path)), "--json"]) == 0
    got = json.loads(capsys.readouterr().out)
    assert set(got) == {"setback_in", "glue_and_ferrule_g", "ruler_offset_in", "residual_points"}
    # readings are written to a tenth of a point, which is 0.02 in of setback
    assert got["setback_in"] == pytest.approx(SETBACK, abs=0.02)
    assert got["glue_and_ferrule_g"] == pytest.approx(GLUE, abs=0.05)
    assert got["ruler_offset_in"] == pytest.approx(RULER, abs=0.005)
    assert got["residual_points"] < 0.1


def test_what_the_clubs_cannot_tell_is_null_and_said(tmp_path: Path, capsys: Capture) -> None:
    path = str(clubs_file(tmp_path, plane=False))
    assert main(["calc", "calibrate", path, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["ruler_offset_in"] is None
    assert main(["calc", "calibrate", path]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "ruler reads short by not told" in said
    assert "cannot tell the ruler offset; 0.125 in is kept" in said
    assert "Check it on the scale" in said


def test_total_and_balance_point_serve_as_well(tmp_path: Path, capsys: Capture) -> None:
    lines = []
    for length, head, shaft, centre, grip in BUILDS:
        total = head + shaft + grip + GLUE
        moment = head * (length - SETBACK - 14) + shaft * (centre - 14) - grip * 10 + GLUE * (length - 16.375)
        lines.append(
            f"[[club]]\nhead = {head}\nshaft = {shaft}\nshaft_balance = {centre - 0.125}\ngrip = {grip}\n"
            f"plane_length = {length}\ntotal = {total}\nbalance_point = {14 + moment / total:.4f}"
        )
    path = tmp_path / "clubs.toml"
    path.write_text("\n".join(lines), encoding="utf-8")
    assert main(["calc", "calibrate", str(path), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["setback_in"] == pytest.approx(SETBACK, abs=0.005)


def test_help_shows_a_file_that_works(tmp_path: Path, capsys: Capture) -> None:
    assert main(["calc", "calibrate", "--help"]) == 0
    shown = capsys.readouterr().out.partition("[[club]]")[2]
    keys = [line.split("=")[0].strip() for line in shown.splitlines() if "=" in line]
    assert {"head", "shaft", "grip", "length", "plane_length", "total", "swing_weight"} <= set(keys)
    path = tmp_path / "clubs.toml"
    example = "[[club]]" + shown
    path.write_text("\n".join((example, example.replace("218 g", "226 g"))), encoding="utf-8")
    assert main(["calc", "calibrate", str(path)]) == 0


GOOD = 'head = "212 g"\nshaft = "65 g"\nshaft_length = "41 in"\ngrip = "50 g"\nlength = "43 in"\n'


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "this file is empty"),
        ("club = 3", "no [[club]] tables here"),
        ("[[clubs]]\nhead = 1", "'clubs' is not known here"),
        ("[[club]]\nhed = 212", "line 2, column 1: 'hed' is not a key of a club; did you mean 'head'?"),
        ("[[club]]\nhead = [212]", "head: a number with its unit is wanted"),
        ("[[club]]\nhead = true", "head: "),
        ('[[club]]\nhead = "212 yd"', "a mass is wanted"),
        ("[[club]]\nhead = nan", "is not a finite number"),
        ('[[club]]\nshaft = "65 g"', "has no head"),
        (f"[[club]]\n{GOOD}balance_point = 30", "has no total to go with its balance point"),
        (f"[[club]]\n{GOOD}", "0 balance readings of finished clubs are too few"),
        (f"[[club]]\n{GOOD.replace('212', '-212')}", "mass of the head of 'club 1' is -212 g"),
        (f"[[club]]\n{GOOD.replace('41 in', '41 g')}", "a length is wanted"),
        (f"[[club]]\n{GOOD.replace('length = ', 'longness = ')}", "is not a key of a club"),
    ],
)
def test_a_bad_file_is_one_line(text: str, said: str, tmp_path: Path, capsys: Capture) -> None:
    path = tmp_path / "clubs.toml"
    path.write_text(text, encoding="utf-8")
    assert main(["calc", "calibrate", str(path)]) == 2
    err = capsys.readouterr().err
    assert said in err
    assert err.count("\n") == 1
