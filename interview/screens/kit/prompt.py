"""A small box that asks for one line of text."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input

from interview.screens.kit.faces import sentence
from interview.screens.kit.line import TypeLine
from interview.screens.kit.pane import Pane

Reading = Callable[[str], tuple[str, bool]]
"""Reads what is typed: how it is understood, and whether it can be taken."""


class PromptScreen(ModalScreen[str | None]):
    """Asks for one line; left with the text, or with None when nothing is to change."""

    CSS_PATH = Path(__file__).with_name("prompt.tcss")
    AUTO_FOCUS = "#line"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "Back", show=False, id="prompt.leave")
    ]

    def __init__(self, title: str, hint: str, text: str = "", reading: Reading | None = None) -> None:
        super().__init__()
        self._title = title
        self._hint = hint
        self._text = text
        self._reading: Reading = reading or (lambda typed: ("", True))

    def compose(self) -> ComposeResult:
        """Lay the box out."""
        with Vertical(id="box"):
            yield Pane(sentence(self._title, "head"), id="title", classes="-fitting", focusable=False)
            yield Pane(sentence(self._hint, "dim"), id="hint", classes="-fitting", focusable=False)
            yield TypeLine("", id="line", blink=bool(getattr(self.app, "blink", True)))
            yield Pane(id="reads", classes="-fitting", focusable=False)

    def on_mount(self) -> None:
        """Begin with the text there was."""
        self.query_one("#line", TypeLine).insert(self._text, 0)

    @on(Input.Changed, "#line")
    def _typed(self, event: Input.Changed) -> None:
        """Show how it is understood."""
        event.stop()
        words, good = self._reading(event.value)
        self.query_one("#reads", Pane).show(sentence(words, "ghost" if good else "alert"))

    @on(Input.Submitted, "#line")
    def _entered(self, event: Input.Submitted) -> None:
        """Leave with the text, if it can be taken."""
        event.stop()
        if self._reading(event.value)[1]:
            self.dismiss(event.value)
        elif not event.value.strip():
            self.query_one("#reads", Pane).show(sentence("Nothing is typed yet; Esc goes back.", "alert"))

    def action_leave(self) -> None:
        """Leave everything as it is."""
        self.dismiss(None)
