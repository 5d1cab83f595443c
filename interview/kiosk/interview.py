"""The interview as a kiosk holds it: it never keeps anybody waiting for the next question."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from interview.conversation import Conversation
from rules.problems import Problem

if TYPE_CHECKING:
    from rules.fitting import House, Outcome


def _look_no_further(_: Outcome) -> bool:
    return False


def kiosk_interview(house: House) -> Conversation:
    """Return the interview of a house that looks ahead only when asked to (see `interview.kiosk.enough`)."""
    return replace(Conversation.of(house), is_steady=_look_no_further)


class Interviews:
    """The interview of each visit, on what is left on the shelf when it begins."""

    def __init__(self, house: House) -> None:
        self._house = house
        self._left = house
        self._interview = kiosk_interview(house)

    def __call__(self) -> Conversation:
        """Return the interview for a visit that begins now; parts booked for sessions are not proposed.

        Where the bookings cannot be read just now, what was left before is taken to be left still: a golfer
        is no judge of a shop's file, and the fitter who opens the ticket is told.
        """
        try:
            left = self._house.for_session("")
        except Problem:
            return self._interview
        if left.shelf != self._left.shelf:
            self._left, self._interview = left, kiosk_interview(left)
        return self._interview
