"""Exercises, and what comes back because it was missed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.classroom import due
from interview.views.lessons.exercises import exercise_said, kind_title, result_said
from interview.views.lessons.lines import plain
from rules.lessons.case import LessonProblem
from rules.lessons.exercises import KINDS, Exercise, answered, make, remake

if TYPE_CHECKING:
    from interview.commands.drill.sitting import Sitting
    from rules.lessons.exercises import Result


def exercise(sitting: Sitting, rest: str) -> None:
    """Put one exercise of a kind, or of the next kind in turn, and mark the answer."""
    seed = sitting.next_seed()
    kind = rest or KINDS[seed % len(KINDS)]
    if kind not in KINDS:
        sitting.tell("kinds", kind=kind[:40], kinds=", ".join(KINDS))
        return
    put(sitting, make(kind, sitting.cases, seed))


def put(sitting: Sitting, one: Exercise) -> None:
    """Put an exercise, mark the answer, note it, and show the computation."""
    case = next(case for case in sitting.cases if case.id == one.case)
    said = exercise_said(one, case, sitting.system)
    sitting.lines.say(said.kind)
    sitting.tell_under(said.asks)
    sitting.tell_under(plain("option", number=n, option=text) for n, (_, text) in enumerate(said.options, 1))
    sitting.tell("ask_answer" if said.options else "ask_number", unit=said.unit)
    found = _answered(sitting, one)
    if found is None:
        sitting.tell("left")
        return
    verdict, *working = result_said(found, case, sitting.system)
    try:  # kept before it is told: a mark that was seen is in the class, whatever happens next
        sitting.record(one.id, one.kind, found.earned, "right" if found.right else "missed")
    finally:
        sitting.lines.say(verdict)
        sitting.tell_under(working)


def _answered(sitting: Sitting, one: Exercise) -> Result | None:
    """Ask until an answer can be read; None where it is left or there are no more lines."""
    while True:
        typed = sitting.ask()
        if not typed or not typed.strip():
            return None
        try:
            return answered(one, typed)
        except LessonProblem as problem:
            sitting.tell("broken", problem=problem)


def again(sitting: Sitting, rest: str) -> None:
    """Put what is longest overdue of what was missed."""
    if sitting.book is None or not sitting.trainee:
        sitting.tell("nobody")
        return
    waiting = due(sitting.book.roll.of(sitting.trainee), sitting.now())
    if not waiting:
        sitting.tell("nothing_due")
        return
    kind, _, item = waiting[0].item.partition(":")
    name, _, about = item.rpartition(":")
    title = plain("due_item", title=kind_title(kind), case=name.replace("-", " "))
    sitting.tell("due", count=len(waiting), title=title)
    if kind in KINDS:
        put(sitting, remake(waiting[0].item, sitting.cases))
        return
    places = [place for place, case in enumerate(sitting.cases) if case.id == name]
    if not places:
        raise LessonProblem(f"the case '{name[:60]}' is not open here; open the folder with it")
    sitting.at = places[0]
    _again_at(sitting, kind, about)


def _again_at(sitting: Sitting, kind: str, about: str) -> None:
    """Put a prediction or a hunt for a flip again."""
    from interview.commands.drill.moving import flip
    from interview.commands.drill.predicting import predict

    (predict if kind == "predict" else flip)(sitting, about)
