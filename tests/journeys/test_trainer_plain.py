"""A lesson through the installed command in a pipe: predict, walk, ask, change, map, edit, and the class."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from rules.house import KNOWLEDGE, load_house

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
TURFPAIR = Path(sys.executable).with_name("turfpair")

LESSON = """\
case thin-off-tight-turf
predict
fairway-19 + hybrid-22.5
facts
airborne_of_six, no such thing
airborne_of_six, handicap
predict longer.length
41 1/4 in
confidence over a fairway wood, handicap, contact
step longer.length

back


leave
exercise claim
1
exercise reading
heavy
D0
change handicap=4
flip driver_speed
70 mph
tell
map tempo
edit thin-strikes-shorten effect.adjust = -1 kg
edit thin-strikes-shorten effect.adjust = -1 in
effect
replay
save {copy}
fly me to the moon
class
summary
again
quit
"""


def lesson(tmp_path: Path, typed: str, *words: str) -> subprocess.CompletedProcess[str]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith("TURFPAIR_")}
    environment = {**kept, "XDG_STATE_HOME": str(tmp_path / "state"), "TERM": "dumb"}
    return subprocess.run(
        [TURFPAIR, "trainer", *words],
        input=typed,
        capture_output=True,
        text=True,
        env=environment,
        timeout=120,
    )


def test_a_whole_lesson_goes_through_a_pipe(tmp_path: Path) -> None:
    before = {file.name: file.read_bytes() for file in KNOWLEDGE.glob("*.toml")}
    copy, kept = tmp_path / "copy", tmp_path / "class"
    done = lesson(
        tmp_path, LESSON.format(copy=copy), str(SAMPLES), "--plain", "--class", str(kept), "--trainee", "Ann",
        "--seed", "3",
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert "\x1b" not in done.stdout
    said = "".join(done.stdout.split())  # a long folder's name is broken to fit the line
    for sentence in (
        "A near guess: near, but the reasons named moved little of it.",
        "'no such thing' is no fact that can be named here",
        "Sound: right, and for reasons that moved it.",
        "Step 3 of 5, playing length, longer club:",
        "it can be",
        "Which claim cannot be?",
        "the scale reads",
        "Handicap: 18, then 4",
        "Which value of it changes the pair?",
        "abrupt-start-shortens: -1/4 in",
        "It does not load:",
        "The copy loads; entries changed: 1.",
        "Playing length, longer club: 41 1/4 in, then 40 1/2 in",
        "Otherwise than before:",
        f"Use it with --rules and its folder:{copy}",
        "'fly' is not known here",
        "Predict and be marked:",
        "Nothing is due again today.",
        "The lesson ends here.",
    ):
        assert "".join(sentence.split()) in said, sentence
    assert all(len(line) <= 78 or "/" in line for line in done.stdout.splitlines())
    data = tomllib.loads((kept / "class.toml").read_text(encoding="utf-8"))
    assert [one["name"] for one in data["trainee"]] == ["Ann"]
    kinds = [one["kind"] for one in data["attempt"]]
    assert kinds == ["predict", "predict", "claim", "reading", "flip"]
    assert (kept / "summary.csv").read_text(encoding="utf-8").startswith("name,kind,attempts")
    assert load_house(copy).base.rules["thin-strikes-shorten"].effect.amount == -1000
    assert {file.name: file.read_bytes() for file in KNOWLEDGE.glob("*.toml")} == before


def test_a_lesson_goes_on_where_it_is_interrupted_by_nonsense(tmp_path: Path) -> None:
    """Every job is called without what it needs; none ends the lesson, none prints a traceback."""
    jobs = [
        "help",
        "cases",
        "case",
        "next",
        "note",
        "facts",
        "change",
        "map",
        "influence",
        "edit",
        "off",
        "undo",
        "effect",
        "replay",
        "save",
        "trainee",
    ]
    jobs += [
        "class",
        "summary",
        "again",
        "predict nothing",
        "step nothing",
        "flip lies",
        "exercise x",
        "\x1b[2J",
    ]
    done = lesson(tmp_path, "\n".join(jobs) + "\npredict\n", "--plain")
    assert (done.returncode, done.stderr) == (0, "")
    assert "Traceback" not in done.stdout
    assert "\x1b" not in done.stdout
    assert "No class is open" in done.stdout
    assert done.stdout.rstrip().endswith("The lesson ends here.")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "this needs a terminal; 'turfpair trainer --plain'"),
        (["nowhere.toml", "--plain"], "there is no such file"),
        (["--plain", "--class", str(Path(__file__))], "this is a file and not a folder"),
        (["--trainee", "Ann"], "go with --plain"),
    ],
)
def test_what_cannot_be_opened_is_told_in_one_line(tmp_path: Path, words: list[str], told: str) -> None:
    done = lesson(tmp_path, "", *words)
    assert done.returncode == 2
    assert told in done.stderr
    assert done.stderr.count("\n") == 1


def test_a_folder_without_sessions_is_told(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    done = lesson(tmp_path, "", str(tmp_path / "empty"), "--plain")
    assert done.returncode == 2
    assert "there is no case to teach" in done.stderr
