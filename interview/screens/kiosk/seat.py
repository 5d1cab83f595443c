"""The kiosk as one browser sees it: the same app and pages, fed by lines instead of a terminal.

Lines come in on the standard input and pages go out on the standard output. A line that begins with `M` is
what the browser said, one with `P` asks whether anybody is in; a page comes back behind `F`, and `P` for a
`P`. There is nothing else: no file, no address to open, no title, no sign that steers a terminal.
"""

from __future__ import annotations

import asyncio
import os
import sys
from typing import TYPE_CHECKING

from textual import events
from textual.geometry import Size

from interview.screens.kiosk.app import KioskApp
from interview.screens.kiosk.board import Board
from interview.views.kiosk.frame import Heard, frame, heard
from interview.views.pictures import FULL

if TYPE_CHECKING:
    from collections.abc import Callable

    from interview.kiosk.clock import Clock
    from interview.kiosk.reception import Reception
    from interview.views.kiosk import Page

GONE = 1
"""Status of a seat whose browser went away."""
_LONGEST_LINE = 2**12


class ServedBoard(Board):
    """The board, of which every change is told: once for all changes that come together."""

    def __init__(self, page: Page, tell: Callable[[str], None], *, id: str | None = None) -> None:
        super().__init__(page, id=id)
        self.number = 0
        """Which page this is: another number, another page."""
        self._tell = tell
        self._due = False

    def show(self, page: Page, *, same: bool = False) -> None:
        """Show another page under another number."""
        self.number += not same
        super().show(page, same=same)

    def tell(self) -> None:
        """Tell the page as it stands."""
        self._changed()

    def _repaint(self) -> None:
        super()._repaint()
        self._changed()

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        """Tell also that the page was scrolled with the keys."""
        super().watch_scroll_y(old_value, new_value)
        self._changed()

    def _changed(self) -> None:
        if not self._due and self.is_attached:
            self._due = True
            self.call_later(self._out)

    def _out(self) -> None:
        self._due = False
        self._tell(frame(self.number, self.page, self._painted, self.cursor, self.scroll_offset.y))


class SeatApp(KioskApp):
    """The customer's screen in a browser."""

    def __init__(
        self, reception: Reception, clock: Clock, *, say: Callable[[str], None] | None = None,
    ) -> None:  # fmt: skip
        self._say = say or _print
        self._sized = False
        super().__init__(reception, clock, glyphs=FULL)

    def make_board(self, page: Page) -> Board:
        """Return a board whose pages are told to the browser, which scrolls them itself."""
        board = ServedBoard(page, self._show, id="board")
        board.styles.scrollbar_size_vertical = 0
        return board

    def _show(self, page: str) -> None:
        """Send a page, once it is known how large it may be."""
        if self._sized:
            self._say(f"F{page}")

    def on_ready(self) -> None:
        """Begin to listen."""
        super().on_ready()
        self.run_worker(self._listen(), name="ears", exit_on_error=True)

    async def _listen(self) -> None:
        """Hear lines until there are no more: then nobody is there any longer."""
        reader = asyncio.StreamReader(limit=_LONGEST_LINE)
        loop = asyncio.get_running_loop()
        await loop.connect_read_pipe(lambda: asyncio.StreamReaderProtocol(reader), sys.__stdin__)
        while line := await reader.readline():
            self.hear(line.decode("utf-8", "replace").rstrip("\n"))
        self.exit(result=GONE)

    def hear(self, line: str) -> None:
        """Do what a line says."""
        if line[:1] == "P":
            self._say("P")
        said = heard(line[1:]) if line[:1] == "M" else None
        if said is not None:
            self.idle.touched(self._clock.steady())
            self._do(said)

    def _do(self, said: Heard) -> None:
        """Press a key or a tile, or take another size."""
        if said.key:
            self.post_message(events.Key(said.key, said.key if len(said.key) == 1 else None))
        if said.size is not None and self._driver is not None:
            self._sized, size = True, Size(*said.size)
            self._driver._size = said.size
            self.post_message(events.Resize(size, size))
            if size == self.size and isinstance(self._board, ServedBoard):
                self._board.tell()  # a size that it has already paints nothing anew
        board = self._board
        on_it = any(tile.press == said.press for tile in board.page.pressable)
        if on_it and isinstance(board, ServedBoard) and said.page == board.number:
            board.post_message(Board.Pressed(said.press))


def _print(line: str) -> None:
    """Write one line to the server at once."""
    data = f"{line}\n".encode()
    while data:
        data = data[os.write(1, data) :]
