"""The sessions of the store: begin one, find one, resume one, copy one."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import BindingType

from interview.screens.bay import faces
from interview.screens.bay.orders import SESSIONS
from interview.screens.kit.lists import FindScreen
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Painter, Pane

if TYPE_CHECKING:
    from interview.store import Store

NEW, COPY = "new:", "copy:"
"""What the screen is left with: one of these, the second with an id, or the id of a session to resume."""


class SessionsScreen(FindScreen):
    """Shows the sessions, last changed first; typing finds them by any word in them or by a ticket's code."""

    BINDINGS: ClassVar[list[BindingType]] = bindings(SESSIONS)

    def __init__(self, store: Store, here: str) -> None:
        self._store = store
        self._here = here
        super().__init__("Sessions", self._entries, "a name, a word, a ticket's code", orders=SESSIONS)

    def _entries(self, text: str) -> Painter:
        """Return the painter of the sessions that a text finds."""
        found = self._store.find(text) if text.strip() else self._store.entries()
        return faces.entries(found, self._here)

    def action_new(self) -> None:
        """Leave to begin a session."""
        self.dismiss(NEW)

    def action_copy(self) -> None:
        """Leave to copy the session that the cursor is on."""
        target = self.query_one("#list", Pane).chosen
        if target:
            self.dismiss(f"{COPY}{target}")
