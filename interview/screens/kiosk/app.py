"""The kiosk as an app: lets through the few keys it has a use for, and everything else falls on the floor."""

from __future__ import annotations

import signal
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.worker import get_current_worker

from interview.kiosk.idle import IdleClock
from interview.kiosk.visit import Visit
from interview.screens.kiosk.board import Board
from interview.screens.kit.app import TurfApp
from interview.views.kiosk import page_of

if TYPE_CHECKING:
    from interview.conversation import Conversation, State
    from interview.kiosk.clock import Clock
    from interview.kiosk.reception import Reception
    from interview.views.kiosk import Page
    from interview.views.pictures import Glyphs

LEFT = 0
"""Status of an app that was left with the PIN."""
_MOVES = frozenset(("up", "down", "left", "right"))
_TURNS = {"pageup": -1, "pagedown": 1}
_FOLLOWS = {"tab": 1, "shift+tab": -1}
_PRESSES = frozenset(("enter", "space"))
_WORDS = {"escape": "back", "backspace": "rub", "delete": "rub", "full_stop": "digit:.", "plus": "digit:+"}
"""Keys that press a tile whatever it is called, where the page has it."""
_QUIET = 0.3
"""Seconds after a page appears in which presses are meant for the page before it."""
_PURGE_EVERY = 3600.0
"""Seconds between two looks for tickets whose time is over."""


class KioskScreen(Screen[None]):
    """What the board stands on: no binding of the toolkit's own is left on it."""

    BINDINGS: ClassVar[list[BindingType]] = []
    ALLOW_SELECT = False
    ESCAPE_TO_MINIMIZE = False

    def __init__(self, board: Board) -> None:
        super().__init__()
        self._board = board

    def compose(self) -> ComposeResult:
        """Lay out the board."""
        yield self._board


class KioskApp(TurfApp):
    """The customer's screen. No binding, no input, no focus, no palette: there is nothing to leave it by."""

    TITLE = "Turfpair kiosk"
    MAY_PAUSE = False
    CSS_PATH = Path(__file__).with_name("kiosk.tcss")
    BINDINGS: ClassVar[list[BindingType]] = []
    ALLOW_SELECT = False
    ENABLE_COMMAND_PALETTE = False

    def __init__(
        self, reception: Reception, clock: Clock, *, glyphs: Glyphs | None = None, quiet: float = _QUIET,
        tick: float = 0.5, foresee: bool = True,
    ) -> None:  # fmt: skip
        super().__init__(glyphs=glyphs, blink=False)
        self.reception = reception
        self.visit = Visit()
        """The visit of whoever stands there."""
        self.idle = IdleClock(clock.steady())
        self._clock = clock
        self._quiet, self._tick, self._foresees = quiet, tick, foresee
        self._quiet_until = 0.0
        self._last_key = ""
        self._purged = clock.steady()
        self._board = self.make_board(self._page())

    def make_board(self, page: Page) -> Board:
        """Return the board that shows the pages."""
        return Board(page, id="board")

    @property
    def _conversation(self) -> Conversation:
        return self.reception.conversation

    def get_default_screen(self) -> Screen[None]:
        """Return the one screen there is."""
        return KioskScreen(self._board)

    def on_ready(self) -> None:
        """Delete lapsed tickets and begin to watch the clock."""
        self.reception.purge()
        self.set_interval(self._tick, self.look_at_clock)

    def leave_for(self, number: int) -> None:
        """Leave for the signals of the operating system; an interrupt is what a chord might send."""
        if number != signal.SIGINT:
            super().leave_for(number)

    async def action_quit(self) -> None:
        """Stay: there is no leaving but with the PIN."""

    def action_suspend_process(self) -> None:
        """Stay: there is no shell to go to."""

    def action_command_palette(self) -> None:
        """Stay: there is no palette."""

    async def on_event(self, event: events.Event) -> None:
        """Take keys here and nowhere else; drop pastes; let the rest of the toolkit see only the mouse."""
        if isinstance(event, events.Paste):
            return
        if isinstance(event, events.Key):
            if not event.is_forwarded:
                self._key(event)
            return
        if isinstance(event, events.MouseDown | events.MouseScrollDown | events.MouseScrollUp):
            self.idle.touched(self._clock.steady())
        await super().on_event(event)

    def _key(self, event: events.Key) -> None:
        """Do what a key is for."""
        self.idle.touched(self._clock.steady())
        key, board = event.key, self._board
        if self._held(event):
            return
        if key in _MOVES:
            board.move(key)
        elif key in _TURNS:
            board.turn(_TURNS[key])
        elif key in _FOLLOWS:
            board.follow(_FOLLOWS[key])
        elif key in _PRESSES:
            self.press(self._entered(key), key)
        else:
            tile = board.page.by_key(key) if len(key) == 1 else None
            press = tile.press if tile else _WORDS.get(key, "")
            if any(one.press == press for one in board.page.pressable):
                self.press(press, key)

    def _entered(self, key: str) -> str:
        """Return what enter presses: the tile under the cursor; without one, what was typed is taken."""
        return self._board.cursor or ("enter" if key == "enter" else "")

    def _held(self, event: events.Key) -> bool:
        """Return whether a key was typed ahead of the page, or is still held down from the page before."""
        early = event.time < self._quiet_until
        if early and event.key == self._last_key:
            self._quiet_until = event.time + self._quiet
        return early

    def on_board_pressed(self, message: Board.Pressed) -> None:
        """Press a tile with a finger or the mouse."""
        if message.time >= self._quiet_until:
            self.press(message.press, "")

    def press(self, press: str, key: str = "") -> None:
        """Let the reception answer a press, and show what comes of it."""
        before = self.visit
        if before.cover == "still" and press == "here":
            self.idle.back(self._clock.steady())
        self._last_key = key
        self._come_to(self.reception.press(before, press))

    def _come_to(self, visit: Visit) -> None:
        """Show a visit; a new page is not pressed by what was meant for the old one."""
        before, self.visit = self.visit, visit
        if visit.place == "left":
            self.exit(result=LEFT)
            return
        if visit.place == "welcome" and before.place != "welcome":
            self.idle.back(self._clock.steady())
        same = _page_key(before) == _page_key(visit)
        self._board.show(self._page(), same=same)
        if not same:
            self._quiet_until = events.Event().time + self._quiet
            self._foresee()

    def _foresee(self) -> None:
        """While a question is read, find out whether it is the last one that matters."""
        state = self.visit.state
        if self._foresees and self.visit.place == "asking" and state is not None and not self.visit.cover:
            self.run_worker(lambda: self._look_ahead(state), thread=True, exclusive=True, group="ahead")

    def _look_ahead(self, state: State) -> None:
        """Look ahead, away from the keys; what is found out too late is of no use to anybody."""
        from interview.kiosk.enough import enough

        worker = get_current_worker()
        if enough(state, lambda: worker.is_cancelled or self.visit.state is not state):
            self.call_from_thread(self._come_to_last, state)

    def _come_to_last(self, state: State) -> None:
        """Show that the question on the screen is the last one."""
        self.visit = self.reception.foreseen(self.visit, state)
        self._board.show(self._page(), same=True)

    def _page(self) -> Page:
        return page_of(self._conversation, self.visit, self.idle.seconds_left(self._clock.steady()))

    def look_at_clock(self) -> None:
        """Ask whether anybody is there, forget when nobody is, and look for lapsed tickets."""
        now = self._clock.steady()
        due = self.idle.due(now)
        if due == "forget":
            self.idle.back(now)
            self._come_to(Visit())
        elif due == "ask":
            if self.visit.empty:
                self.idle.back(now)
            else:
                self._come_to(self.reception.alone(self.visit))
        elif self.visit.cover == "still":
            self._board.show(self._page(), same=True)
        if now - self._purged >= _PURGE_EVERY:
            self._purged = now
            self.reception.purge()


def _page_key(visit: Visit) -> tuple[object, ...]:
    """Return what makes a page another page."""
    return (visit.place, visit.cover, visit.state.turn if visit.state else None)
