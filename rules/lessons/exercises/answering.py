"""Answers to exercises: an option by its number or id, or a number with its unit."""

from __future__ import annotations

from rules.lessons.case import LessonProblem
from rules.lessons.exercises.exercise import Exercise, Figure, Result
from rules.units import UnitError, parse, unit


def answered(exercise: Exercise, text: str) -> Result:
    """Mark an answer as it was typed; raises LessonProblem with what would have been taken.

    Options count from 1. A number may be off by `fine` at no cost, and earns nothing at `nothing_at`.
    """
    if exercise.amount is None:
        chosen = _option(exercise, text.strip().lower())
        return Result(exercise, chosen, chosen == exercise.key, float(chosen == exercise.key))
    given = _number(exercise.amount, text.strip())
    off = abs(given - exercise.amount.value)
    span = exercise.nothing_at - exercise.fine
    earned = min(1.0, max(0.0, (exercise.nothing_at - off) / span))
    return Result(exercise, given, off <= exercise.fine, earned)


def _option(exercise: Exercise, typed: str) -> str:
    """Return the id of the option that was typed."""
    ids = [option.id for option in exercise.options]
    if typed in ids:
        return typed
    if typed.isdecimal() and 1 <= int(typed) <= len(ids):
        return ids[int(typed) - 1]
    raise LessonProblem(f"'{typed[:40]}' is none of the answers; type a number from 1 to {len(ids)}")


def _number(asked: Figure, typed: str) -> float:
    """Return a number in SI."""
    try:
        return float(parse(typed, unit(asked.unit)))
    except UnitError as error:
        raise LessonProblem(f"{error}") from None
