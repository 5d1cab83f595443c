"""Who is at the keys, how the class gets on, and the summary that the trainer keeps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.broken import one_word
from interview.classroom import progress, write_summary
from interview.views.lessons.exercises import kind_title
from interview.views.lessons.lines import progress_lines
from rules.lessons.exercises import KINDS

if TYPE_CHECKING:
    from interview.commands.drill.sitting import Sitting


def trainee(sitting: Sitting, rest: str) -> None:
    """Say who is at the keys; a new name joins the class."""
    if sitting.book is None:
        sitting.tell("no_class")
        return
    known = sitting.book.roll.named(rest)
    one = known or sitting.book.add(rest)
    sitting.trainee = one.id
    sitting.tell("here" if known else "new_here", name=one.name)


def the_class(sitting: Sitting, rest: str) -> None:
    """Say how everybody gets on."""
    if sitting.book is None:
        sitting.tell("no_class")
        return
    if not sitting.book.trainees:
        sitting.tell("class_empty")
    kinds = {kind: kind_title(kind) for kind in ("predict", "flip", *KINDS)}
    for one in sitting.book.trainees:
        parts = progress(sitting.book.roll.of(one.id), sitting.now())
        sitting.show(progress_lines(one.name, parts, kinds))


def summary(sitting: Sitting, rest: str) -> None:
    """Write the summary of the class beside it."""
    if sitting.book is None:
        sitting.tell("no_class")
        return
    toml, csv = write_summary(sitting.book, sitting.now())
    sitting.tell("summary", toml=one_word(toml), csv=one_word(csv))
