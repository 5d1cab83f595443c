"""The interview as a kiosk holds it: it never keeps anybody waiting for the next question."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from interview.conversation import Conversation

if TYPE_CHECKING:
    from rules.fitting import House, Outcome


def _look_no_further(_: Outcome) -> bool:
    return False


def kiosk_interview(house: House) -> Conversation:
    """Return the interview of a house that looks ahead only when asked to (see `interview.kiosk.enough`)."""
    return replace(Conversation.of(house), is_steady=_look_no_further)
