"""`turfpair whatif`: both outcomes side by side, and what cannot be read."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from interview.commands.main import main

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
SAMPLE = str(SAMPLES / "fast-and-centred.toml")


def test_only_what_differs_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["whatif", SAMPLE, "driver_speed=85mph", "handicap=25", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["before"]["pick"] != found["after"]["pick"]
    assert {"driver_speed", "handicap"} <= {one["fact"] for one in found["facts"]}
    assert all(one["before"] != one["after"] for one in (*found["facts"], *found["decisions"]))
    assert found["facts"][0]["fact"] in ("driver_speed", "handicap")


@pytest.mark.parametrize("voice", ["fitter", "customer", "trainer"])
def test_every_voice_tells_it_within_the_page(
    voice: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    file = tmp_path / "one.toml"
    file.write_text(
        Path(SAMPLE).read_text(encoding="utf-8").replace('"fitter"', f'"{voice}"'), encoding="utf-8"
    )
    assert main(["whatif", str(file), "contact=heel, scattered", "tempo=unknown", "wind="]) == 0
    said = capsys.readouterr().out
    assert "WHAT IS CHANGED" in said
    assert "WHAT COMES OF IT" in said
    assert max(map(len, said.splitlines())) <= 80
    assert ("(fairway-" in said) == (voice != "customer")


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ("handicap", "write it as FACT=VALUE"),
        ("handycap=3", "did you mean 'handicap'"),
        ("handicap=lots", "handicap"),
        ("driver_speed=900 mph", "outside what is possible"),
    ],
)
def test_what_cannot_be_read_is_one_sentence(
    change: str, says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["whatif", SAMPLE, change]) == 2
    err = capsys.readouterr().err
    assert says in err
    assert len(err.strip().splitlines()) == 1


def test_the_session_is_not_written(capsys: pytest.CaptureFixture[str]) -> None:
    before = Path(SAMPLE).read_bytes()
    assert main(["whatif", SAMPLE, "handicap=+2"]) == 0
    assert Path(SAMPLE).read_bytes() == before
