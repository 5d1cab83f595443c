"""Change one answer and watch what moves; guess the value that flips the pair before it is told."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.lessons.lines import change_lines, flip_lines
from interview.views.trainer.changed import change_view, flip_view, read
from rules.facts.answers import AnswerProblem
from rules.lessons.case import LessonProblem, with_answers
from rules.lessons.flipping import FlipMark, flip_task, mark_flip
from rules.lessons.naming import find_fact

if TYPE_CHECKING:
    from interview.commands.drill.sitting import Sitting
    from rules.lessons.case import Case

GUESSES = 3
"""Guesses at a flip before it is told; the best of them counts."""
_TELL = "tell"


def change(sitting: Sitting, rest: str) -> None:
    """Change one answer on a copy and say what moves."""
    name, equals, value = rest.partition("=")
    if not equals:
        sitting.tell("change_form")
        return
    question = find_fact(sitting.case.base, name, _questions(sitting.case))
    try:
        answer = read(sitting.case, question, value)
    except AnswerProblem as problem:
        raise LessonProblem(str(problem)) from None
    after = with_answers(sitting.case, {question: answer})
    sitting.show(change_lines(change_view(sitting.case, after, question, sitting.system)))


def _questions(case: Case) -> list[str]:
    """Return what is asked in an interview."""
    return [id for id, fact in case.base.facts.items() if fact.ask is not None]


def flip(sitting: Sitting, rest: str) -> None:
    """Let a trainee guess the value of a fact that changes the pair, then tell; the best guess counts."""
    case = sitting.case
    fact = find_fact(case.base, rest, _guessable(case)) if rest else flip_task(case, sitting.next_seed())
    marks: list[FlipMark] = []
    while len(marks) < GUESSES and not (marks and (marks[-1].earned == 1 or marks[-1].guess is None)):
        view = flip_view(case, fact, tuple(marks), sitting.system, told=False)
        sitting.show(flip_lines(view))
        sitting.tell("flip_ask", fact=view.fact, now=view.now, left=GUESSES - len(marks))
        typed = (sitting.ask() or "").strip()
        if not typed or typed.lower() == _TELL:
            break
        try:
            marks.append(mark_flip(case, fact, typed))
        except LessonProblem as problem:
            sitting.tell("broken", problem=problem)
    if not marks:
        sitting.tell("left")
        return
    best = max(marks, key=lambda one: one.earned)
    try:  # kept before it is told
        sitting.record(f"flip:{case.id}:{fact}", "flip", best.earned, "flips" if best.flips else "stays")
    finally:
        sitting.show(flip_lines(flip_view(case, fact, (best,), sitting.system, told=True)))


def _guessable(case: Case) -> list[str]:
    """Return the questions with one number or one word for an answer."""
    return [id for id in _questions(case) if case.base.facts[id].kind in ("number", "choice")]
