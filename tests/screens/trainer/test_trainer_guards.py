"""What is left, blank or nowhere changes nothing in a lesson."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from textual import events

from interview.screens.kit.pane import Pane
from interview.screens.trainer.change import ChangeScreen
from interview.screens.trainer.chart import ChartScreen, Influenced
from interview.screens.trainer.edit import EditScreen
from interview.screens.trainer.exercise import ExerciseScreen
from interview.screens.trainer.flip import FlipScreen, Tried
from interview.screens.trainer.picking import FactsScreen
from interview.screens.trainer.predict import PredictScreen
from interview.screens.trainer.roll import RollScreen
from interview.screens.trainer.trying import Found
from interview.views.trainer.charted import working_influence
from interview.views.trainer.predict import Pickable
from rules.lessons.exercises import KINDS


async def shown(lesson: Any, screen: Any) -> Any:
    """Put a screen up and wait until it has come to rest."""
    lesson.app.push_screen(screen)
    await lesson.settle()
    assert lesson.app.screen is screen
    return screen


async def left(lesson: Any, screen: Any, *orders: str) -> None:
    """Give orders that each open a box, and leave the box."""
    for order in orders:
        getattr(screen, f"action_{order}")()
        await lesson.settle()
        assert lesson.app.screen is not screen, order
        await lesson.press("escape")
        assert lesson.app.screen is screen, order


async def test_a_prediction_that_is_left_is_none(open_lesson: Any) -> None:
    async with open_lesson() as lesson:
        case = lesson.desk.cases[0]
        screen = await shown(lesson, PredictScreen(lesson.desk, case))
        for decision in ("pairing", "longer.length"):
            await lesson.choose(decision)
            await left(lesson, screen, "pick")
        assert screen._reading("longer.length", " ") == ("", False)
        screen.action_unpick()
        assert lesson.desk.of_case(case) == {}
        await lesson.choose("longer.length")
        screen.action_pick()
        await lesson.settle()
        await lesson.type("42 in")
        await lesson.press("enter")
        assert isinstance(lesson.app.screen, FactsScreen)
        facts = lesson.app.screen
        facts.choose("")
        assert facts.named == []
        await lesson.press("escape")
        assert lesson.desk.of_case(case)["longer.length"].reasons == ()
        screen.query_one("#list", Pane).show(lambda width, glyphs: ())
        await lesson.settle()
        screen.action_pick()
        await lesson.settle()
        assert lesson.app.screen is screen, "there is no decision under the cursor"


async def test_a_blank_guess_is_none_and_a_guess_at_another_fact_does_not_count(open_lesson: Any) -> None:
    async with open_lesson() as lesson:
        screen = await shown(lesson, FlipScreen(lesson.desk, lesson.desk.cases[0], "handicap"))
        screen.action_guess()
        await lesson.type("  ")
        await lesson.press("enter")
        assert screen.marks == ()
        screen.action_none()
        await lesson.settle()
        (mark,) = screen.marks
        screen.fact, screen.marks = "tempo", ()
        screen._tried(Tried(mark))
        assert screen.marks == ()
        screen._tried(Tried(fact="handicap"))
        screen._tried(Tried(mark))
        screen.action_show_answer()
        screen.action_show_answer()
        screen.action_none()
        await lesson.settle()
        assert (len(screen.marks), screen.told) == (1, True), "after the telling there is nothing to guess"


async def test_an_exercise_takes_one_answer_and_no_blank_one(open_lesson: Any) -> None:
    async with open_lesson() as lesson:
        screen: Any = ExerciseScreen(lesson.desk)
        screen.kind = next(kind for kind in KINDS if "decid" not in kind)
        await shown(lesson, screen)
        await left(lesson, screen, "kinds")
        for kind in KINDS:
            screen.kind = kind
            screen.make_next()
            await lesson.settle()
            before = screen.done
            if not screen.exercise.options:
                await lesson.press("enter")
                assert screen.done == before
            screen.answer("1")
            screen.answer("2")
            assert screen.done == before + 1, "a second answer is to no exercise"
            screen.on_key(events.Key("1", "1"))
            assert screen.done == before + 1


async def test_what_is_found_of_another_fact_is_not_shown(open_lesson: Any) -> None:
    async with open_lesson() as lesson:
        screen = await shown(lesson, ChartScreen(lesson.desk))
        await lesson.press("up")
        assert lesson.app.focused is screen.query_one("#find")
        await lesson.press("down", "end", "down")
        assert lesson.app.focused is screen.query_one("#list")
        await lesson.choose("tempo")
        seen = lesson.pane("detail")
        screen._influenced(Influenced("handicap", working_influence(1, 3)))
        await lesson.settle()
        assert lesson.pane("detail") == seen
        screen.action_edit()
        assert lesson.app.screen is screen, "no rule is looked at"


async def test_a_copy_of_the_rules_is_not_touched_by_what_is_left(open_lesson: Any, tmp_path: Path) -> None:
    async with open_lesson() as lesson:
        screen = EditScreen(lesson.desk, lesson.desk.cases[0])
        lesson.app.push_screen(screen)
        await lesson.settle()
        await lesson.press("escape")
        assert lesson.app.screen is screen
        await left(lesson, screen, "find", "case", "save")
        screen.action_revert()
        screen._save("  ")
        screen._found(Found(screen.tried - 1, problems=("of a copy before.",)))
        assert screen.entry == ""
        assert screen.overlay.empty
        assert not screen.view.problems
        screen.post_message(screen.query_one("#line").Changed(screen.query_one("#line"), "x"))
        screen.post_message(screen.query_one("#line").Submitted(screen.query_one("#line"), "x"))
        await lesson.settle()
        assert screen.overlay.empty, "no field is in the line"


async def test_another_answer_that_is_left_moves_nothing(open_lesson: Any) -> None:
    async with open_lesson() as lesson:
        screen = await shown(lesson, ChangeScreen(lesson.desk, lesson.desk.cases[0]))
        before = screen.view
        screen.action_answer()
        await lesson.settle()
        await lesson.press("escape")
        assert (lesson.app.screen, screen.view) == (screen, before)
        screen.query_one("#list", Pane).show(lambda width, glyphs: ())
        await lesson.settle()
        screen.action_answer()
        await lesson.settle()
        assert lesson.app.screen is screen, "there is no question under the cursor"


async def test_a_class_changes_by_nothing_that_is_left_or_blank(open_lesson: Any, tmp_path: Path) -> None:
    async with open_lesson(folder=tmp_path / "class") as lesson:
        screen = await shown(lesson, RollScreen(lesson.desk))
        for order in ("rename", "remove", "sit"):
            getattr(screen, f"action_{order}")()
            await lesson.settle()
            assert lesson.app.screen is screen, "nobody is in the class yet"
        await left(lesson, screen, "add", "open")
        lesson.desk.book.add("Blue Cap")
        screen.show_all()
        await lesson.settle()
        screen.action_remove()
        await lesson.settle()
        await lesson.type("no")
        await lesson.press("enter")
        screen.action_add()
        await lesson.settle()
        await lesson.type("  ")
        await lesson.press("enter")
        assert [one.name for one in lesson.desk.book.trainees] == ["Blue Cap"]
        screen._repeat("")
        assert lesson.app.screen is screen


async def test_where_there_is_no_case_there_is_none_to_open(open_lesson: Any) -> None:
    async with open_lesson() as lesson:
        screen = lesson.app.screen
        lesson.desk.cases = ()
        screen.show_all()
        await lesson.settle()
        for order in ("open", "edit", "exercises"):
            getattr(screen, f"action_{order}")()
            await lesson.settle()
            assert lesson.app.screen is screen, order
        screen.action_leave()
        assert lesson.app.screen is screen, "there is nothing below"


async def test_one_more_fact_than_may_be_named_is_not_named(open_lesson: Any) -> None:
    async with open_lesson() as lesson:
        facts = tuple(Pickable(id, id.title()) for id in ("tempo", "turf", "lies"))
        screen = await shown(lesson, FactsScreen("Facts", facts, 2))
        for id in ("tempo", "turf", "lies", "tempo", ""):
            screen.choose(id)
        assert screen.named == ["turf"], "the third is one too many, and the first is taken back"
