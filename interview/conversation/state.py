"""Where an interview stands: one frozen record that every screen shows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from interview.session import Session
    from rules.fitting import Outcome

Did = Literal["answered", "revised", "unknown", "skipped", "withdrawn"]
"""What was done about a question."""
Stage = Literal["asking", "halted", "passed_over", "enough", "done"]
"""A question is on the screen; safety stops the fitting; what still matters was passed over; nothing open
matters any more; nothing is open."""


@dataclass(frozen=True, slots=True)
class Exchange:
    """One turn of the talk, for the transcript."""

    question: str
    did: Did
    said: object = None
    """The answer as the session file holds it; None when nothing was said."""


@dataclass(frozen=True, slots=True)
class Refusal:
    """An answer that could not be read: its question and one sentence."""

    question: str
    sentence: str


@dataclass(frozen=True, slots=True)
class State:
    """An interview at one moment. `step` makes the next."""

    session: Session
    outcome: Outcome
    """What follows from the answers so far."""
    asking: str | None = None
    """The question on the screen, if any."""
    turn: int = 0
    """Counts the questions shown; an event carries the turn it belongs to."""
    exchanges: tuple[Exchange, ...] = ()
    """What was said in this sitting, in order."""
    trail: tuple[str, ...] = ()
    """Questions shown before, for going back."""
    offered: tuple[str, ...] = ()
    """Questions that are gone through although nothing depends on them, or that were passed over once."""
    refusal: Refusal | None = None
    """Why the last answer was not taken."""
    halted: bool = False
    """Whether a matter of safety stops the fitting here."""
    going_on: bool = False
    """Whether the person chose to go on past such a stop."""
    sought: bool = False
    """Whether the person went to the question on the screen, so that it stays until he leaves it."""
    steady: bool = False
    """Whether no plausible answer to an open question changes the pick: a measurement, made elsewhere."""

    @property
    def hand(self) -> Literal["right", "left"]:
        """Return the hand to word questions for; right until somebody says otherwise."""
        answer = self.session.subject.answers.get("hand")
        return "left" if answer is not None and answer.value == "left" else "right"

    @property
    def open(self) -> tuple[str, ...]:
        """Return the questions whose answers could still change something, in the order to ask them.

        Once the pick is steady only those of safety are left.
        """
        worth = self.outcome.questions.worth_asking
        return tuple(id for id in worth if self._always(id)) if self.steady else worth

    @property
    def needless(self) -> tuple[str, ...]:
        """Return the open questions that cannot, or could not plausibly, change anything any more."""
        asked = self.outcome.questions
        spared = tuple(id for id in asked.worth_asking if not self._always(id)) if self.steady else ()
        return (*spared, *asked.needless)

    def _always(self, question: str) -> bool:
        ask = self.outcome.house.base.facts[question].ask
        return ask is not None and ask.always

    @property
    def stage(self) -> Stage:
        """Return how far the interview is."""
        if self.asking is not None:
            return "asking"
        if self.halted:
            return "halted"
        if self.open:
            return "passed_over"
        return "enough" if self.needless else "done"
