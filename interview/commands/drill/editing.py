"""Edits of a copy line by line: changed, checked, tried on this golfer and on all cases, and saved."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.broken import one_word
from interview.views.lessons.lines import edit_lines, effect_lines, here_lines_plain
from interview.views.trainer.edited import edit_view, effect_view, here_lines
from interview.views.trainer.said import cases_words
from rules.lessons.case import LessonProblem
from rules.lessons.overlay import (
    Checked,
    check,
    edit,
    effect_everywhere,
    effect_here,
    revert,
    save,
    switch_off,
)
from rules.paths import typed_path

if TYPE_CHECKING:
    from interview.commands.drill.sitting import Sitting
    from rules.fitting import House


def change_rule(sitting: Sitting, rest: str) -> None:
    """Show a rule or assumption on the copy; with `PLACE = TEXT` change it first."""
    id, _, change = rest.partition(" ")
    if not id:
        sitting.tell("edit_none")
        return
    overlay = sitting.overlay()
    if change.strip():
        path, equals, text = change.partition("=")
        if not equals:
            raise LessonProblem(f"'{change.strip()[:60]}' is no change; write it as PLACE = TEXT")
        sitting.copy = edit(overlay, id, path.strip(), text)
    sitting.show(edit_lines(edit_view(sitting.overlay(), id, sitting.case.id)))
    if change.strip():
        verdict(sitting)


def off(sitting: Sitting, rest: str) -> None:
    """Switch a rule off on the copy."""
    sitting.copy = switch_off(sitting.overlay(), rest)
    verdict(sitting)


def undo(sitting: Sitting, rest: str) -> None:
    """Take back what was changed of a rule or assumption."""
    sitting.copy = revert(sitting.overlay(), rest)
    verdict(sitting)


def verdict(sitting: Sitting) -> Checked:
    """Say what the loader makes of the copy."""
    overlay = sitting.overlay()
    found = check(overlay)
    for problem in found.problems:
        sitting.tell("edit_problem", problem=problem)
    if not found.problems:
        sitting.tell("edit_sound", count=len(overlay.rows) + len(overlay.off))
    return found


def _house(sitting: Sitting) -> House | None:
    """Return the house under the edited rules; None where there is none, which is told."""
    if sitting.overlay().empty:
        sitting.tell("edit_none")
        return None
    return verdict(sitting).house


def effect(sitting: Sitting, rest: str) -> None:
    """Say what the edits do to the golfer at hand."""
    house = _house(sitting)
    if house is not None:
        sitting.show(here_lines_plain(here_lines(effect_here(sitting.case, house), sitting.system)))


def replay(sitting: Sitting, rest: str) -> None:
    """Say what the edits do to all cases."""
    house = _house(sitting)
    if house is not None:
        sitting.tell("working", cases=cases_words(len(sitting.cases)))
        tally = effect_everywhere(sitting.cases, house)
        cases = {case.id: case for case in sitting.cases}
        sitting.show(effect_lines(effect_view(tally, cases, sitting.system)))


def save_copy(sitting: Sitting, rest: str) -> None:
    """Save the edits as a folder of their own."""
    if not rest:
        raise LessonProblem("a folder is wanted, such as: save my-rules")
    folder = typed_path(rest)
    files = save(sitting.overlay(), folder)
    sitting.tell("saved", files="\n".join(map(one_word, files)), folder=one_word(folder))
