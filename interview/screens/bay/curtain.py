"""What is on the screen while the rules are read: the opening question, and a line that takes keys."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.screen import Screen
from textual.widgets import Input

from interview.screens.bay.orders import BAY
from interview.screens.kit.faces import heading, sentence
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.line import TypeLine
from interview.screens.kit.pane import Pane
from interview.views.pictures.talk import asked_rows

if TYPE_CHECKING:
    from interview.views.bay.talk import AskView

_PAINTED = 0.03
"""Seconds in which a screen is painted."""


class CurtainScreen(Screen[None]):
    """Shows the opening question. What is typed meanwhile is handed on; nothing is answered here."""

    CSS_PATH = "curtain.tcss"
    AUTO_FOCUS = "#line"

    def __init__(self, ask: AskView | None, begin: Callable[[], object]) -> None:
        super().__init__()
        self.ask = ask
        self._begin = begin
        self.entered = False
        """Whether the line was entered: it answers the question that is on the screen, and no other."""

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Pane(heading("Turfpair bay"), classes="-fitting", focusable=False)
        with Vertical(id="talk"):
            if self.ask is not None:
                ask = self.ask
                painter = lambda width, glyphs: asked_rows(ask, width)
                yield Pane(painter, id="ask", classes="-fitting", focusable=False)
            yield TypeLine("an answer, or any question's name", id="line")
            yield Pane(
                sentence("One moment: the rules are being read.", "dim"), classes="-fitting", focusable=False
            )
        yield KeyBar(BAY)

    def on_mount(self) -> None:
        """Begin to read the rules once the question has been painted, so that nothing keeps it waiting."""
        self.set_timer(_PAINTED, self._begin)

    @property
    def typed(self) -> str:
        """Return what was typed."""
        return self.query_one("#line", TypeLine).value

    @on(Input.Submitted, "#line")
    def _entered(self) -> None:
        """Remember that the line was entered, once; more keys wait for what they belong to."""
        if self.typed.strip():
            self.entered = True
            self.query_one("#line", TypeLine).disabled = True
