"""A trial of few balls, of unlike ground, of balls that cannot be read: what is told, and what is not."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from interview.commands.main import main

SAMPLE = Path(__file__).parents[2] / "sample_sessions" / "thin-off-tight-turf.toml"
HEAD = "club,kind,loft,outcome,carry_yd,side_yd,toe_mm,high_mm,surface,indoors\n"
FIVE, SEVEN = "demo 5-wood,fairway,18 deg", "demo 7-wood,fairway,21 deg"


@pytest.fixture
def tell(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Callable[..., Any]:
    """Take the balls of a table in and return what is told: on one line, or as JSON."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))

    def go(*rows: str, voice: str = "fitter", as_json: bool = False) -> Any:
        session, shots = tmp_path / "one.toml", tmp_path / "balls.csv"
        session.write_text(SAMPLE.read_text(encoding="utf-8").replace('"fitter"', f'"{voice}"'), "utf-8")
        shots.write_text(HEAD + "".join(f"{row}\n" for row in rows), encoding="utf-8")
        words = ["--json"] if as_json else []
        assert (
            main(["trial", str(session), "--shots", str(shots), "--sessions", str(tmp_path / "s"), *words])
            == 0
        )
        out = capsys.readouterr().out
        return json.loads(out) if as_json else " ".join(out.split())

    return go


def test_one_ball_is_one_ball(tell: Callable[..., Any]) -> None:
    said = tell(f"{FIVE},up,165 yd,0,2,1,turf,no")
    assert "One ball was taken in from balls.csv." in said
    assert "got up 1 of 1" in said
    assert "the balls only say which way (1); now" in tell(f"{FIVE},topped,40 yd,0,,,turf,no")
    assert "1 balls" not in tell(f"{FIVE},up,165 yd,0,2,1,turf,no", voice="customer")
    assert "1 ball, off turf; teed and not counted 1" in tell(
        f"{FIVE},up,165 yd,0,2,1,turf,no", f"{FIVE},up,170 yd,0,2,1,tee,no"
    )
    assert "No ball was taken in from balls.csv." in tell(f"{FIVE},sideways,165 yd,0,2,1,turf,no")
    assert "marks 2 mm toward the toe, 1 mm high" in said
    assert "AGAINST" not in said, "there is no other club to hold it against"
    (club,) = tell(f"{FIVE},up,165 yd,0,2,1,turf,no", as_json=True)["clubs"]
    assert (club["usable"]["number"], club["usable"]["of"], club["strike_mm"]["marks"]) == (1, 1, 1)


def test_unlike_ground_is_never_compared_and_is_minded(tell: Callable[..., Any]) -> None:
    rows = [f"{FIVE},up,16{n} yd,{n},,,mat,yes" for n in range(4)]
    rows += [f"{SEVEN},up,15{n} yd,{n},,,tee,no" for n in range(4)]
    said = tell(*rows)
    assert "4 balls, off a mat" in said
    assert said.count("the two were hit from different ground, so there is no fair comparison.") == 3
    mind = said.partition("MIND")[2]
    assert "mat" in mind
    assert "tee" in mind
    plain = tell(*rows, voice="customer")
    assert "no fair comparison" not in plain, "a golfer is not told what could not be compared"


def test_balls_that_cannot_be_read_are_listed_and_then_counted(tell: Callable[..., Any]) -> None:
    said = tell(f"{FIVE},up,165 yd,0,,,turf,no", *[f"{FIVE},sideways,1 yd,1,,,turf,no"] * 14)
    assert "Line 3 is left out: outcome: 'sideways' is not one of topped, thin, fat or up." in said
    assert "and 2 more, from line 15 on" in said


def test_clubs_that_did_the_same_are_said_to_be_the_same(tell: Callable[..., Any]) -> None:
    rows = [f"{club},up,16{n % 5} yd,{n % 3},,,turf,no" for club in (FIVE, SEVEN) for n in range(8)]
    found = {one["measure"]: one for one in tell(*rows, as_json=True)["comparisons"]}
    assert (found["carry"]["difference"], found["side"]["difference"]) == (0, 0)
    said = tell(*rows).partition("AGAINST demo 5-wood")[2]
    assert "Balls that get up: 8 of 8 against 8 of 8." in said
    assert "Carry: the same on average" in said
    assert "Side: the same on average" in said
    assert "Marks: not noted for both clubs." in said


def test_balls_of_which_only_marks_were_read_say_nothing_of_carry(tell: Callable[..., Any]) -> None:
    rows = [f"{FIVE},,,,{n},{-n},turf,no" for n in range(5)]
    (club,) = tell(*rows, as_json=True)["clubs"]
    assert (club["carry_yd"], club["usable"], club["side_yd"]) == (None, None, None)
    assert club["strike_mm"]["marks"] == 5
    assert "carry" not in tell(*rows).partition("BELIEVED")[0].partition("demo 5-wood (18 degrees)")[2]
