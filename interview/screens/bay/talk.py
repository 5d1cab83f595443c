"""The left column: what was said, the question that is up, and the line to type on."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static

from interview.screens.bay import faces
from interview.screens.bay.heard import Heard
from interview.screens.kit.faces import sentence
from interview.screens.kit.line import TypeLine
from interview.screens.kit.pane import Pane
from interview.screens.kit.signs import glyphs_of

if TYPE_CHECKING:
    from interview.views.bay.talk import TalkView


class TalkColumn(Vertical):
    """Shows the talk and says what was entered; what that does is for others to say."""

    class Entered(Message):
        """A line was entered."""

        def __init__(self, text: str) -> None:
            super().__init__()
            self.text = text

    class WentBackTo(Message):
        """A question that was answered was chosen, to revise it."""

        def __init__(self, question: str) -> None:
            super().__init__()
            self.question = question

    def __init__(self, meaning: Callable[[str], Heard], *, id: str, blink: bool) -> None:
        super().__init__(id=id)
        self._meaning = meaning
        self._blink = blink
        self._ahead = ""

    def compose(self) -> ComposeResult:
        """Lay the column out."""
        yield Pane(id="said", at_end=True)
        yield Pane(id="ask", classes="-fitting", focusable=False)
        with Vertical(id="below"):  # stands at the foot however little room there is above
            with Horizontal(id="entry"):
                yield Static(Content(""), id="prompt", markup=False)
                yield TypeLine("an answer, or any question's name", id="line", blink=self._blink, clears=True)
            yield Pane(id="reads", classes="-fitting", focusable=False)

    def on_mount(self) -> None:
        """Put the sign before the line."""
        self.query_one("#prompt", Static).update(Content(glyphs_of(self.app).cursor))

    def show(self, talk: TalkView, *, busy: bool) -> None:
        """Show the talk; while an answer is worked out, the question stays that was answered."""
        self.query_one("#said", Pane).show(faces.said(talk))
        if not busy:
            self.query_one("#ask", Pane).show(faces.ask(talk))

    def show_ahead(self, text: str) -> None:
        """Show what the question could change, while nothing is typed."""
        self._ahead = text
        if not self.line.value:
            self._show_reads("")

    @property
    def line(self) -> TypeLine:
        """Return the line to type on."""
        return self.query_one("#line", TypeLine)

    def home(self) -> None:
        """Go to the line."""
        self.line.focus()

    def _show_reads(self, words: str) -> None:
        """Show what entering would do, or what hangs on the question."""
        text = f"{glyphs_of(self.app).arrow} {words}" if words else self._ahead
        self.query_one("#reads", Pane).show(sentence(text, "ghost" if words else "dim"))

    @on(Input.Changed, "#line")
    def _typing(self, event: Input.Changed) -> None:
        """Show what the line would do."""
        event.stop()
        self._show_reads(self._meaning(event.value).words)

    @on(Input.Submitted, "#line")
    def _entered(self, event: Input.Submitted) -> None:
        """Hand the line over."""
        event.stop()
        self.post_message(self.Entered(event.value))

    @on(Pane.Chosen, "#ask")
    def _picked(self, event: Pane.Chosen) -> None:
        """Answer with the choice that was clicked."""
        event.stop()
        self.post_message(self.Entered(event.target))

    @on(Pane.Chosen, "#said")
    def _chosen(self, event: Pane.Chosen) -> None:
        """Go back to a question."""
        event.stop()
        self.post_message(self.WentBackTo(event.target))

    @on(TypeLine.Left, "#line")
    def _leave_line(self, event: TypeLine.Left) -> None:
        """Go up the talk."""
        event.stop()
        if event.by < 0:
            self.query_one("#said", Pane).focus()

    @on(Pane.Left, "#said")
    def _leave_said(self, event: Pane.Left) -> None:
        """Come back down to the line."""
        event.stop()
        if event.by > 0:
            self.home()
