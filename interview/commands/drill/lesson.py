"""A lesson line by line: one line says what to do, and the job does it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from interview.commands.drill.attending import summary, the_class, trainee
from interview.commands.drill.editing import change_rule, effect, off, replay, save_copy, undo
from interview.commands.drill.exercising import again, exercise
from interview.commands.drill.mapping import influence, map
from interview.commands.drill.moving import change, flip
from interview.commands.drill.predicting import facts, predict, step
from interview.text import one_line
from interview.views.bay.sayings import value_words
from interview.views.lessons.lines import plain
from interview.views.trainer.names import case_title
from interview.views.trainer.said import cases_words
from rules.engine import RuleBaseFaults
from rules.lessons.case import LessonProblem
from rules.lessons.exercises import KINDS
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.commands.drill.sitting import Sitting

Job = Callable[["Sitting", str], None]
"""Does what one line asks for; takes the rest of the line."""
_LEAVE = ("quit", "q", "exit", "done")


def teach(sitting: Sitting) -> None:
    """Hold a lesson until somebody leaves it, or there are no more lines."""
    sitting.tell("welcome", cases=cases_words(len(sitting.cases)))
    _case(sitting)
    sitting.tell("next")
    while True:
        typed = sitting.ask()
        if typed is None or typed.strip().lower() in _LEAVE:
            sitting.tell("bye")
            return
        _do(sitting, one_line(typed, 400))


def _do(sitting: Sitting, line: str) -> None:
    """Do what one line asks for; what goes wrong is told in a sentence and the lesson goes on."""
    word, _, rest = line.partition(" ")
    job = JOBS.get(word.lower())
    if job is None:
        sitting.tell("unknown" if word else "next", word=one_line(word, 40))
        return
    try:
        job(sitting, rest.strip())
    except (Problem, RuleBaseFaults) as problem:
        sitting.tell("broken", problem=one_line(str(problem), 600).removesuffix("."))


def _help(sitting: Sitting, rest: str) -> None:
    sitting.tell("help", indent="  ", kinds=", ".join(KINDS))


def _cases(sitting: Sitting, rest: str) -> None:
    lines = (case_title(case.id) for case in sitting.cases)
    sitting.tell_under(plain("case_line", number=number, case=case) for number, case in enumerate(lines, 1))


def _choose(sitting: Sitting, rest: str) -> None:
    """Take the case of a number or id."""
    ids = [case.id for case in sitting.cases]
    if rest.isdecimal() and 1 <= int(rest) <= len(ids):
        sitting.at = int(rest) - 1
    elif rest in ids:
        sitting.at = ids.index(rest)
    else:
        raise LessonProblem(f"there is no case '{rest[:60]}'; type a number from 1 to {len(ids)}")
    _case(sitting)


def _next(sitting: Sitting, rest: str) -> None:
    sitting.at = (sitting.at + 1) % len(sitting.cases)
    _case(sitting)


def _case(sitting: Sitting) -> None:
    """Say which case is at hand, and what was told of the golfer."""
    case = sitting.case
    sitting.lines.say()
    sitting.tell("at_case", number=sitting.at + 1, count=len(sitting.cases), case=case_title(case.id))
    facts = case.base.facts
    told = [
        f"{facts[id].title} {value_words(facts[id], answer.value, sitting.system)}"
        for id, answer in case.subject.answers.items()
        if answer.value is not None
    ]
    sitting.tell("about", facts="; ".join(told) or "nothing is told")


def _note(sitting: Sitting, rest: str) -> None:
    sitting.tell("note" if sitting.case.note else "no_note", note=sitting.case.note)


def _facts(sitting: Sitting, rest: str) -> None:
    facts(sitting, rest or "pairing")


JOBS: Mapping[str, Job] = {
    "help": _help, "cases": _cases, "case": _choose, "next": _next, "note": _note, "facts": _facts,
    "predict": predict, "step": step, "exercise": exercise, "again": again,
    "change": change, "flip": flip, "map": map, "influence": influence,
    "edit": change_rule, "off": off, "undo": undo, "effect": effect, "replay": replay, "save": save_copy,
    "trainee": trainee, "class": the_class, "summary": summary,
}  # fmt: skip
"""What can be typed, and what does it."""
