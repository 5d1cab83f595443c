"""Opens what is to be repeated: a prediction, a hunt for a flip, or an exercise."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.trainer.enrolled import case_of

if TYPE_CHECKING:
    from interview.screens.trainer.desk import TeachingDesk
    from interview.screens.trainer.page import LessonScreen


def screen_for(desk: TeachingDesk, item: str) -> LessonScreen[None] | None:
    """Return the screen on which an item is tried again; None where its case is not among those opened."""
    kind, last = item.partition(":")[0], item.rpartition(":")[2]
    case = next((one for one in desk.cases if one.id == case_of(item)), None)
    if case is None:
        return None
    if kind == "predict":
        from interview.screens.trainer.predict import PredictScreen

        desk.of_case(case).clear()
        return PredictScreen(desk, case, last)
    if kind == "flip":
        from interview.screens.trainer.flip import FlipScreen

        return FlipScreen(desk, case, last)
    from interview.screens.trainer.exercise import ExerciseScreen

    return ExerciseScreen(desk, (item,))
