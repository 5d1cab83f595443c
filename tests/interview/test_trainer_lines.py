"""A lesson line by line, held in this process: what each line is answered, and where it leaves off."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, cast

import pytest

from interview.classroom import Attempt, ClassBook
from interview.commands.ask.lines import Lines
from interview.commands.drill.lesson import teach
from interview.commands.drill.sitting import Sitting
from interview.session import load
from rules.fitting import House
from rules.lessons.case import Case, open_case
from rules.lessons.exercises import make
from rules.lessons.influence import influence

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
NOW = datetime(2026, 3, 20, 9, 0, tzinfo=UTC)


class Typed:
    """Lines as somebody types them, and all that is said to him."""

    def __init__(self, typed: Iterable[str]) -> None:
        self._typed = iter(typed)
        self.said: list[str] = []

    def ask(self) -> str | None:
        return next(self._typed, None)

    def say(self, line: str = "", indent: str = "") -> None:
        self.said.append(line)


@pytest.fixture(scope="module")
def cases(house: House) -> tuple[Case, ...]:
    found = []
    for name in ("thin-off-tight-turf", "digger-scattered"):
        session = load(SAMPLES / f"{name}.toml", house.base.facts)
        found.append(open_case(house, session.id, session.subject, session.note))
    return tuple(found)


@pytest.fixture
def lesson(house: House, cases: tuple[Case, ...]) -> Callable[..., str]:
    """Hold a lesson of some lines; all that was said comes back on one line."""

    def hold(*typed: str, **parts: Any) -> str:
        lines = Typed(typed)
        teach(Sitting(cases, house, cast(Lines, lines), lambda: NOW, 3, **parts))
        return " ".join(" ".join(lines.said).split())

    return hold


def test_what_a_fact_moves_is_told_case_by_case(lesson: Callable[..., str], cases: tuple[Case, ...]) -> None:
    moved = influence(cases, "turf_mark")
    said = lesson("influence turf mark")
    assert moved.picks
    assert f"It flips the pair in {moved.picks} of {len(cases)} cases" in said
    assert "Digger scattered: another pair" in said
    shares = influence(cases, "lies")
    assert all(one.tried for one in shares.cases)
    assert f"It flips the pair in {shares.picks} of 2 cases" in lesson("influence lies")


def test_one_case_is_spoken_of_as_one(house: House, cases: tuple[Case, ...]) -> None:
    lines = Typed(["influence handicap", "off thin-strikes-shorten", "replay"])
    teach(Sitting(cases[1:], house, cast(Lines, lines), lambda: NOW, 3))
    said = " ".join(lines.said)
    assert "Lessons line by line: 1 case. " in said
    assert "Working through 1 case." in said
    assert not re.search(r"\b1 cases", said)


def test_predictions_are_asked_for_again_until_they_can_be_read(lesson: Callable[..., str]) -> None:
    said = lesson("predict longer.shaft", "a broomstick", "1", "facts", "driver speed", "predict no.such")
    assert "'a broomstick' is no candidate for the shaft; there are easy-46" in said
    assert "4 driver head speed: 88 mph" in said, "the facts that may be named, with what was said of each"
    assert "predicted Easy 46 L; the rules decided" in said
    assert "'no.such' is not decided here; there are pairing, longer.head" in said


def test_predicting_all_goes_on_until_it_is_left_and_is_marked_as_a_whole(lesson: Callable[..., str]) -> None:
    two = lesson("predict all", "fairway-19+hybrid-22.5", "handicap", "1", "handicap", "")
    assert "predicted 5-wood 18.8° + 4-hybrid 22.5°; the rules decided" in two
    assert "head and face height, longer club: what will the rules decide?" in two
    assert re.search(r"Left as it was\. All that was predicted: \d+ %\.", two)


def test_the_walk_through_everything_goes_forward_back_and_ends(lesson: Callable[..., str]) -> None:
    said = lesson("step", "skip", "back", "skip", "leave", "step longer.lie", *[""] * 40)
    steps = re.findall(r"Step (\d+) of (\d+), ([a-z ]+)", said)
    assert [(at, title) for at, _, title in steps[:4]] == [
        ("1", "pairing"), ("1", "head and face height"),
        (steps[0][1], "pairing"), ("1", "head and face height"),
    ]  # fmt: skip
    assert steps[-1][0] == steps[-1][1], "walked to its last step"
    assert "That was the last step; the ledger is complete." in said


def test_a_flip_is_guessed_until_it_is_told_and_nonsense_is_no_guess(
    lesson: Callable[..., str], tmp_path: Path
) -> None:
    book = ClassBook.open(tmp_path)
    who = book.add("Cy").id
    said = lesson("flip turf mark", "lots", "brush", "tell", "flip turf mark", "", book=book, trainee=who)
    assert "Guesses left: 3." in said
    assert "Guesses left: 2." in said
    assert "lots" in said.partition("Guesses left: 2.")[0], "what cannot be read costs no guess"
    assert said.count("Left as it was.") == 1
    (one,) = book.roll.of(who)
    assert (one.item, one.kind) == ("flip:thin-off-tight-turf:turf_mark", "flip")


def test_what_was_missed_comes_again_the_longest_overdue_first(
    lesson: Callable[..., str], cases: tuple[Case, ...], tmp_path: Path
) -> None:
    exercise = make("claim", cases, 5)
    assert exercise is not None
    missed = [exercise.id, "predict:digger-scattered:longer.length", "flip:digger-scattered:handicap"]
    for number, item in enumerate([*missed, "predict:elsewhere:pairing"]):
        book = ClassBook.open(tmp_path / str(number))
        who = book.add("Cy").id
        book.record(Attempt(who, NOW - timedelta(days=9), item, item.partition(":")[0], 0.0, "missed"))
        said = lesson("again", "", book=book, trainee=who)
        assert "1 due again; the longest overdue comes first:" in said
        if "elsewhere" in item:
            assert "the case 'elsewhere' is not open here; open the folder with it" in said
        else:
            assert "Left as it was." in said, "what was missed is put again"
            about = {"claim": "Which claim cannot be?", "predict": "playing length, longer club: what will"}
            assert about.get(item.partition(":")[0], "Handicap is 22. Which value of it") in said


def test_an_edit_is_shown_refused_switched_off_and_taken_back(lesson: Callable[..., str]) -> None:
    rule = "thin-strikes-shorten"
    said = lesson(
        f"edit {rule}", f"edit {rule} shorter please", f"off {rule}", f"edit {rule}", "effect", "replay",
        f"undo {rule}", "effect",
    )  # fmt: skip
    assert "'shorter please' is no change; write it as PLACE = TEXT" in said
    assert "The copy loads; entries changed: 1." in said
    assert "The copy loads; entries changed: 0." in said
    assert "Nothing has been edited yet" in said


def test_a_class_that_is_empty_and_a_new_name_are_told(lesson: Callable[..., str], tmp_path: Path) -> None:
    said = lesson("class", "trainee Dee", "class", "exercise reading", "", book=ClassBook.open(tmp_path))
    assert "Nobody is in the class yet" in said
    assert "Dee is new in the class, and at the keys." in said
    assert "Dee: nothing tried yet" in said
    assert [one.name for one in ClassBook.open(tmp_path).trainees] == ["Dee"]
    assert ClassBook.open(tmp_path).roll.attempts == ()


def test_a_change_says_what_comes_up_and_when_nothing_is_decided_otherwise(
    lesson: Callable[..., str],
) -> None:
    said = lesson("change local_length_limit=no", "change pain=yes", "change pain", "change handicap=lots")
    assert "Nothing is decided otherwise." in said
    assert "comes up: " in said
    assert "licensed professional" in said
    assert "Write it as FACT=VALUE" in said


def test_a_fact_that_no_rule_reads_says_so_on_the_map(lesson: Callable[..., str]) -> None:
    assert "No rule reads it." in lesson("map clubs_leaving"), "only what follows from it is read"
    assert "No rule reads it." not in lesson("map tempo")
