"""From an exercise and its result to what the screen shows of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.lessons.exercises import exercise_said, result_said
from interview.views.pictures.ink import Ink, Picture, row
from interview.views.trainer.exercise import ChoiceLine, ExerciseView
from interview.views.trainer.said import said
from rules.lessons.exercises import KINDS

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs
    from rules.lessons.case import Case
    from rules.lessons.exercises import Exercise, Kind, Result
    from rules.units import System

MIXED = "mixed"
"""A bit of every kind."""


def mixed(seed: int) -> Kind:
    """Return the kinds in turn."""
    return KINDS[seed % len(KINDS)]


def exercise_view(
    exercise: Exercise, result: Result | None, typed: str, case: Case, counts: tuple[int, int, int],
    system: System,
) -> ExerciseView:  # fmt: skip
    """Return an exercise as it stands; `counts` is its number, how many were right, how many were done."""
    one = exercise_said(exercise, case, system)
    number, right, done = counts
    answered = result is not None
    return ExerciseView(
        kind=one.kind,
        asks=one.asks,
        options=tuple(ChoiceLine(id, str(at), text) for at, (id, text) in enumerate(one.options, 1)),
        unit=one.unit,
        number=number,
        right=right,
        done=done,
        given=str(result.given) if result is not None and one.options else typed,
        key=exercise.key if answered else "",
        result=result_said(result, case, system) if result is not None else (),
        earned=round(100 * result.earned) if result is not None else 0,
    )


def kinds_rows(width: int, glyphs: Glyphs) -> Picture:
    """Return the kinds of exercises, each with the digit that chooses it."""
    return tuple(
        row(Ink(f"{at}  ", "key"), Ink(said(f"exercise.kind_{kind}"), "strong"), target=kind)
        for at, kind in enumerate((MIXED, *KINDS))
    )
