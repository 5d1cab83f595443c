"""Balls logged line by line: whose ball is next, what it changes, and nothing lost."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from interview.commands.ask.balls import Named, named_club
from interview.commands.ask.lines import Lines
from interview.commands.ask.talk import LineTalk
from interview.conversation import Conversation
from interview.session import load
from interview.store import Store
from interview.views.trial.live import live_lines
from rules.evidence.change import pick
from rules.evidence.protocol import Ball, Protocol, ProtocolProblem
from rules.facts.subject import Subject
from rules.fitting import House, Outcome, fit

SAMPLE = Path(__file__).parents[2] / "sample_sessions" / "thin-off-tight-turf.toml"
Talk = Callable[..., tuple[str, Path]]


@pytest.fixture
def talk(house: House, tmp_path: Path) -> Talk:
    """Say lines to the interview of a sample session; returns what it said and the kept file."""

    def go(*said: str, session: Path | str = SAMPLE, voice: str = "fitter") -> tuple[str, Path]:
        store = Store(tmp_path / "store")
        draft = store.open(str(session), house.base.facts)
        draft.session = replace(draft.session, voice=voice)  # type: ignore[arg-type]
        out = io.StringIO()
        lines = Lines(io.StringIO("\n".join(said) + "\n"), out)
        LineTalk(Conversation.of(house), draft, lines, "imperial").run()
        return " ".join(out.getvalue().split()), draft.file

    return go


def shots(file: Path, house: House) -> list[tuple[str, str | None]]:
    return [(shot.club, shot.outcome) for shot in load(file, house.base.facts).subject.shots]


def test_six_balls_a_club_in_turn_each_kept_and_told(talk: Talk, house: House) -> None:
    keys = ["2", "1", "2", "4 172", "4 168, 3 left", "4 170 6 toe 2 low", "4", "3", "4", "2", "2", "1"]
    text, file = talk("balls", "his 3-wood; demo = fairway 18.75", *keys, "", "quit")
    assert shots(file, house) == [("his 3-wood", "thin"), ("his 3-wood", "topped"), ("his 3-wood", "thin"),
        ("demo", "up"), ("demo", "up"), ("demo", "up"), ("demo", "up"), ("demo", "fat"), ("demo", "up"),
        ("his 3-wood", "thin"), ("his 3-wood", "thin"), ("his 3-wood", "topped")]  # fmt: skip
    for said in ("his 3-wood, ball 1 of 6 (3 left in this block)", "Change to demo", "Change to his 3-wood",
                 "Failed: fewer than four of six", "Passed: four of six", "Every club has had its balls",
                 "Delivered less stamped loft", "Pick "):  # fmt: skip
        assert said in text
    kept = load(file, house.base.facts).subject
    assert kept.trial_clubs[0].name == "demo"
    assert kept.shots[4].side is not None
    assert kept.shots[5].toe is not None


def test_a_ball_is_kept_before_the_next_is_asked_for(talk: Talk, house: House) -> None:
    _, file = talk("balls", "his 3-wood", "4")
    assert shots(file, house) == [("his 3-wood", "up")]


def test_a_trial_is_taken_up_where_it_was_left(talk: Talk, house: House) -> None:
    _, file = talk("balls", "his 3-wood; demo h = hybrid 21", "4", "4", "stop", "quit")
    text, file = talk("balls", "4", "stop", "quit", session=file.stem)
    assert "his 3-wood, ball 3 of 6 (1 left in this block)" in text
    assert len(shots(file, house)) == 3


def test_undo_takes_back_the_last_ball_and_no_other(talk: Talk, house: House) -> None:
    text, file = talk("balls", "his 3-wood", "undo", "4", "1", "undo", "stop", "quit")
    assert shots(file, house) == [("his 3-wood", "up")]
    assert "There is no ball to take back" in text
    assert "Taken back" in text


def test_orders_beside_balls(talk: Talk, house: House) -> None:
    text, file = talk(
        "balls", "his 3-wood", "mat", "indoors", "4", "outdoors", "turf", "4", "club demo fairway 18", "4",
        "help", "more", "nonsense", "4 5", "stop", "quit",
    )  # fmt: skip
    kept = load(file, house.base.facts).subject.shots
    assert [(s.club, s.surface, s.indoors) for s in kept] == [
        ("his 3-wood", "mat", True), ("his 3-wood", "turf", False), ("demo", "turf", False),
    ]  # fmt: skip
    for said in (
        "noted as off a mat indoors",
        "Six more with each club",
        "begin with 1 topped",
        "'5 left' or",
    ):
        assert said in text
    assert "ball 3 of 12" in text


def test_nobody_hits_balls_who_hurts(talk: Talk, tmp_path: Path) -> None:
    hurt = tmp_path / "hurt.toml"
    hurt.write_text(
        SAMPLE.read_text(encoding="utf-8").replace('pain = "no"', 'pain = "yes"'), encoding="utf-8"
    )
    text, _ = talk("balls", "quit", session=hurt)
    assert "No balls: swinging hurts" in text
    assert "One swinger in the bay" not in text


def test_safety_is_said_before_the_first_ball(talk: Talk) -> None:
    text, _ = talk("balls", "his 3-wood", "stop", "quit")
    assert text.index("One swinger in the bay") < text.index("ball 1 of 6")


def test_no_club_no_balls(talk: Talk, house: House) -> None:
    for answer in ("", "stop"):
        text, file = talk("balls", answer, "quit")
        assert "No club was named" in text
        assert not file.exists() or shots(file, house) == []


def test_the_golfer_hears_plain_words(talk: Talk) -> None:
    text, _ = talk("balls", "his 3-wood", "2", "1", "1", "2", "stop", "quit", voice="customer")
    for jargon in ("Delivered", "stamped", "Pick ", "scatter"):
        assert jargon not in text[text.index("Hit six balls") :]
    assert "The advice" in text


@pytest.mark.parametrize(
    ("typed", "club"),
    [
        ("HIS 3-Wood", Named("his 3-wood")),
        ("his 3-wood 15", Named("his 3-wood")),
        ("demo = fairway 18", Named("demo", "fairway", "18")),
        ("demo 5: hybrid 21.5 deg", Named("demo 5", "hybrid", "21.5")),
        ("a new hybrid", Named("a new", "hybrid", None)),
        ("shop 5-wood", Named("shop 5-wood", "fairway", None)),
        ("hybrid", Named("hybrid", "hybrid", None)),
    ],
)
def test_clubs_as_people_name_them(typed: str, club: Named) -> None:
    assert named_club(typed, {"his 3-wood": "his 3-wood"}) == club


def test_a_club_without_its_kind_is_asked_for_it() -> None:
    with pytest.raises(ProtocolProblem, match="add fairway or hybrid"):
        named_club("demo 18", {})


def test_what_a_ball_changes_is_read_from_two_runs_of_the_road(
    house: House, subject: Callable[..., Subject]
) -> None:
    club = {"name": "demo", "kind": "fairway", "loft": "15 deg"}
    trial, before = Protocol(("demo",)), fit(house, subject({"handicap": 12}, trial_clubs=[club]))
    assert live_lines(before, before, trial) == ()
    changes = 0
    rows: list[dict[str, object]] = []
    for _ in range(6):
        trial = trial.struck(Ball("topped"))
        rows.append(trial.last_row())
        after: Outcome = fit(house, subject({"handicap": 12}, trial_clubs=[club], shots=rows))
        lines = live_lines(before, after, trial)
        said = " ".join(lines)
        assert lines[0] == f"demo: 0 of {len(rows)} up (topped {len(rows)})."
        assert ("Pick changes" in said) == (pick(before) != pick(after))
        assert ("Failed" in said) == (len(rows) >= 3)
        changes += "Pick changes" in said
        before = after
    assert changes >= 1
    on_mat = live_lines(before, before, trial.on("mat"))
    assert "asked off turf" in " ".join(on_mat)
