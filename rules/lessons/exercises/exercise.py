"""What an exercise is: a question made from a case, its key, and the working that settles it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

Kind = Literal["deciding", "asking", "claim", "reading", "putting_back", "myth"]
"""Which fact decides; what to ask next; the impossible claim; what the scale reads; what goes back into the
head; a saying of the trade."""


class Figure(NamedTuple):
    """A number with its unit."""

    value: float
    """SI; of `points`, points from D0 or of swing weight."""
    unit: str
    """The unit in which it is shown."""
    difference: bool = False
    """Whether it is a difference, or held against one: told finer, and of points as a plain number."""


class Name(NamedTuple):
    """Something of the rule base or the case, to be called by its name."""

    sort: Literal["fact", "decision", "candidate", "rule", "club", "topic"]
    id: str
    decision: str = ""
    """Of a candidate: the decision for which it stands."""


Value = Figure | Name | str
"""What stands in a sentence; plain text is said as it is."""


@dataclass(frozen=True, slots=True)
class Option:
    """One answer that may be chosen."""

    id: str
    values: Mapping[str, Value] = field(default_factory=dict)
    """What its sentence is filled with."""


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the working: which sentence, and the figures in it."""

    what: str
    values: Mapping[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Exercise:
    """One exercise. The same case, kind and number make the same one again."""

    id: str
    """Kind, case and number joined by colons, from which it can be made again."""
    kind: Kind
    case: str
    topic: str
    """Which of the kind's sentences asks it."""
    values: Mapping[str, Value]
    """What the question is filled with."""
    options: tuple[Option, ...]
    """What may be chosen; empty where a number is asked for."""
    key: str
    """Id of the right option; empty where a number is asked for."""
    working: tuple[Row, ...]
    """The computation in view, shown with the answer."""
    told: tuple[str, ...] = ()
    """Questions whose answers are shown with it."""
    amount: Figure | None = None
    """The number asked for."""
    fine: float = 0.0
    """How far off a number still earns all, in the unit's SI."""
    nothing_at: float = 0.0
    """How far off it earns nothing."""


class Result(NamedTuple):
    """An answer to an exercise."""

    exercise: Exercise
    given: str | float
    """The option chosen, or the number in SI."""
    right: bool
    earned: float
    """0 to 1: of a number, close is worth something."""
