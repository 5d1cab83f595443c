"""The trainer's screens as text of record, fed with frozen views: what is held is the face, not a rule."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from interview.screens.trainer import cases as cases_screen
from interview.screens.trainer import change, chart, edit, exercise, flip, predict, reveal, roll, steps
from interview.views.pictures import FULL, PLAIN
from tests import golden
from tests.screens.trainer import trainer_views as frozen

HERE = Path(__file__).parent / "golden"
NAMES = ("cases", "predict", "reveal", "steps", "change", "flip", "exercise", "chart", "edit", "roll")


@pytest.fixture(autouse=True)
def _frozen(monkeypatch: pytest.MonkeyPatch) -> None:
    """Show frozen views, whatever the rules say."""
    for module, name, view in (
        (cases_screen, "cases_view", frozen.CASES), (predict, "predict_view", frozen.PREDICT),
        (predict, "case_sheet", frozen.SHEET), (reveal, "reveal_view", frozen.REVEAL),
        (steps, "step_view", frozen.STEP), (change, "case_sheet", frozen.SHEET),
        (flip, "case_sheet", frozen.SHEET), (flip, "flip_view", frozen.FLIP),
        (flip, "question_hint", "A number such as 18."), (exercise, "exercise_view", frozen.EXERCISE),
        (chart, "chart_lines", frozen.CHART), (chart, "fact_view", frozen.FACT),
        (edit, "edit_view", frozen.EDIT), (roll, "roll_view", frozen.ROLL),
        (roll, "trainee_view", frozen.TRAINEE),
    ):  # fmt: skip
        monkeypatch.setattr(module, name, lambda *_, view=view, **__: view)
    monkeypatch.setattr(edit.EditScreen, "try_out", lambda *_: None)
    monkeypatch.setattr(roll.RollScreen, "chosen", "t1")


def _screens(desk: Any) -> list[Any]:
    """Every screen but the first, in the order of `NAMES`."""
    desk.book = object()
    case = desk.cases[0]
    moved = change.ChangeScreen(desk, case)
    moved.view = frozen.CHANGE
    return [
        predict.PredictScreen(desk, case), reveal.RevealScreen(desk, case, ()),
        steps.StepsScreen(desk, case, ""), moved, flip.FlipScreen(desk, case, "handicap"),
        exercise.ExerciseScreen(desk), chart.ChartScreen(desk),
        edit.EditScreen(desk, case, "digger-wants-sole"), roll.RollScreen(desk),
    ]  # fmt: skip


async def _at_rest(lesson: Any) -> str:
    """The screen once it stays as it is: a scroll bar may be drawn a moment after its pane."""
    before = ""
    await lesson.settle()
    while before != (now := lesson.text()):
        before = now
        await lesson.settle()
    return before


@pytest.mark.parametrize(("width", "height", "name"), [(80, 24, ""), (120, 40, ""), (80, 24, "_plain")])
async def test_screens_are_as_recorded(open_lesson: Any, width: int, height: int, name: str) -> None:
    made = {}
    async with open_lesson(width, height, glyphs=PLAIN if name else FULL) as lesson:
        made["cases"] = lesson.text()
        for key, screen in zip(NAMES[1:], _screens(lesson.desk), strict=True):
            await lesson.app.push_screen(screen)
            made[key] = await _at_rest(lesson)
            await lesson.app.pop_screen()
    text = "".join(f"{'=' * width} {key}\n{shown}\n" for key, shown in made.items())
    file = HERE / f"trainer_{width}x{height}{name}.txt"
    golden.held(file, text)
    assert all(len(line) <= width for line in text.splitlines() if not line.startswith("==="))
