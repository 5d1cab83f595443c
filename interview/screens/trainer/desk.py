"""What a lesson is about and how far it has got: cases, predictions, who is at the keys; no widget in it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from threading import Lock
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from interview.classroom import ClassBook, Due
    from rules.fitting import House
    from rules.lessons.case import Case
    from rules.lessons.flipping import FlipMark
    from rules.lessons.marks import Mark
    from rules.lessons.overlay import Overlay
    from rules.lessons.predict import Prediction
    from rules.units import System


def _now() -> datetime:
    """Return this moment."""
    return datetime.now(UTC)


@dataclass
class TeachingDesk:
    """A lesson at one moment. Screens read it and tell it what was done."""

    cases: tuple[Case, ...]
    house: House
    book: ClassBook | None = None
    """The class; None while none is open."""
    units: System = "imperial"
    rules: Path | None = None
    """The folder of rules that the house was loaded with; None for those that came with the program."""
    now: Callable[[], datetime] = _now
    trainee: str = ""
    """Id of the trainee at the keys; empty for nobody."""
    notes: bool = False
    """Whether teaching notes are shown in the list of cases."""
    seed: int = 1
    """From which the next exercise is made."""
    overlay: Overlay | None = None
    """The copy of the rules that is being changed; None while nothing is."""
    predictions: dict[str, dict[str, Prediction]] = field(default_factory=dict)
    """Of each case, by decision."""
    marked_before: set[tuple[str, Prediction]] = field(default_factory=set)
    """Predictions that were recorded, each with its case: marking one again is no second attempt."""
    one_at_a_time: Lock = field(default_factory=Lock)
    """Held by whatever is worked out away from the keys, one thing at a time."""

    @classmethod
    def of(
        cls, cases: Sequence[Case], house: House, class_folder: Path | None, units: System = "imperial",
        rules: Path | None = None,
    ) -> TeachingDesk:  # fmt: skip
        """Return the desk of a lesson that begins; raises a Problem where the class cannot be read."""
        desk = cls(tuple(cases), house, units=units, rules=rules)
        desk.seed = desk.now().toordinal()
        if class_folder is not None:
            desk.open_class(class_folder)
        return desk

    def open_class(self, folder: Path) -> None:
        """Open the class kept in a folder, or begin one there; raises a Problem where that cannot be."""
        from interview.classroom import ClassBook

        self.book = ClassBook.open(folder)
        self.sit("")

    def sit(self, trainee: str) -> None:
        """Let attempts count for a trainee, or for nobody; what was predicted was another's."""
        self.trainee = trainee
        self.predictions.clear()
        self.marked_before.clear()

    def case(self, id: str) -> Case:
        """Return a case by its id."""
        return next(one for one in self.cases if one.id == id)

    def of_case(self, case: Case) -> dict[str, Prediction]:
        """Return what is predicted of a case so far, by decision."""
        return self.predictions.setdefault(case.id, {})

    def next_seed(self) -> int:
        """Return another seed."""
        self.seed += 1
        return self.seed

    # What was done

    def marked(self, case: Case) -> tuple[Mark, ...]:
        """Mark what is predicted of a case; marking a prediction again is no second attempt."""
        from rules.lessons.marks import mark

        found = tuple(mark(case, one) for one in self.of_case(case).values())
        for one in found:
            if (case.id, one.prediction) not in self.marked_before:
                self.marked_before.add((case.id, one.prediction))
                item = f"predict:{case.id}:{one.prediction.decision}"
                self.record(item, "predict", one.total, one.verdict)
        return found

    def flipped(self, case: Case, one: FlipMark) -> None:
        """Record the end of a hunt for a flip."""
        self.record(f"flip:{case.id}:{one.fact}", "flip", one.earned, "flips" if one.flips else "stays")

    def due(self) -> tuple[Due, ...]:
        """Return what whoever is at the keys has to repeat, longest due first; empty for nobody."""
        from interview.classroom import due

        if self.book is None or not self.trainee:
            return ()
        return due(self.book.roll.of(self.trainee), self.now())

    def due_exercises(self) -> tuple[str, ...]:
        """Return the exercises among what is due, by their ids."""
        from rules.lessons.exercises import KINDS

        return tuple(one.item for one in self.due() if one.kind in KINDS)

    def record(self, item: str, kind: str, score: float, verdict: str) -> None:
        """Record an attempt of whoever is at the keys; nothing where nobody is."""
        if self.book is not None and self.trainee:
            from interview.classroom import Attempt

            self.book.record(Attempt(self.trainee, self.now(), item, kind, score, verdict))

    @property
    def trainee_name(self) -> str:
        """Return the name of whoever is at the keys; empty for nobody."""
        if self.book is None:
            return ""
        return next((one.name for one in self.book.trainees if one.id == self.trainee), "")
