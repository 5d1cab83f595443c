"""The bay as an app."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from interview.screens.bay.desk import sit_down
from interview.screens.kit.app import TurfApp
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.conversation import Conversation
    from interview.screens.bay.desk import Desk
    from interview.store import Draft, Store
    from interview.views.pictures import Glyphs


class BayApp(TurfApp):
    """The fitter's screen."""

    TITLE = "Turfpair bay"

    def __init__(self, desk: Desk, store: Store, *, glyphs: Glyphs | None = None, blink: bool = True) -> None:
        super().__init__(glyphs=glyphs, blink=blink)
        self.desk = desk
        self.store = store
        self.looks_ahead = True
        """Whether the answers of a question are tried before they are given."""

    def on_mount(self) -> None:
        """Open the main screen."""
        from interview.screens.bay.screen import BayScreen

        self.push_screen(BayScreen(self.desk))

    def keep_all(self) -> None:
        """Keep what was heard last."""
        self.desk.keep_all()

    def open_session(self, target: str) -> None:
        """Open another session: begin one, copy one, or resume one."""
        from interview.screens.bay.screen import BayScreen

        self.keep_all()
        conversation = self.desk.conversation
        try:
            self.desk = sit_down(conversation, self._draft(target, conversation))
        except Problem as problem:
            screen = self.screen
            if isinstance(screen, BayScreen):
                screen.tell(f"{problem}.", alert=True)
            return
        self.switch_screen(BayScreen(self.desk))

    def _draft(self, target: str, conversation: Conversation) -> Draft:
        """Return the session that was asked for, open for change."""
        from interview.screens.bay.sessions import COPY, NEW
        from interview.session import begin, new_id

        now = datetime.now(UTC).replace(microsecond=0)
        if target == NEW:
            return self.store.begin(begin(new_id(now), created=now))
        if not target.startswith(COPY):
            return self.store.open(target, conversation.base.facts)
        original = self.store.open(target.removeprefix(COPY), conversation.base.facts).session
        draft = self.store.begin(begin(new_id(now), created=now))
        draft.save(replace(original, id=draft.id, created=now))
        return draft
