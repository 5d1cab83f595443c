"""Exercises made from the rule base and the cases: nothing in them is written by hand but their sentences."""

from __future__ import annotations

from rules.lessons.exercises.answering import answered
from rules.lessons.exercises.exercise import Exercise, Figure, Kind, Name, Option, Result, Row, Value
from rules.lessons.exercises.making import KINDS, make, remake

__all__ = [
    "KINDS", "Exercise", "Figure", "Kind", "Name", "Option", "Result", "Row", "Value", "answered", "make",
    "remake",
]  # fmt: skip
