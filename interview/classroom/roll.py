"""The class as a plain record: who is in it, and what was tried. Nothing but a name is known of anyone."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime

from interview.classroom.faults import BadName, Nobody
from interview.text import one_line

LONGEST_NAME = 60
"""Characters kept of a name."""
MOST_TRAINEES = 200
MOST_ATTEMPTS = 4_000
"""Attempts kept of a class; of more, the oldest go."""
LONGEST_ITEM = 160
"""Characters kept of what was tried."""


@dataclass(frozen=True, slots=True)
class Trainee:
    """One person of the class."""

    id: str
    """t1, t2 and so on: what attempts are kept under."""
    name: str
    """As the trainer typed it."""


@dataclass(frozen=True, slots=True)
class Attempt:
    """One thing that a trainee tried."""

    trainee: str
    """Id of the trainee."""
    at: datetime
    """When, with its zone."""
    item: str
    """What was tried, from which it can be put again: `predict:CASE:DECISION`, `flip:CASE:FACT`, or an
    exercise's id."""
    kind: str
    """predict, flip, or the kind of an exercise."""
    score: float
    """0 to 1."""
    verdict: str = ""
    """A word for how it went."""

    def __post_init__(self) -> None:
        """Keep the moment in UTC and to the second, and the score within 0 and 1: as the file holds them."""
        aware = self.at if self.at.tzinfo is not None else self.at.replace(tzinfo=UTC)
        object.__setattr__(self, "at", aware.astimezone(UTC).replace(microsecond=0))
        object.__setattr__(self, "item", one_line(self.item, LONGEST_ITEM))
        object.__setattr__(self, "score", round(min(1.0, max(0.0, self.score)), 4))


@dataclass(frozen=True, slots=True)
class Roll:
    """A class. It never changes: its functions make another."""

    trainees: tuple[Trainee, ...] = ()
    attempts: tuple[Attempt, ...] = ()
    """In the order in which they were made."""

    def with_trainee(self, name: str) -> Roll:
        """Return the class with one more person; raises BadName."""
        if len(self.trainees) >= MOST_TRAINEES:
            raise BadName(f"a class holds {MOST_TRAINEES} at most; begin another in a folder of its own")
        taken = {int(one.id[1:]) for one in self.trainees}
        new = Trainee(f"t{max(taken, default=0) + 1}", self._free_name(name))
        return replace(self, trainees=(*self.trainees, new))

    def renamed(self, id: str, name: str) -> Roll:
        """Return the class with a person's name changed; raises Nobody and BadName."""
        self.trainee(id)
        free = self._free_name(name, but=id)
        changed = tuple(replace(one, name=free) if one.id == id else one for one in self.trainees)
        return replace(self, trainees=changed)

    def without(self, id: str) -> Roll:
        """Return the class without a person and all that he tried; raises Nobody."""
        self.trainee(id)
        return Roll(
            tuple(one for one in self.trainees if one.id != id),
            tuple(one for one in self.attempts if one.trainee != id),
        )

    def with_attempt(self, attempt: Attempt) -> Roll:
        """Return the class with one more attempt; raises Nobody. Beyond what is kept the oldest goes."""
        self.trainee(attempt.trainee)
        return replace(self, attempts=(*self.attempts, attempt)[-MOST_ATTEMPTS:])

    def trainee(self, id: str) -> Trainee:
        """Return a person by id; raises Nobody."""
        found = next((one for one in self.trainees if one.id == id), None)
        if found is None:
            raise Nobody(id)
        return found

    def named(self, text: str) -> Trainee | None:
        """Return the person of a name or an id, whatever its capitals; None for nobody."""
        typed = one_line(text, LONGEST_NAME).casefold()
        return next((one for one in self.trainees if typed in (one.name.casefold(), one.id)), None)

    def of(self, id: str) -> tuple[Attempt, ...]:
        """Return what a person tried."""
        return tuple(one for one in self.attempts if one.trainee == id)

    def _free_name(self, name: str, but: str = "") -> str:
        """Return a name as it is kept; raises BadName where it is empty or another's."""
        kept = one_line(name, LONGEST_NAME)
        if not kept:
            raise BadName("a name is wanted; a first name or a number will do")
        if any(one.name.casefold() == kept.casefold() and one.id != but for one in self.trainees):
            raise BadName(f"'{kept}' is in the class already; add a letter to tell them apart")
        return kept
