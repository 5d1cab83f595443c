"""Makes exercises: a kind, the cases and a number give one, the same each time."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from random import Random
from typing import TYPE_CHECKING, get_args

from rules.lessons.case import LessonProblem
from rules.lessons.exercises.asking import asking
from rules.lessons.exercises.claims import claim
from rules.lessons.exercises.deciding import deciding
from rules.lessons.exercises.exercise import Exercise, Kind
from rules.lessons.exercises.myths import myth
from rules.lessons.exercises.sums import putting_back, reading

if TYPE_CHECKING:
    from rules.lessons.case import Case

KINDS: tuple[Kind, ...] = get_args(Kind)
"""Every kind there is."""
Maker = Callable[["Case", str, int], Exercise | None]
"""Makes an exercise of a case, its id and a number; None where the case does not lend itself."""
_MAKERS: Mapping[Kind, Maker] = {
    "deciding": deciding, "asking": asking, "claim": claim, "reading": reading,
    "putting_back": putting_back, "myth": myth,
}  # fmt: skip
_LONGEST = 200


def make(kind: Kind, cases: Sequence[Case], seed: int) -> Exercise:
    """Make an exercise of a kind from one of the cases; raises LessonProblem where none lends itself."""
    order = sorted(cases, key=lambda case: case.id)
    Random(f"{kind} {seed}").shuffle(order)
    for case in order:
        made = _made(kind, case, seed)
        if made is not None:
            return made
    raise LessonProblem(f"none of these {len(order)} cases lends itself to this exercise; open other cases")


def remake(id: str, cases: Sequence[Case]) -> Exercise:
    """Make an exercise again from its id; raises LessonProblem where its case is not among these."""
    kind, _, rest = id.partition(":")
    name, _, number = rest.rpartition(":")
    case = next((one for one in cases if one.id == name), None)
    if kind not in KINDS or case is None or not number.removeprefix("-").isdecimal():
        raise LessonProblem(
            f"'{id[:_LONGEST]}' cannot be made again: its case is not open; open the folder with it"
        )
    made = _made(kind, case, int(number))
    if made is None:
        raise LessonProblem(f"'{id[:_LONGEST]}' cannot be made again: rules or answers have changed since")
    return made


def _made(kind: Kind, case: Case, seed: int) -> Exercise | None:
    """Make an exercise of one case."""
    return _MAKERS[kind](case, f"{kind}:{case.id}:{seed}", seed)
