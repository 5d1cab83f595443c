"""What if: other answers tried on a copy, both fittings side by side; the copy is kept or dropped."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.screen import Screen
from textual.widgets import Input
from textual.worker import get_current_worker

from interview.conversation import Answered, NotKnown, Withdrew
from interview.screens.bay import faces
from interview.screens.bay.heard import heard
from interview.screens.bay.named import find_question
from interview.screens.bay.orders import WHAT_IF
from interview.screens.kit.faces import heading, sentence
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.line import TypeLine
from interview.screens.kit.lists import ListScreen
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.kit.signs import glyphs_of
from interview.views.bay.questions import talk_view
from interview.views.bay.whatif import WhatIfView, whatif_view
from interview.views.pictures.whatif import changes_rows, whatif_rows
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.conversation import Conversation, State
    from interview.views.pictures import Role

Change = Answered | NotKnown | Withdrew
"""What may be done to an answer of the copy."""
_AWAY = re.compile(r"^(.+?)\s+(?:open|away|gone)$", re.IGNORECASE)
"""An answer taken away: the question's name, then a word."""


class Tried(Message):
    """A copy was worked out."""

    def __init__(self, changes: tuple[Change, ...], view: WhatIfView) -> None:
        super().__init__()
        self.changes = changes
        self.view = view


class Refused(Message):
    """A change could not be made, and why."""

    def __init__(self, sentence: str) -> None:
        super().__init__()
        self.sentence = sentence


class WhatIfScreen(Screen[tuple[Change, ...]]):
    """Tries answers on a copy. It is left with the changes to keep, or with none."""

    CSS_PATH = "whatif.tcss"
    AUTO_FOCUS = "#line"
    BINDINGS: ClassVar[list[BindingType]] = bindings(WHAT_IF)

    def __init__(self, conversation: Conversation, state: State, text: str = "") -> None:
        super().__init__()
        self.conversation = conversation
        self.state = state
        self.changes: tuple[Change, ...] = ()
        """What is changed on the copy, in the order in which it was said."""
        self._text = text

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Pane(heading("What if"), id="title", classes="-fitting", focusable=False)
        yield Pane(lambda *at: changes_rows(None, *at), id="changes", classes="-fitting", focusable=False)
        yield Pane(id="beside")
        blink = bool(getattr(self.app, "blink", True))
        yield TypeLine("another answer, such as 'handicap 12' or 'tempo open'", id="line", blink=blink)
        yield Pane(id="reads", classes="-fitting", focusable=False)
        yield KeyBar(WHAT_IF, id="keys")

    def on_mount(self) -> None:
        """Try what was typed before, or show the fitting beside itself."""
        self._tell("")
        change = self._change(self._text) if self._text else None
        if self._text and change is None:
            self.query_one("#line", TypeLine).insert(self._text, 0)
        self._try((change,) if change else ())

    # What is typed

    def _change(self, line: str) -> Change | None:
        """Return what a line changes; None where it names no question's answer."""
        nothing_up = replace(self.state, asking=None)
        away = _AWAY.match(line.strip())
        meant = heard(self.conversation, nothing_up, line)
        if meant.kind == "answer" and meant.question:
            return Answered(meant.question, meant.text)
        if meant.kind == "unknown" and meant.question:
            return NotKnown(meant.question)
        question = find_question(self.conversation, nothing_up, away[1]) if away else None
        if question:
            return Withdrew(question)
        return Answered(meant.question, meant.text) if meant.question and meant.kind == "unread" else None

    @on(Input.Changed, "#line")
    def _typing(self, event: Input.Changed) -> None:
        """Show how the line is understood."""
        event.stop()
        change = self._change(event.value)
        words = heard(self.conversation, replace(self.state, asking=None), event.value).words
        if isinstance(change, Withdrew):
            words = f"{self.conversation.base.facts[change.question].title}: open"
        self._tell(f"{glyphs_of(self.app).arrow} {words}" if words else "", ghost=True)

    @on(Input.Submitted, "#line")
    def _entered(self, event: Input.Submitted) -> None:
        """Change the copy."""
        event.stop()
        change = self._change(event.value)
        if change is None:
            if event.value.strip():
                self._tell("A question's name and its answer are wanted, such as 'handicap 12'.", alert=True)
            return
        event.input.clear()
        self._try((*self.changes, change))

    def _tell(self, text: str, *, alert: bool = False, ghost: bool = False) -> None:
        """Tell something under the line."""
        role: Role = "alert" if alert else "ghost" if ghost else "dim"
        self.query_one("#reads", Pane).show(sentence(text, role))

    # The copy

    def _try(self, changes: tuple[Change, ...]) -> None:
        """Work a copy out, away from the keys; a newer one overtakes it."""
        self.run_worker(lambda: self._work(changes), thread=True, exclusive=True, group="copy")

    def _work(self, changes: tuple[Change, ...]) -> None:
        """Make the changes on a copy, and hold it beside the fitting as it is."""
        worker, copy = get_current_worker(), self.state
        try:
            for change in changes:
                copy = self.conversation.step(copy, change)
                if copy.refusal is not None:
                    self.post_message(Refused(copy.refusal.sentence))
                    return
            view = whatif_view(self.conversation, self.state, copy)
        except Problem as problem:
            self.post_message(Refused(str(problem)))
            return
        if not worker.is_cancelled:
            self.post_message(Tried(changes, view))

    @on(Tried)
    def _tried(self, event: Tried) -> None:
        """Show both side by side."""
        self.changes = event.changes
        view = event.view
        self.query_one("#changes", Pane).show(lambda *at: changes_rows(view, *at))
        self.query_one("#beside", Pane).show(lambda *at: whatif_rows(view, *at))
        self._tell("Nothing comes out otherwise." if self.changes and view.same else "")

    @on(Refused)
    def _refused(self, event: Refused) -> None:
        """Say why a change was not made."""
        self._tell(f"{event.sentence.rstrip('.')}.", alert=True)

    @on(TypeLine.Left, "#line")
    def _up(self, event: TypeLine.Left) -> None:
        """Go and look."""
        event.stop()
        self.query_one("#beside", Pane).focus()

    # Orders

    def action_undo(self) -> None:
        """Take the last change of the copy back."""
        self._try(self.changes[:-1])

    def action_map(self) -> None:
        """Show the questions; one key puts a name on the line."""
        talk = talk_view(self.conversation, self.state)
        keys = {one.key: one.title for topic in talk.topics for one in topic.questions if one.key}
        screen = ListScreen("Questions: press a key to change one", faces.question_map(talk), keys, ("f4",))
        self.app.push_screen(screen, self._named)

    def _named(self, name: str | None) -> None:
        """Put a question's name on the line, for its answer to be typed after it."""
        line = self.query_one("#line", TypeLine)
        if name:
            fact = self.conversation.base.facts.get(name)
            line.value = f"{fact.title if fact else name}: "
            line.cursor_position = len(line.value)
        line.focus()

    def action_keep(self) -> None:
        """Leave with the changes."""
        self.dismiss(self.changes)

    def action_leave(self) -> None:
        """Drop the copy; from the pane the first press goes back to the line."""
        if self.query_one("#beside", Pane).has_focus:
            self.query_one("#line", TypeLine).focus()
        else:
            self.dismiss(())
