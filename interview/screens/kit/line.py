"""A line to type on: takes text as it comes, with nothing in it that could steer a terminal."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Input

from interview.text import clean

LONGEST = 400
"""Letters that a line holds."""


def tame(text: str) -> str:
    """Return typed or pasted text on one line, without anything that could steer a terminal."""
    return clean(text).replace("\n", " ").replace("\t", " ")


class TypeLine(Input):
    """One line of typed text. Arrows up and down leave it; enter hands over what was typed."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "leave(-1)", "Up", show=False, id="line.up"),
        Binding("down", "leave(1)", "Down", show=False, id="line.down"),
    ]

    class Left(Message):
        """The line was left with an arrow: up (-1) or down (1)."""

        def __init__(self, line: TypeLine, by: int) -> None:
            super().__init__()
            self.line = line
            self.by = by

        @property
        def control(self) -> TypeLine:
            """Return the line."""
            return self.line

    def __init__(
        self, placeholder: str = "", *, id: str | None = None, blink: bool = True, clears: bool = False
    ) -> None:
        super().__init__(
            placeholder=placeholder, id=id, compact=True, max_length=LONGEST, select_on_focus=False
        )
        self.cursor_blink = blink
        self._clears = clears
        """Whether entering empties the line at once, so that keys typed ahead begin a new one."""

    async def _on_key(self, event: events.Key) -> None:
        """Enter in the order of the keys: a binding would be done after the letters that follow it."""
        if event.key != "enter":
            await super()._on_key(event)
            return
        event.stop()
        event.prevent_default()
        self.post_message(self.Submitted(self, self.value))
        if self._clears:
            self.clear()

    def put_back(self, text: str) -> None:
        """Put a text that was entered back, before whatever was typed since; alone, it is selected."""
        alone = not self.value
        self.insert(text, 0)
        if alone:
            self.select_all()

    def insert(self, text: str, index: int) -> None:
        """Put text in, tamed."""
        super().insert(tame(text), index)

    def replace(self, text: str, start: int, end: int) -> None:
        """Put text in the place of other text, tamed."""
        super().replace(tame(text), start, end)

    def _on_paste(self, event: events.Paste) -> None:
        """Take a paste as one line, however many it has."""
        self.insert_text_at_cursor(event.text.strip())
        event.stop()
        event.prevent_default()

    def action_leave(self, by: int) -> None:
        """Leave the line upwards or downwards."""
        self.post_message(self.Left(self, by))
