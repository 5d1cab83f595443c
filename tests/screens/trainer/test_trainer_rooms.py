"""Exercises, the map, rules changed on a copy, the class; and what the screens survive."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from textual.containers import Horizontal

from interview.classroom import Attempt, ClassBook
from interview.screens.trainer.change import ChangeScreen
from interview.screens.trainer.chart import ChartScreen
from interview.screens.trainer.edit import EditScreen
from interview.screens.trainer.exercise import ExerciseScreen
from interview.screens.trainer.flip import FlipScreen
from interview.screens.trainer.predict import PredictScreen
from interview.screens.trainer.reveal import RevealScreen
from interview.screens.trainer.roll import RollScreen
from interview.screens.trainer.steps import StepsScreen
from interview.views.pictures import PLAIN
from rules.engine import load
from rules.fitting import House, load_house
from rules.house import KNOWLEDGE
from rules.lessons.exercises import KINDS
from rules.lessons.influence import influence
from rules.lessons.predict import Prediction
from tests.screens.trainer.conftest import NOW

RULE = "digger-wants-sole"


async def test_exercises_of_every_kind_are_answered_by_keys(open_lesson: Any, tmp_path: Path) -> None:
    book = ClassBook.open(tmp_path)
    trainee = book.add("Cy")
    async with open_lesson(folder=tmp_path) as lesson:
        lesson.desk.sit(trainee.id)
        await lesson.press("f3")
        screen: Any = lesson.app.screen
        assert lesson.on == "ExerciseScreen"
        for at, kind in enumerate(KINDS, 1):
            await lesson.press("f2", str(at))
            exercise = screen.exercise
            assert exercise.kind == kind
            await lesson.press("enter")
            assert screen.exercise is exercise, "one is answered before the next"
            if exercise.options:
                ids = [option.id for option in exercise.options]
                await lesson.press("9")
                assert screen.done == at - 1
                assert "none of the answers" in lesson.pane("told")
                right = ids.index(exercise.key)
                await lesson.press(*(["down"] * right + ["enter"] if right else ["1"]))
                assert screen.result.right
                assert "THE COMPUTATION" in lesson.pane("detail")
            else:
                await lesson.type("some grams")
                await lesson.press("enter")
                assert screen.done == at - 1
                await lesson.type("400 g" if kind == "putting_back" else "D9")
                await lesson.press("enter")
                assert screen.result.earned == 0
                assert "THE COMPUTATION" in lesson.pane("detail")
            await lesson.press("2")
            assert screen.done == at, "answered is answered"
        before = screen.exercise
        await lesson.press("enter")
        assert screen.exercise is not before
        assert [one.kind for one in ClassBook.open(tmp_path).roll.of(trainee.id)] == list(KINDS)

        missed = [one.item for one in lesson.desk.book.attempts if one.score < 0.75]
        await lesson.press("f6")
        assert "Nothing is due" in lesson.pane("told")
        lesson.desk.now = lambda: NOW + timedelta(days=2)
        await lesson.press("f6")
        assert screen.exercise.id in missed, "what was missed comes back as it was"


async def test_a_fact_is_found_on_the_map_and_its_rule_is_tried(open_lesson: Any, tmp_path: Path) -> None:
    async with open_lesson(120, 40) as lesson:
        await lesson.press("f4")
        await lesson.type("turf m")
        assert lesson.pane("list").split()[:2] == ["Turf", "mark"]
        assert "attack angle" in lesson.pane("detail")
        assert RULE in lesson.pane("detail")
        assert "through attack angle" in lesson.pane("detail")
        await lesson.press("enter")
        moved = influence(lesson.desk.cases, "turf_mark")
        assert moved.picks
        assert f"It flips the pair in {moved.picks} of 3 cases" in lesson.pane("detail")
        await lesson.press("f5")
        assert "Go to a rule with tab" in lesson.pane("told")
        await lesson.press("tab")
        lesson.app.screen.query_one("#detail").chosen = RULE
        await lesson.press("f5")
        assert lesson.on == "EditScreen"
        await _edit(lesson, tmp_path / "own")


async def _edit(lesson: Any, folder: Path) -> None:
    """Change what a rule gives, see it checked as it is typed, and save it as a folder of its own."""
    ours = load(KNOWLEDGE).digest
    screen = lesson.app.screen
    assert RULE in lesson.pane("heading")
    assert "Nothing is changed yet" in lesson.pane("verdict")
    paths = [one.path for one in screen.view.fields]
    threshold = next(path for path in paths if path.endswith(".below"))
    await lesson.choose(threshold)
    await lesson.press("enter")
    await lesson.type(" parsecs")
    assert "×" in lesson.pane("verdict")
    assert RULE in lesson.pane("verdict"), "the loader names the rule"
    await lesson.press("enter")
    assert screen.path == threshold, "what does not load is not kept"
    await lesson.press("escape")
    assert "Nothing is changed yet" in lesson.pane("verdict")

    await lesson.press("f7")
    assert "switched off" in lesson.pane("list")
    assert "The copy loads" in lesson.pane("verdict")
    assert "ALL PAST CASES" in lesson.pane("detail")
    assert " of 3. " in lesson.pane("detail")
    await lesson.press("f8")
    assert "0 changed" in lesson.pane("heading")

    await lesson.choose(threshold)
    await lesson.press("enter")
    screen.query_one("#line").clear()
    await lesson.type("-11 deg")
    assert "THIS GOLFER: Digger scattered" in lesson.pane("detail")
    assert "THIS GOLFER: Digger scattered Nothing" not in lesson.pane("detail")
    await lesson.press("enter", "f6")
    await lesson.type(str(KNOWLEDGE))
    await lesson.press("enter")
    assert "stay as they are" in lesson.pane("told")
    await lesson.press("f6")
    await lesson.type(str(folder))
    await lesson.press("enter")
    assert str(folder.name) in lesson.pane("told")
    assert load_house(folder).base.rules[RULE] != load_house().base.rules[RULE]
    assert load(KNOWLEDGE).digest == ours, "ours is never written"
    await lesson.press("f4")
    await lesson.type("sweeper")
    await lesson.press("enter")
    assert "THIS GOLFER: Sweeper" in lesson.pane("detail")
    await lesson.press("escape", "escape")
    assert lesson.desk.overlay.rows, "the copy is still there when the screen is opened again"


async def test_the_newest_text_wins(open_lesson: Any, house: House) -> None:
    async with open_lesson() as lesson:
        lesson.app.push_screen(EditScreen(lesson.desk, lesson.desk.cases[0], RULE))
        await lesson.settle()
        screen = lesson.app.screen
        threshold = next(one.path for one in screen.view.fields if one.path.endswith(".below"))
        screen.begin_line(threshold)
        line = screen.query_one("#line")
        for text in ("-9 deg", "-9 furlongs", "-11 de", "-11 deg"):
            line.value = text
        await lesson.settle()
        assert screen.view.problems == ()
        assert screen.view.here
        assert screen.view.everywhere.moved is not None


async def test_the_class_is_kept_by_keys(open_lesson: Any, tmp_path: Path) -> None:
    async with open_lesson(100, 30) as lesson:
        await lesson.press("f6")
        await lesson.press("f2")
        assert "Open a class first" in lesson.pane("told")
        await lesson.press("f9")
        await lesson.type(str(tmp_path / "class"))
        await lesson.press("enter")
        for name in ("=1+1", "Ann [/b]", "ann [/B]"):
            await lesson.press("f2")
            await lesson.type(name)
            await lesson.press("enter")
        assert "is in the class already" in lesson.pane("told")
        assert "Ann [/b]" in lesson.text()
        first, second = ClassBook.open(tmp_path / "class").trainees
        await lesson.choose(second.id)
        await lesson.press("f4", *["backspace"] * 10)
        await lesson.type("Dee")
        await lesson.press("enter", "enter")
        assert lesson.desk.trainee_name == "Dee"
        lesson.desk.record("predict:sweeper:pairing", "predict", 0.1, "astray")
        lesson.desk.record("predict:elsewhere:pairing", "predict", 0.0, "astray")
        lesson.desk.now = lambda: NOW + timedelta(days=4)
        lesson.app.screen.show_all()
        await lesson.press("f6")
        assert "Sweeper: pair" in lesson.pane("detail")
        assert "'=1+1" in (tmp_path / "class" / "summary.csv").read_text(encoding="utf-8")

        await lesson.press("f3", "enter")
        assert "not among those opened" in lesson.pane("told")
        await lesson.press("f3", "down", "enter")
        assert lesson.on == "PredictScreen"
        assert lesson.app.screen.case.id == "sweeper"
        await lesson.press("escape")
        await lesson.choose(first.id)
        await lesson.press("delete")
        await lesson.type("no")
        await lesson.press("enter", "delete")
        await lesson.type("yes")
        await lesson.press("enter")
        assert [one.name for one in ClassBook.open(tmp_path / "class").trainees] == ["Dee"]
        await lesson.press("escape")
        assert "due again" in lesson.text()


def _everything(desk: Any) -> list[Any]:
    """Every screen there is, on something."""
    case = desk.cases[0]
    desk.of_case(case)["longer.length"] = Prediction("longer.length", 41000, ("handicap",))
    return [
        PredictScreen(desk, case), RevealScreen(desk, case, desk.marked(case)), StepsScreen(desk, case, ""),
        ChangeScreen(desk, case), FlipScreen(desk, case, "handicap"), ExerciseScreen(desk), ChartScreen(desk),
        EditScreen(desk, case, RULE), RollScreen(desk),
    ]  # fmt: skip


async def test_no_width_is_too_narrow(open_lesson: Any, tmp_path: Path) -> None:
    book = ClassBook.open(tmp_path)
    book.record(Attempt(book.add("Eve").id, NOW, "flip:sweeper:handicap", "flip", 0.2))
    async with open_lesson(folder=tmp_path) as lesson:
        lesson.desk.sit(lesson.desk.book.trainees[0].id)
        for screen in _everything(lesson.desk):
            await lesson.app.push_screen(screen)
            await lesson.settle()
            for width, height in ((1, 3), (4, 24)):
                await lesson.pilot.resize_terminal(width, height)
            await lesson.pilot.resize_terminal(40, 12)
            aside = [one for one in screen.ORDERS if one.action == "aside"]
            if aside and not isinstance(screen, ChartScreen):
                await lesson.press("tab")
                assert screen.query_one("#detail").size.width > screen.query_one("#list").size.width
                await lesson.press("escape")
            lesson.app.pop_screen()
        await lesson.pilot.resize_terminal(80, 24)
        await lesson.press("f1")
        assert "Goes to the other pane" in lesson.text()
        await lesson.press("escape", "f11", "f7", "f4")
        assert lesson.app.theme == "turfpair-dusk"


@pytest.mark.parametrize("no_color", [False, True])
async def test_few_signs_and_no_colour_say_the_same(
    open_lesson: Any, monkeypatch: pytest.MonkeyPatch, no_color: bool
) -> None:
    if no_color:
        monkeypatch.setenv("NO_COLOR", "1")
    async with open_lesson(glyphs=PLAIN) as lesson:
        for screen in _everything(lesson.desk)[1:3]:
            await lesson.app.push_screen(screen)
            await lesson.settle()
            body = screen.query_one("#middle", Horizontal).region
            lines = lesson.text().splitlines()[body.y : body.bottom]
            text = "".join(lines).replace("│", "").replace("─", "").replace("▃", "").replace("▅", "")
            text = "".join(one for one in text if not 0x2580 <= ord(one) <= 0x259F)
            assert text.isascii(), [one for one in text if not one.isascii()]
        assert " * " in lesson.pane("list"), "who leads has a sign and not only a colour"
