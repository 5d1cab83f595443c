"""The bay as an app."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from textual import on
from textual.message import Message

from interview.screens.kit.app import TurfApp
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.conversation import Conversation
    from interview.screens.bay.desk import Desk
    from interview.screens.bay.papers import MakeSheets
    from interview.screens.bay.screen import BayScreen
    from interview.store import Draft, Store
    from interview.views.pictures import Glyphs


class Seated(Message):
    """The rules are read, and there is a desk to sit at."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk


class BayApp(TurfApp):
    """The fitter's screen."""

    TITLE = "Turfpair bay"

    def __init__(
        self, desk: Desk | Callable[[], Desk], store: Store | Callable[[], Store], *,
        opening: Path | None = None, glyphs: Glyphs | None = None, blink: bool = True,
        sit: Callable[[Draft], Desk] | None = None,
        sheets: MakeSheets | None = None,
    ) -> None:  # fmt: skip
        super().__init__(glyphs=glyphs, blink=blink)
        self._desk = desk
        self._sit = sit
        """Sits down to a session with what is on the shelf for it; None where it is the same for all."""
        self.sheets = sheets
        """Makes the sheets; None where nobody brought that."""
        self._opening = opening
        """Folder in which the opening question is remembered; None where it is not."""
        self._store = store
        self._warned = False
        """Whether leaving was refused once, because what was said is in memory only."""
        self.looks_ahead = True
        """Whether the answers of a question are tried before they are given."""

    @property
    def store(self) -> Store:
        """Return the store of sessions."""
        return self._store() if callable(self._store) else self._store

    @property
    def desk(self) -> Desk:
        """Return the desk that is sat at; only once it is there."""
        assert not callable(self._desk)
        return self._desk

    def on_mount(self) -> None:
        """Open the main screen, or the curtain while there is no desk yet."""
        if not callable(self._desk):
            self._seat(self._desk)
            return
        from interview.screens.bay.curtain import CurtainScreen
        from interview.screens.bay.opening import recall

        begin = partial(self.run_worker, self._set_up, thread=True)
        self.push_screen(CurtainScreen(recall(self._opening) if self._opening else None, begin))

    def _set_up(self) -> None:
        """Read the rules and sit down, away from the keys."""
        assert callable(self._desk)
        desk = self._desk()
        from interview.screens.bay import screen  # noqa: F401 (imported here, so that no key waits for it)

        self.post_message(Seated(desk))

    def _seat(self, desk: Desk) -> BayScreen:
        """Sit down at a desk and show the main screen."""
        from interview.screens.bay.screen import BayScreen

        self._desk = desk
        screen = BayScreen(desk)
        self.push_screen(screen)
        return screen

    @on(Seated)
    def _raise_curtain(self, event: Seated) -> None:
        """Go from the curtain to the main screen, with whatever was typed meanwhile."""
        from interview.screens.bay.curtain import CurtainScreen

        curtain, desk = self.screen, event.desk
        assert isinstance(curtain, CurtainScreen)
        same = curtain.ask is not None and curtain.ask.id == desk.state.asking
        self._seat(desk).hand_on(curtain.typed, entered=curtain.entered and same)
        self.call_later(self._remember)

    def _remember(self) -> None:
        """Remember the question that a new talk opens with."""
        from interview.screens.bay.opening import remember
        from interview.views.bay.questions import talk_view

        ask = talk_view(self.desk.conversation, self.desk.state).ask
        if self._opening is not None and ask is not None and not self.desk.state.session.written:
            remember(self._opening, ask)

    def keep_all(self) -> None:
        """Keep what was heard last."""
        if not callable(self._desk):
            self._desk.keep_all()

    @property
    def trouble(self) -> str:
        """Return why what was said last is in memory only, in one sentence; nothing while it is kept."""
        return "" if callable(self._desk) else self._desk.trouble

    def rescued(self) -> Path | None:
        """Keep what is in memory only wherever it can be, and return its file, or None."""
        return None if callable(self._desk) else self._desk.rescue()

    def as_text(self) -> str:
        """Return the session as its file would hold it."""
        from interview.session import session_text

        return "" if callable(self._desk) else session_text(self._desk.seen.session)

    async def action_quit(self) -> None:
        """Leave; where what was said is in memory only, say so first, and leave the second time."""
        from interview.screens.bay.screen import BayScreen

        self.keep_all()
        if self.trouble and not self._warned and isinstance(self.screen, BayScreen):
            self._warned = True
            self.screen.show_talk()
            return
        await super().action_quit()

    def open_session(self, target: str) -> None:
        """Open another session: begin one, copy one, or resume one."""
        from interview.screens.bay.desk import sit_down
        from interview.screens.bay.screen import BayScreen

        self.keep_all()
        screen = self.screen
        if self.trouble and isinstance(screen, BayScreen):  # opening another would let go of this one
            screen.show_talk()
            return
        conversation = self.desk.conversation
        sit = self._sit or partial(sit_down, conversation)
        try:
            desk = sit(self._draft(target, conversation))
        except Problem as problem:
            if isinstance(screen, BayScreen):
                screen.tell(f"{problem}.", alert=True)
            return
        self._desk = desk
        self.switch_screen(BayScreen(desk))

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
