"""An exercise in words: what it asks, what may be answered, and the computation that settles it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from interview.views.bay.reasons import candidate_name
from interview.views.bay.sayings import value_words
from interview.views.inquiry.words import Words
from interview.wording.words import words as wording
from rules.lessons.exercises import Figure, Name
from rules.units import difference_words, words

if TYPE_CHECKING:
    from rules.lessons.case import Case
    from rules.lessons.exercises import Exercise, Option, Result, Value
    from rules.units import System

_OF_A_GOLFER = ("deciding", "asking", "myth")
"""Kinds that ask about the golfer of the case."""
_PLAIN = ("", "points")
_FINER = {"yd": 1, "g": 2}
"""Decimals of differences, by unit."""
_GIVEN_ROWS = "part"
"""Lines of the working that are given with the question where it is asked of parts."""


class ExerciseSaid(NamedTuple):
    """An exercise as a trainee reads it."""

    kind: str
    """Title of its kind."""
    asks: tuple[str, ...]
    """The question, then what is given, a paragraph each."""
    options: tuple[tuple[str, str], ...]
    """Ids and texts of what may be chosen; empty where a number is asked."""
    unit: str
    """Unit that a bare number takes, in words; empty where there are options."""


def kind_title(kind: str) -> str:
    """Return what a kind of exercise is called; predictions and flips too."""
    return _say(f"kind.{kind}")


def exercise_said(exercise: Exercise, case: Case, system: System) -> ExerciseSaid:
    """Return an exercise in words; `case` is the one that it was made of."""
    asks = [_say(f"ask.{exercise.topic}", **_values(exercise.values, case, system))]
    asks += [
        _say("given.part", **_values(row.values, case, system))
        for row in exercise.working
        if exercise.topic == "parts" and row.what == _GIVEN_ROWS
    ]
    if exercise.kind in _OF_A_GOLFER and exercise.told:
        asks.append(_say("exercise.case", case=case.id.replace("-", " ")))
    if exercise.told or exercise.kind == "asking":
        asks.append(_told(exercise, case, system))
    return ExerciseSaid(
        kind_title(exercise.kind),
        tuple(asks),
        tuple((one.id, _option(exercise, one, case, system)) for one in exercise.options),
        wording().unit(exercise.amount.unit) if exercise.amount else "",
    )


def _told(exercise: Exercise, case: Case, system: System) -> str:
    """Say what is known of the golfer at the time of the question."""
    answers, facts = case.subject.answers, case.base.facts
    said = [
        f"{facts[id].title} {value_words(facts[id], answers[id].value, system)}"
        for id in exercise.told
        if answers[id].value is not None
    ]
    return _say("exercise.known", facts="; ".join(said)) if said else _say("exercise.nothing_known")


def _option(exercise: Exercise, option: Option, case: Case, system: System) -> str:
    """Say one thing that may be chosen."""
    key = option.id if exercise.kind == "myth" else exercise.kind
    return _say(f"option.{key}", **_values(option.values, case, system))


def result_said(result: Result, case: Case, system: System) -> tuple[str, ...]:
    """Say what came of an answer, and then the computation, a line each."""
    exercise = result.exercise
    working = (_say(f"working.{row.what}", **_values(row.values, case, system)) for row in exercise.working)
    return (_verdict(result, case, system), *working)


def _verdict(result: Result, case: Case, system: System) -> str:
    """Say whether an answer was right."""
    exercise = result.exercise
    if exercise.amount is None or not isinstance(result.given, float):
        if result.right:
            return _say("exercise.right")
        key = next(one for one in exercise.options if one.id == exercise.key)
        return _say("exercise.wrong", right=_option(exercise, key, case, system))
    right = figure_words(exercise.amount, system)
    if result.right:
        return _say("exercise.exact", right=right)
    gap = Figure(abs(result.given - exercise.amount.value), exercise.amount.unit, difference=True)
    off, earned = figure_words(gap, system), round(100 * result.earned)
    return _say("exercise.near" if earned else "exercise.far", off=off, earned=earned, right=right)


def _values(values: Mapping[str, Value], case: Case, system: System) -> dict[str, str]:
    """Return everything that stands in a sentence, in words."""
    return {key: _worded(value, case, system) for key, value in values.items()}


def _worded(value: Value, case: Case, system: System) -> str:
    if isinstance(value, Figure):
        return figure_words(value, system)
    return _called(value, case, system) if isinstance(value, Name) else value


def figure_words(figure: Figure, system: System) -> str:
    """Return a figure with its unit as a person would say it."""
    if not figure.difference:
        return words(figure.value, figure.unit, system, decimals=1 if figure.unit == "g" else None)
    if figure.unit in _PLAIN:
        said = f"{figure.value:.2f}".rstrip("0").rstrip(".")
        return f"{said} {figure.unit}".removesuffix("s" if said == "1" else "").strip()
    if figure.unit in _FINER:
        return words(figure.value, figure.unit, system, decimals=_FINER[figure.unit])
    return difference_words(figure.value, figure.unit, system)


def _called(name: Name, case: Case, system: System) -> str:
    """Return what something of the case is called."""
    if name.sort == "candidate":
        return candidate_name(case.outcome, name.decision, name.id)
    if name.sort == "fact":
        return case.base.facts[name.id].title
    if name.sort == "topic":
        return wording().topic(name.id)
    said = Words(case.outcome, system)
    if name.sort == "decision":
        return said.decision(name.id)
    return said.pair(name.id).partition(" (")[0] if name.sort == "club" else name.id


def _say(key: str, **values: object) -> str:
    """Return a sentence of the trainer's."""
    return wording().say(f"trainer.{key}", "trainer", **values)
