"""Predict a decision and its reasons, then be marked; and walk through the trace that marks it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from interview.views.bay.sayings import value_words
from interview.views.lessons.lines import mark_lines, plain, step_lines
from interview.views.trainer.names import decision_title, picked_name
from interview.views.trainer.predicted import reveal_view
from interview.views.trainer.walked import step_view
from interview.wording.words import words
from rules.lessons.case import LessonProblem, decided
from rules.lessons.marks import Mark, mark, overall
from rules.lessons.naming import nameable
from rules.lessons.predict import MOST_REASONS, Asked, Prediction, asked, predicted
from rules.lessons.steps import walk, whole_walk

if TYPE_CHECKING:
    from interview.commands.drill.sitting import Sitting
    from rules.lessons.steps import Walk

_ALL = "all"
_SEPARATED = re.compile(r"[,;]")


def predict(sitting: Sitting, rest: str) -> None:
    """Ask for one decision, or for all, and mark each as it is predicted."""
    case = sitting.case
    found = decided(case)
    if not found:
        sitting.tell("no_pair")
        return
    wanted = found if rest == _ALL else (_decision(found, rest or found[0]),)
    marks = []
    for decision in wanted:
        one = _predicted(sitting, asked(case, decision))
        if one is None:
            sitting.tell("left")
            break
        marks.append(_marked(sitting, one))
    if len(marks) > 1:
        sitting.tell("all_marked", total=round(100 * overall(marks)))


def _decision(found: tuple[str, ...], typed: str) -> str:
    """Return the decision that was typed; raises LessonProblem."""
    if typed in found:
        return typed
    raise LessonProblem(f"'{typed[:40]}' is not decided here; there are {', '.join(found)}")


def _predicted(sitting: Sitting, question: Asked) -> Prediction | None:
    """Ask until a prediction can be read; None where it is left or there are no more lines."""
    _put(sitting, question)
    while True:
        value = sitting.ask()
        if not value or not value.strip():
            return None
        try:
            predicted(sitting.case, question.decision, value)
        except LessonProblem as problem:
            sitting.tell("broken", problem=problem)
        else:
            return _with_reasons(sitting, question.decision, value)


def _with_reasons(sitting: Sitting, decision: str, value: str) -> Prediction:
    """Ask for the reasons of a prediction until they can be read."""
    sitting.tell("reasons", most=MOST_REASONS)
    while True:
        typed = (sitting.ask() or "").strip()
        if typed == "facts":
            facts(sitting, decision)
            continue
        try:
            return predicted(sitting.case, decision, value, _SEPARATED.split(typed))
        except LessonProblem as problem:
            sitting.tell("broken", problem=problem)


def _put(sitting: Sitting, question: Asked) -> None:
    """Ask for a decision; its candidates or limits with it."""
    case, decision = sitting.case, question.decision
    title = decision_title(case.base, decision)
    if question.kind == "amount":
        low, high = (picked_name(case, decision, end, sitting.system) for end in question.limits)
        unit = words().unit(question.unit)
        sitting.tell("predict_amount", decision=title, low=low, high=high, unit=unit)
    elif decision == "pairing":
        clubs = [rung.id for rung in case.outcome.rungs]
        built = [rung.id for rung in case.outcome.rungs if rung.state == "new"]
        example = "+".join((built or clubs)[1::4][:2])
        sitting.tell("predict_pair", example=example, clubs=", ".join(clubs))
    else:
        sitting.tell("predict_choice", decision=title)
        named = (picked_name(case, decision, id, sitting.system) for id in question.options)
        sitting.tell_under(plain("option", number=n, option=name) for n, name in enumerate(named, 1))


def _marked(sitting: Sitting, one: Prediction) -> Mark:
    """Mark a prediction, note it, and say why."""
    case = sitting.case
    found = mark(case, one)
    line = reveal_view(case, (found,), sitting.system).line(one.decision)
    try:  # kept before it is told
        sitting.record(f"predict:{case.id}:{one.decision}", "predict", found.total, found.verdict)
    finally:
        if line is not None:
            sitting.show(mark_lines(case.base, line))
    return found


def facts(sitting: Sitting, decision: str) -> None:
    """List the facts that may be named for a decision, with what was said of each."""
    case, lines = sitting.case, []
    for number, id in enumerate(nameable(case, decision), 1):
        fact, answer = case.base.facts[id], case.subject.answers.get(id)
        told = "" if answer is None else f": {value_words(fact, answer.value, sitting.system)}"
        lines.append(plain("option", number=number, option=f"{fact.title}{told}"))
    sitting.tell_under(lines)


def step(sitting: Sitting, rest: str) -> None:
    """Walk through one decision, or through all of them, forward and back."""
    case = sitting.case
    if rest:
        found: Walk = walk(case, _decision(decided(case), rest), sitting.system)
    else:
        found = whole_walk(case, sitting.system)
    while True:
        sitting.show(step_lines(step_view(case, found, sitting.system)))
        typed = sitting.ask()
        if typed is None or typed.strip().lower() == "leave":
            return
        word = typed.strip().lower()
        moves = {"back": found.back, "skip": found.next_decision}
        moved = moves.get(word, found.forward)()
        if moved.at == found.at and word != "back":
            sitting.tell("step_over")
            return
        found = moved
