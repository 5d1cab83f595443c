"""One exercise: the question, what can be answered, and then the computation that settles it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Role, Row, between, row, wrapped
from interview.views.trainer.said import blocks, headed, said

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs

NEXT = "next"
"""What choosing the verdict of an exercise stands for: going on."""


@dataclass(frozen=True, slots=True)
class ChoiceLine:
    """One thing that can be answered, with the digit that answers it."""

    id: str
    key: str
    """The digit."""
    text: str


@dataclass(frozen=True, slots=True)
class ExerciseView:
    """One exercise as it stands."""

    kind: str
    """Title of its kind."""
    asks: tuple[str, ...]
    """The question, and what is given, a paragraph each."""
    options: tuple[ChoiceLine, ...] = ()
    """Empty where a number is asked."""
    unit: str = ""
    """Unit that a bare number takes."""
    number: int = 1
    """Which exercise of this sitting it is."""
    right: int = 0
    """How many of this sitting were right so far."""
    done: int = 0
    """How many were answered so far."""
    given: str = ""
    """Id of the option that was answered, or the text that was typed; empty before."""
    key: str = ""
    """Id of the right option; empty before it is answered, and for a number."""
    result: tuple[str, ...] = ()
    """What came of it and the computation, a line each; empty before it is answered."""
    earned: int = 0
    """Hundredths."""

    @property
    def answered(self) -> bool:
        """Return whether it was answered."""
        return bool(self.result)


def exercise_heading(view: ExerciseView, width: int) -> Picture:
    """Return the top: which kind, which number, and how many were right."""
    count = said("exercise.count", number=view.number, right=view.right, done=view.done)
    left = (Ink(f" {said('exercise.heading')}: ", "head"), Ink(view.kind, "strong"))
    return (between(left, (Ink(f"{count} ", "dim"),), width),)


def exercise_rows(view: ExerciseView, width: int, glyphs: Glyphs) -> Picture:
    """Return the question and what can be answered; once answered also the verdict, chosen to go on."""
    parts = [
        wrapped(view.asks[0] if view.asks else "", width, "strong"),
        tuple(line for one in view.options for line in _option(one, view, width, glyphs)),
    ]
    if view.answered:
        role: Role = "for" if view.earned >= 100 else "mark" if view.earned else "against"
        given = wrapped(said("exercise.given", given=view.given), width) if not view.options else ()
        parts.append((*given, *wrapped(view.result[0], width, role, target=NEXT)))
        parts.append(wrapped(said("exercise.on"), width, "dim"))
    elif not view.options:
        parts.append(wrapped(said("exercise.number", unit=view.unit), width, "dim"))
    return blocks(parts)


def working_rows(view: ExerciseView, width: int) -> Picture:
    """Return the computation that settles it, once it is answered, and what was given with the question."""
    working = tuple(one for text in view.result[1:] for one in wrapped(text, width, indent="  "))
    given = tuple(one for text in view.asks[1:] for one in wrapped(text, width, indent="  "))
    return blocks(
        (
            headed(said("exercise.working"), working, width),
            headed(said("exercise.given_heading"), given, width),
        )
    )


def _option(one: ChoiceLine, view: ExerciseView, width: int, glyphs: Glyphs) -> Picture:
    """Return one answer with its digit; once answered it says whether it was right."""
    sign, role = _sign(one, view, glyphs)
    lead = f"{sign} {one.key}  "
    first, *more = wrapped(one.text, max(1, width - len(lead)), role) or (Row(),)
    target = "" if view.answered else one.id
    head = row(Ink(f"{sign} ", role), Ink(f"{one.key}  ", "key"), *first.inks, target=target)
    return (head, *(row(" " * len(lead), *each.inks, target=target) for each in more))


def _sign(one: ChoiceLine, view: ExerciseView, glyphs: Glyphs) -> tuple[str, Role]:
    """Return the sign of an answer: right, wrongly given, or neither."""
    if not view.answered:
        return " ", "plain"
    if one.id == view.key:
        return glyphs.yes, "for"
    return (glyphs.out, "against") if one.id == view.given else (" ", "dim")
