"""One person's visit to the kiosk: one frozen record, of which nothing is left once it is replaced."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from datetime import date

    from interview.conversation import State
    from interview.kiosk.ticket import Ticket

Place = Literal[
    "welcome", "asking", "stopped", "nothing", "clubs", "tries", "mind", "consent", "ticket", "staff", "left"
]
"""Where a visit is: nobody there; a question; stopped for safety; no pair possible; the three pages of the
outcome; whether a ticket may be kept; the ticket; the staff's PIN; the way out is free."""
Cover = Literal["", "why", "over", "still"]
"""What lies over it: nothing; why this is asked; start over, really?; is anybody there?"""


@dataclass(frozen=True, slots=True)
class Visit:
    """A visit at one moment."""

    place: Place = "welcome"
    cover: Cover = ""
    state: State | None = None
    """The interview; None until somebody begins."""
    typed: str = ""
    """Digits typed so far to a question or of a PIN."""
    marked: frozenset[str] = frozenset()
    """Choices marked so far where several may be."""
    note: str = ""
    """Key of a phrase that is told once; empty when there is nothing to tell."""
    refusal: str = ""
    """Why the last answer could not be taken, in one sentence."""
    seconds: int = 0
    """Seconds that a phrase names."""
    enough: bool = False
    """Whether no question after the one on the screen would change the two clubs any more."""
    until: date | None = None
    """Until when a ticket would be kept; known from the page that asks for consent on."""
    ticket: Ticket | None = None

    @property
    def empty(self) -> bool:
        """Return whether there is nothing of anybody to forget."""
        return self.place == "welcome" and not self.note
