"""The sheets in the bay: the golfer's and the workshop's, looked at first, then written as pages."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar, Literal, Protocol

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.reactive import reactive
from textual.screen import Screen
from textual.worker import get_current_worker

from interview.screens.bay.orders import PAPERS
from interview.screens.kit.faces import heading, page_of, sentence
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.kit.prompt import PromptScreen
from rules.paths import typed_path
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.session import Session
    from rules.fitting import Outcome

Reader = Literal["golfer", "workshop"]
READERS: tuple[Reader, ...] = ("golfer", "workshop")
"""Whose sheets there are."""


class Sheets(Protocol):
    """Both sheets of one outcome."""

    def text(self, reader: Reader, width: int = 0) -> str:
        """Return a sheet as text for so many columns, or as wide as it wants to be."""

    def write(self, reader: Reader, folder: Path) -> Path:
        """Write a sheet as a page into a folder and return its file; a Problem where that fails."""


MakeSheets = Callable[["Outcome", "Session"], Sheets]
"""Makes the sheets of an outcome; whoever opens the bay brings it."""


class Made(Message):
    """Both sheets were made as text."""

    def __init__(self, sheets: Sheets, texts: tuple[str, ...]) -> None:
        super().__init__()
        self.sheets = sheets
        self.texts = texts


class Told(Message):
    """There is something to tell of the pages."""

    def __init__(self, words: str, *, alert: bool = False) -> None:
        super().__init__()
        self.words = words
        self.alert = alert


class PapersScreen(Screen[None]):
    """Shows a sheet as text and writes both as pages. What is on them is made elsewhere."""

    CSS_PATH = "papers.tcss"
    AUTO_FOCUS = "#sheet"
    BINDINGS: ClassVar[list[BindingType]] = bindings(PAPERS)

    reader: reactive[int] = reactive(0, init=False)
    """Whose sheet is looked at, by its place."""

    def __init__(self, make: Callable[[], Sheets], folder: Path) -> None:
        super().__init__()
        self._make = make
        self._folder = folder
        self._sheets: Sheets | None = None
        self._texts: tuple[str, ...] = ()
        self._made_for = 0
        """Cells of width that the sheets were set for."""

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Pane(id="heading", classes="-fitting", focusable=False)
        yield Pane(page_of("The sheets are being made."), id="sheet", classes="-flush")
        yield Pane(id="told", classes="-fitting", focusable=False)
        yield KeyBar(PAPERS, id="keys")

    def on_mount(self) -> None:
        """Make the sheets, away from the keys."""
        self._show()
        self._tell(Told(f"Pages go to {self._folder}; F4 names another folder."))
        self._begin()

    def _begin(self) -> None:
        """Make the sheets for the width there is."""
        self._made_for = self.size.width
        self.run_worker(self._work, thread=True, exclusive=True, group="make")

    def on_resize(self) -> None:
        """Set the sheets again for another width."""
        if self.size.width != self._made_for:
            self._begin()

    def _work(self) -> None:
        """Make both sheets."""
        worker, width = get_current_worker(), self.size.width - 2
        try:
            sheets = self._sheets or self._make()
            made = Made(sheets, tuple(sheets.text(reader, width) for reader in READERS))
        except Problem as problem:
            self.post_message(Told(f"{problem}.", alert=True))
            return
        if not worker.is_cancelled:
            self.post_message(made)

    @on(Made)
    def _made(self, event: Made) -> None:
        """Show the sheets."""
        self._sheets, self._texts = event.sheets, event.texts
        self._show()

    def _show(self) -> None:
        """Show the sheet that is looked at."""
        at = self.reader % len(READERS)
        self.query_one("#heading", Pane).show(heading(f"Sheets: the {READERS[at]}'s"))
        if self._texts:
            self.query_one("#sheet", Pane).show(page_of(self._texts[at]))

    @on(Told)
    def _tell(self, event: Told) -> None:
        """Tell something of the pages."""
        self.query_one("#told", Pane).show(sentence(event.words, "alert" if event.alert else "dim"))

    def watch_reader(self) -> None:
        """Look at the other sheet, from its top."""
        self._show()
        self.query_one("#sheet", Pane).scroll_home(animate=False)

    def action_look_at(self, reader: int) -> None:
        """Look at one of the two sheets."""
        self.reader = reader

    def action_write(self) -> None:
        """Write both sheets as pages."""
        sheets, folder = self._sheets, self._folder
        if sheets is not None:
            self.run_worker(lambda: self._write(sheets, folder), thread=True, exclusive=True, group="write")

    def _write(self, sheets: Sheets, folder: Path) -> None:
        """Write both, away from the keys."""
        try:
            files = [sheets.write(reader, folder) for reader in READERS]
        except Problem as problem:
            self.post_message(Told(f"{problem}.", alert=True))
            return
        names = " and ".join(file.name for file in files)
        self.post_message(Told(f"Written: {names} in {folder}; one page each, to print from any browser."))

    def action_folder(self) -> None:
        """Ask for another folder."""
        hint = "Both pages are written there: a shared folder, a stick. It is made if it is not there."
        self.app.push_screen(PromptScreen("Folder of the pages", hint, str(self._folder)), self._named)

    def _named(self, text: str | None) -> None:
        """Take another folder."""
        if text and text.strip():
            self._folder = typed_path(text.strip())
            self._tell(Told(f"Pages go to {self._folder}."))

    def action_leave(self) -> None:
        """Go back to the bay."""
        self.dismiss(None)
