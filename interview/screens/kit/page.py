"""A screen to read a page on: made away from the keys, shown when it is there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.screen import Screen
from textual.worker import get_current_worker

from interview.screens.kit.faces import heading, page_of
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.lists import BACK
from interview.screens.kit.pane import Pane
from rules.problems import Problem

_MARGIN = 2
"""Cells of the list that hold no text: its scroll bar, and one beside it."""


class Ready(Message):
    """The page is there."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text


class PageScreen(Screen[None]):
    """Shows a page of text with lines of its own."""

    CSS_PATH = Path(__file__).with_name("lists.tcss")
    AUTO_FOCUS = "#list"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Back", show=False, id="page.leave")]

    def __init__(self, title: str, make: Callable[[int], str], leave: Sequence[str] = ()) -> None:
        super().__init__()
        self._title = title
        self._make = make
        """Makes the page for so many columns."""
        self._leave = tuple(leave)
        self._made_for = 0
        """Columns that the page was made for."""

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Pane(heading(self._title), id="heading", classes="-fitting", focusable=False)
        yield Pane(page_of("It is being worked out."), id="list", classes="-flush")
        yield KeyBar(BACK, id="keys")

    def on_resize(self) -> None:
        """Make the page for the width there is."""
        if self.size.width != self._made_for:
            self._made_for = self.size.width
            self.run_worker(self._work, thread=True, exclusive=True, group="make")

    def _work(self) -> None:
        """Make the page, away from the keys; what cannot be made says why."""
        worker = get_current_worker()
        try:
            text = self._make(self._made_for - _MARGIN)
        except Problem as problem:
            text = f"{problem}."
        if not worker.is_cancelled:
            self.post_message(Ready(text))

    @on(Ready)
    def _ready(self, event: Ready) -> None:
        """Show the page."""
        self.query_one("#list", Pane).show(page_of(event.text))

    def on_key(self, event: events.Key) -> None:
        """Leave by the key that opened it."""
        if event.key in self._leave:
            event.stop()
            self.dismiss(None)

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(None)
