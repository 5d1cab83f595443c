"""Ways between the trainer's rooms, and what each says when there is nothing to do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from interview.classroom import ClassBook
from interview.screens.trainer.app import TrainerApp
from interview.screens.trainer.change import ChangeScreen
from interview.screens.trainer.chart import ChartScreen
from interview.screens.trainer.desk import TeachingDesk
from interview.screens.trainer.edit import EditScreen
from interview.screens.trainer.exercise import ExerciseScreen
from interview.screens.trainer.flip import FlipScreen
from interview.screens.trainer.predict import PredictScreen
from interview.screens.trainer.reveal import RevealScreen
from interview.screens.trainer.roll import RollScreen
from interview.screens.trainer.steps import StepsScreen
from interview.views.trainer.said import said
from rules.facts.subject import Subject
from rules.fitting import House
from rules.lessons.case import open_case
from rules.lessons.exercises import make
from rules.lessons.predict import Prediction
from tests.screens.trainer.conftest import NOW, Lesson

RULE = "digger-wants-sole"


async def onto(lesson: Lesson, screen: Any) -> Any:
    """Open a screen and wait until it rests."""
    await lesson.app.push_screen(screen)
    await lesson.settle()
    return screen


async def test_every_way_on_from_the_marks(open_lesson: Any) -> None:
    async with open_lesson(100, 30) as lesson:
        case = lesson.desk.cases[0]
        lesson.desk.of_case(case)["longer.length"] = Prediction("longer.length", 41000, ("handicap",))
        await onto(lesson, RevealScreen(lesson.desk, case, lesson.desk.marked(case)))
        for key, room in (("f2", "StepsScreen"), ("f3", "ChangeScreen"), ("f4", "FlipScreen")):
            await lesson.press(key)
            assert lesson.on == room
            assert lesson.app.screen.case is case
            await lesson.press("escape")
            assert lesson.on == "RevealScreen"
        await lesson.press("f5")
        assert lesson.on == "FindScreen", "which rule is asked first"
        await lesson.press("escape")
        assert lesson.app.screen.case is case


async def test_the_rule_of_a_step_is_tried_where_there_is_one(open_lesson: Any) -> None:
    async with open_lesson(100, 30) as lesson:
        screen = await onto(lesson, StepsScreen(lesson.desk, lesson.desk.cases[0], "longer.length"))
        steps = screen.walk.steps
        screen.at = next(at for at, one in enumerate(steps) if one.rule is None)
        await lesson.press("f5")
        assert lesson.on == "StepsScreen"
        assert "No rule stands behind this step" in lesson.pane("told")
        screen.at = next(at for at, one in enumerate(steps) if one.rule is not None)
        await lesson.press("f5")
        assert lesson.on == "EditScreen"
        assert steps[screen.at].rule.id in lesson.pane("heading")


async def test_reasons_wait_for_a_prediction_and_both_are_taken_back(open_lesson: Any) -> None:
    async with open_lesson(100, 30) as lesson:
        case = lesson.desk.cases[0]
        screen = await onto(lesson, PredictScreen(lesson.desk, case))
        await lesson.choose("longer.length")
        await lesson.press("f2")
        assert "Predict the decision first" in lesson.pane("told")
        lesson.desk.of_case(case)["longer.length"] = Prediction("longer.length", 41000, ())
        screen.show_all()
        await lesson.press("f2")
        facts: Any = lesson.app.screen
        assert lesson.on == "FactsScreen"
        ids = [one.id for one in facts._all]
        facts.choose(ids[0])
        facts.choose(ids[0])
        assert facts.named == [], "named twice is taken back"
        for id in ids[: facts._most + 1]:
            facts.choose(id)
        assert facts.named == ids[: facts._most], "no more than may be named"
        await lesson.press("escape")
        assert lesson.desk.of_case(case)["longer.length"].reasons == (), "left without saying that it is done"
        await lesson.press("delete")
        assert "longer.length" not in lesson.desk.of_case(case)
        await lesson.press("delete")
        assert lesson.desk.of_case(case) == {}


async def test_everything_that_can_be_done_is_found_by_name(open_lesson: Any) -> None:
    async with open_lesson(100, 30) as lesson:
        case = lesson.desk.cases[0]
        await onto(lesson, PredictScreen(lesson.desk, case))
        lesson.desk.of_case(case)["longer.length"] = Prediction("longer.length", 41000, ())
        await lesson.choose("longer.length")
        await lesson.press("f10")
        await lesson.type("take back")
        await lesson.press("enter")
        assert lesson.on == "PredictScreen"
        assert lesson.desk.of_case(case) == {}


async def test_what_was_missed_is_repeated_from_the_class(open_lesson: Any, tmp_path: Path) -> None:
    book = ClassBook.open(tmp_path)
    trainee = book.add("Cy")
    async with open_lesson(100, 30, folder=tmp_path) as lesson:
        exercise = make("reading", lesson.desk.cases, 3)
        assert exercise is not None
        lesson.desk.sit(trainee.id)
        lesson.desk.record(exercise.id, "reading", 0.0, "wrong")
        lesson.desk.record("flip:sweeper:handicap", "flip", 0.1, "astray")
        lesson.desk.now = lambda: NOW + timedelta(days=4)
        await onto(lesson, RollScreen(lesson.desk))
        seen = set()
        for steps in range(2):
            await lesson.press("f3", *["down"] * steps, "enter")
            again: Any = lesson.app.screen
            seen.add(lesson.on)
            if lesson.on == "FlipScreen":
                assert (again.case.id, again.fact) == ("sweeper", "handicap")
            else:
                assert again.exercise.id == exercise.id
            await lesson.press("escape")
        assert seen == {"FlipScreen", "ExerciseScreen"}


async def test_without_a_class_nothing_is_due_and_nothing_is_written(
    open_lesson: Any, tmp_path: Path
) -> None:
    async with open_lesson(100, 30) as lesson:
        await onto(lesson, RollScreen(lesson.desk))
        for key in ("f3", "f6"):
            await lesson.press(key)
            assert said("roll.none_open") in lesson.pane("told")
        await lesson.press("escape")
        await onto(lesson, ExerciseScreen(lesson.desk))
        await lesson.press("f6")
        assert "Nobody is at the keys" in lesson.pane("told")
        await lesson.press("enter")
        assert "Answer this one first" in lesson.pane("told")
        await lesson.press("escape")
        lesson.desk.open_class(tmp_path)
        await onto(lesson, RollScreen(lesson.desk))
        await lesson.press("f3")
        assert said("roll.nobody") in lesson.pane("told")
        trainee = lesson.desk.book.add("Dee")
        lesson.app.screen.show_all()
        await lesson.choose(trainee.id)
        await lesson.press("f3")
        assert said("exercise.nothing_due") in lesson.pane("told")
        assert lesson.desk.trainee_name == "Dee", "whoever repeats is at the keys"


async def test_a_class_that_cannot_be_written_says_so(
    open_lesson: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ClassBook.open(tmp_path).add("Cy")
    async with open_lesson(100, 30, folder=tmp_path) as lesson:
        await onto(lesson, RollScreen(lesson.desk))
        (tmp_path / "summary.csv").mkdir()
        await lesson.press("f6")
        assert "could not be kept" in lesson.pane("told")
        assert "is a directory" in lesson.pane("told")


async def test_another_rule_or_value_is_taken_in_hand(open_lesson: Any) -> None:
    async with open_lesson(100, 30) as lesson:
        screen = await onto(lesson, EditScreen(lesson.desk, lesson.desk.cases[0], RULE))
        await lesson.press("f3")
        await lesson.type("raise-fairway")
        await lesson.choose("raise-fairway")
        await lesson.press("enter")
        assert screen.entry == "raise-fairway"
        assert "raise-fairway" in lesson.pane("heading")
        await lesson.press("f7")
        assert "Only a rule can be switched off" in lesson.pane("told")
        await lesson.press("f3", "escape")
        assert screen.entry == "raise-fairway", "left without choosing"
        await lesson.press("f3")
        await lesson.type(RULE)
        await lesson.press("enter", "f7")
        assert RULE in lesson.desk.overlay.off
        await lesson.press("f7")
        assert RULE not in lesson.desk.overlay.off, "on again"


async def test_guessing_that_nothing_changes_it_is_a_guess(open_lesson: Any) -> None:
    async with open_lesson(100, 30) as lesson:
        screen = await onto(lesson, FlipScreen(lesson.desk, lesson.desk.cases[0], "handicap"))
        await lesson.press("f5")
        assert screen.marks == (), "there is nothing to mark before a guess"
        await lesson.press("f2")
        assert len(screen.marks) == 1
        await lesson.press("f5")
        assert screen.told
        await lesson.press("f2")
        assert len(screen.marks) == 1, "after the telling there is nothing to guess"


async def test_arrows_go_between_the_line_and_the_list_of_the_map(open_lesson: Any) -> None:
    async with open_lesson(120, 40) as lesson:
        screen = await onto(lesson, ChartScreen(lesson.desk))
        await lesson.press("down")
        assert lesson.app.focused is screen.query_one("#list")
        await lesson.press("up")
        assert lesson.app.focused is screen.query_one("#find")


async def test_a_case_without_a_pair_is_not_predicted_and_the_other_pane_is_left_first(
    house: House, subject: Callable[..., Subject]
) -> None:
    bare = house.with_shelf(replace(house.shelf, shafts=()))
    desk = TeachingDesk.of((open_case(bare, "bare", subject({"handicap": 15}), ""),), bare, None)
    app = TrainerApp(desk, blink=False)
    async with app.run_test(size=(60, 24)) as pilot:
        lesson = Lesson(app, pilot)
        await lesson.settle()
        await lesson.press("enter")
        assert lesson.on == "CasesScreen"
        assert said("cases.no_pair") in lesson.pane("told")
        await lesson.press("f7", "tab")
        assert app.screen.has_class("aside")
        await lesson.press("escape")
        assert lesson.on == "CasesScreen"
        assert not app.screen.has_class("aside")
        await lesson.press("f5")
        assert lesson.on == "FindScreen", "a rule can be tried all the same"


async def test_an_answer_is_changed_seen_and_put_back(open_lesson: Any) -> None:
    async with open_lesson(60, 24) as lesson:
        screen = await onto(lesson, ChangeScreen(lesson.desk, lesson.desk.cases[0]))
        await lesson.choose("handicap")
        await lesson.press("enter", "escape")
        assert screen.view.question == "", "left without an answer"
        await lesson.press("enter")
        await lesson.type("3")
        await lesson.press("enter")
        assert screen.has_class("aside"), "where there is room for one pane, it is what moved that is seen"
        assert screen.view.now == "3"
        await lesson.press("escape", "delete")
        assert lesson.on == "ChangeScreen"
        assert screen.view.question == ""
