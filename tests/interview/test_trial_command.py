"""`turfpair trial`: taken in once, kept in the store, told in three voices and as JSON, and it replays."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from interview.commands.main import main
from interview.session import load
from rules.evidence.table import read_shots
from rules.evidence.trial import trial
from rules.fitting import House, fit

ROOT = Path(__file__).parents[2]
CHANGES = ("fast-and-centred", "a-three-wood-that-stays-down")
STAYS = ("thin-off-tight-turf", "the-longest-ball-of-the-day")
Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    """Run the command with a store of its own; returns status, output and errors."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))

    def go(*words: str) -> tuple[int, str, str]:
        status = main(["trial", *words, "--sessions", str(tmp_path / "store")])
        out, err = capsys.readouterr()
        return status, out, err

    return go


def files(names: tuple[str, str], tmp_path: Path, voice: str = "fitter") -> tuple[str, str]:
    """A sample session in a voice, outside the store, and its balls."""
    session = tmp_path / f"{names[0]}.toml"
    text = (ROOT / "sample_sessions" / f"{names[0]}.toml").read_text(encoding="utf-8")
    session.write_text(text.replace('voice = "fitter"', f'voice = "{voice}"'), encoding="utf-8")
    return str(session), str(ROOT / "sample_sessions" / "trials" / f"{names[1]}.csv")


@pytest.mark.parametrize("voice", ["fitter", "customer", "trainer"])
@pytest.mark.parametrize(("names", "changed"), [(CHANGES, True), (STAYS, False)])
def test_one_trial_changes_the_pick_and_one_rightly_does_not(
    run: Run, tmp_path: Path, voice: str, names: tuple[str, str], changed: bool
) -> None:
    session, shots = files(names, tmp_path, voice)
    status, text, err = run(session, "--shots", shots)
    assert (status, err) == (0, "")
    plain = {True: "changed our advice", False: "stays as it was"}
    trade = {True: "Changed: ", False: "Stays: "}
    assert (plain if voice == "customer" else trade)[changed] in " ".join(text.split())
    assert max(map(len, text.splitlines()[1:])) <= 80
    assert ("deals" in text or "ways of dealing" in text) == (voice == "trainer")
    if voice == "customer":
        said = " ".join(text.split()).lower()
        for jargon in ("carry", "delivered", "attack", "scatter", "p-value", "swing weight", "±", " deg "):
            assert jargon not in said, jargon
    else:
        assert "the balls weigh" in " ".join(text.split())


def test_what_is_called_and_what_is_not(run: Run, tmp_path: Path) -> None:
    calls = {}
    for names in (CHANGES, STAYS):
        session, shots = files(names, tmp_path)
        data = json.loads(run(session, "--shots", shots, "--json")[1])
        calls[names] = {one["measure"]: one["verdict"] for one in data["comparisons"]}
        assert data["recommendation"]["changed"] == (names == CHANGES)
    assert calls[CHANGES] == {"usable": "differs", "carry": "differs", "side": "same", "scatter": "open"}
    assert set(calls[STAYS].values()) == {"open"}
    # The longest ball of the day was the stronger club's, and it does not win.
    best = json.loads(run(*files(STAYS, tmp_path)[:1], "--shots", files(STAYS, tmp_path)[1], "--json")[1])
    up = {club["club"]: club["usable"]["number"] for club in best["clubs"]}
    assert up["his 3-wood"] < up["demo 5-wood"]


def test_a_file_outside_the_store_is_never_written(run: Run, tmp_path: Path) -> None:
    session, shots = files(STAYS, tmp_path)
    before = Path(session).read_text(encoding="utf-8")
    status, text, _ = run(session, "--shots", shots)
    assert status == 0
    assert "left as it is" in text
    assert Path(session).read_text(encoding="utf-8") == before
    kept = tmp_path / "store" / "thin-off-tight-turf.toml"
    assert kept.read_text(encoding="utf-8").count("[[shots]]") == 12
    assert kept.read_text(encoding="utf-8").count("[[trial_clubs]]") == 1


def test_in_place_writes_the_file_itself(run: Run, tmp_path: Path) -> None:
    session, shots = files(STAYS, tmp_path)
    assert run(session, "--shots", shots, "--in-place")[0] == 0
    assert Path(session).read_text(encoding="utf-8").count("[[shots]]") == 12
    assert not (tmp_path / "store").exists() or not list((tmp_path / "store").glob("*.toml"))


def test_the_same_balls_are_never_taken_in_twice(run: Run, tmp_path: Path) -> None:
    session, shots = files(STAYS, tmp_path)
    run(session, "--shots", shots)
    status, text, _ = run("thin-off-tight-turf", "--shots", shots)
    assert status == 0
    assert "in the session already" in " ".join(text.split())
    kept = tmp_path / "store" / "thin-off-tight-turf.toml"
    assert kept.read_text(encoding="utf-8").count("[[shots]]") == 12


def test_what_was_kept_replays_to_the_same_outcome(run: Run, tmp_path: Path, house: House) -> None:
    session, shots = files(CHANGES, tmp_path)
    first = json.loads(run(session, "--shots", shots, "--json")[1])
    again = json.loads(run("fast-and-centred", "--json")[1])
    for key in ("clubs", "comparisons", "beliefs", "recommendation", "remarks"):
        assert again[key] == first[key]
    kept = load(tmp_path / "store" / "fast-and-centred.toml", house.base.facts)
    assert fit(house, kept.subject).picked.id == first["recommendation"]["after"]["pick"]  # type: ignore[union-attr]
    text = Path(shots).read_text(encoding="utf-8")
    fresh = load(Path(session), house.base.facts)
    rows = read_shots(text, house.base.facts, fresh.written)
    assert len(rows.rows) == len(kept.subject.shots)
    assert trial(house, kept.subject).change.pick_changed


def test_saved_balls_read_back_to_the_same_trial(run: Run, tmp_path: Path) -> None:
    session, shots = files(CHANGES, tmp_path)
    saved = tmp_path / "balls.csv"
    first = json.loads(run(session, "--shots", shots, "--save", str(saved), "--json")[1])
    copy = tmp_path / "again.toml"
    shutil.copy(session, copy)
    again = json.loads(run(str(copy), "--shots", str(saved), "--json")[1])
    assert again["comparisons"] == first["comparisons"]
    assert again["recommendation"]["after"]["pick"] == first["recommendation"]["after"]["pick"]


def test_json_names_its_units_and_holds_no_infinity(run: Run, tmp_path: Path) -> None:
    session, shots = files(CHANGES, tmp_path)
    data = json.loads(run(session, "--shots", shots, "--json")[1])
    assert set(data) == {
        "schema", "session", "rules_digest", "import", "clubs", "comparisons", "level", "beliefs",
        "recommendation", "remarks", "notices",
    }  # fmt: skip
    demo = next(club for club in data["clubs"] if club["club"] == "demo 5-wood")
    assert demo["loft_deg"] == 19
    assert demo["carry_yd"]["all"]["value"] == pytest.approx(210.5)
    assert demo["carry_yd"]["poorer_third"] == pytest.approx(205.5)
    assert demo["readings"]["ball_speed_mph"] == pytest.approx(145.5)
    assert demo["delivery"]["loft_deg"]["value"] < 19
    assert data["import"]["added"] == 12
    assert data["import"]["columns"]["Toe (mm)"] == "toe_mm"
    assert data["session"] == "fast-and-centred"


def test_bad_rows_are_told_by_their_line(run: Run, tmp_path: Path) -> None:
    session, _ = files(STAYS, tmp_path)
    bad = tmp_path / "bad [b].csv"
    bad.write_text("club,carry,outcome,Wind\nhis 3-wood,170,up,3\nhis 3-wood,fast,up,1\nx\x1b[31m,1,up,1\n")
    status, text, _ = run(session, "--shots", str(bad))
    assert status == 0
    flat = " ".join(text.split())
    assert "Line 3 is left out: carry: 'fast' is not a number." in flat
    assert "Line 4 is left out" in flat
    assert "Columns that were not used: Wind." in flat
    assert "One ball was taken in" in flat
    assert "\x1b" not in text


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"hello\n1\n", "no line of headings"),
        (b"", "no line of headings"),
        (b"club,carry\n", "no balls below"),
    ],
)
def test_tables_that_cannot_be_used_are_one_line(run: Run, tmp_path: Path, content: bytes, says: str) -> None:
    session, _ = files(STAYS, tmp_path)
    bad = tmp_path / "bad.csv"
    bad.write_bytes(content)
    status, out, err = run(session, "--shots", str(bad))
    assert (status, out) == (2, "")
    assert says in err
    assert err.count("\n") == 1


def test_a_file_that_is_not_there_is_one_line(run: Run, tmp_path: Path) -> None:
    session, _ = files(STAYS, tmp_path)
    status, _, err = run(session, "--shots", str(tmp_path / "no.csv"))
    assert status == 2
    assert err.count("\n") == 1
    status, _, err = run(session, "--against", "nobody", "--shots", files(STAYS, tmp_path)[1])
    assert status == 2
    assert "no ball was hit with a club called 'nobody'" in err


def test_a_table_in_the_letters_of_windows_is_read(run: Run, tmp_path: Path) -> None:
    session, _ = files(STAYS, tmp_path)
    table = tmp_path / "umlaut.csv"
    table.write_bytes("club;kind;carry;outcome\nGrün;hybrid;150;up\n".encode("cp1252"))
    status, text, _ = run(session, "--shots", str(table))
    assert status == 0
    assert "Grün" in text


def test_pain_is_told_before_anything_else(run: Run, tmp_path: Path) -> None:
    session, shots = files(STAYS, tmp_path)
    text = Path(session).read_text(encoding="utf-8").replace('pain = "no"', 'pain = "yes"')
    Path(session).write_text(text, encoding="utf-8")
    said = run(session, "--shots", shots)[1]
    assert said.split("\n\n", 1)[1].startswith("Stop here: swinging hurts you.")


def test_without_balls_it_says_so(run: Run, tmp_path: Path) -> None:
    session, _ = files(STAYS, tmp_path)
    status, text, _ = run(session)
    assert status == 0
    assert text.strip() == "No ball has been hit yet; there is nothing to compare."


def test_metric_units_govern_the_words_alone(run: Run, tmp_path: Path) -> None:
    session, shots = files(STAYS, tmp_path)
    run(session, "--shots", shots)
    yards, metres = (run("thin-off-tight-turf", "--units", units)[1] for units in ("imperial", "metric"))
    assert " yd" in yards
    assert " yd" not in metres
    data: list[Any] = [
        json.loads(run("thin-off-tight-turf", "--json", "--units", units)[1])["clubs"]
        for units in ("imperial", "metric")
    ]
    assert data[0] == data[1]
