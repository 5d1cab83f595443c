"""Screens to look at a list and choose one of it: by arrows, by typing, or by one key."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.screen import Screen
from textual.widgets import Input

from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.line import TypeLine
from interview.screens.kit.orders import Order, found
from interview.screens.kit.pane import Painter, Pane

_STYLE = Path(__file__).with_name("lists.tcss")
BACK = (Order("list.leave", "escape", "leave", "back", "Goes back.", shown=True),)
"""The one order of a list."""


class ListScreen(Screen[str]):
    """A list to look at and to choose from; left with the target chosen, or with an empty text."""

    CSS_PATH = _STYLE
    AUTO_FOCUS = "#list"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Back", show=False, id="list.leave")]

    def __init__(
        self, heading: str, painter: Painter, keys: Mapping[str, str] | None = None, leave: Sequence[str] = ()
    ) -> None:
        super().__init__()
        self._heading = heading
        self._painter = painter
        self._keys = dict(keys or {})
        self._leave = tuple(leave)

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        from interview.screens.kit.faces import heading

        yield Pane(heading(self._heading), id="heading", classes="-fitting", focusable=False)
        yield Pane(self._painter, id="list")
        yield KeyBar(BACK, id="keys")

    def on_key(self, event: events.Key) -> None:
        """Choose by one key what has one; the key that opened the list closes it."""
        if event.key in self._leave:
            event.stop()
            self.dismiss("")
        elif event.character in self._keys:
            event.stop()
            self.dismiss(self._keys[event.character or ""])

    @on(Pane.Chosen, "#list")
    def _chosen(self, event: Pane.Chosen) -> None:
        """Leave with what was chosen."""
        event.stop()
        self.dismiss(event.target)

    def action_leave(self) -> None:
        """Leave with nothing."""
        self.dismiss("")


class FindScreen(Screen[str]):
    """A list that typing narrows; left with the target chosen, or with an empty text."""

    CSS_PATH = _STYLE
    AUTO_FOCUS = "#find"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Back", show=False, id="find.leave")]

    def __init__(
        self, heading: str, found: Callable[[str], Painter], hint: str, *, orders: Sequence[Order] = BACK
    ) -> None:
        super().__init__()
        self._heading = heading
        self._found = found
        self._hint = hint
        self.orders = tuple(orders)

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        from interview.screens.kit.faces import heading

        yield Pane(heading(self._heading), id="heading", classes="-fitting", focusable=False)
        yield TypeLine(self._hint, id="find", blink=bool(getattr(self.app, "blink", True)))
        yield Pane(self._found(""), id="list")
        yield KeyBar(self.orders, id="keys")

    def refresh_list(self) -> None:
        """Find again, for what is in the list has changed."""
        self.query_one("#list", Pane).show(self._found(self.query_one("#find", TypeLine).value))

    @on(Input.Changed, "#find")
    def _typed(self, event: Input.Changed) -> None:
        """Narrow the list."""
        event.stop()
        self.refresh_list()

    @on(TypeLine.Left, "#find")
    def _down(self, event: TypeLine.Left) -> None:
        """Go into the list, or to its last row."""
        event.stop()
        self.query_one("#list", Pane).focus()

    @on(Pane.Left, "#list")
    def _up(self, event: Pane.Left) -> None:
        """Come back to the line."""
        event.stop()
        self.query_one("#find", TypeLine).focus()

    @on(Input.Submitted, "#find")
    def _entered(self, event: Input.Submitted) -> None:
        """Choose the row that stands first."""
        event.stop()
        self.choose(self.query_one("#list", Pane).chosen)

    @on(Pane.Chosen, "#list")
    def _chosen(self, event: Pane.Chosen) -> None:
        """Choose a row."""
        event.stop()
        self.choose(event.target)

    def choose(self, target: str) -> None:
        """Leave with what was chosen."""
        if target:
            self.dismiss(target)

    def action_leave(self) -> None:
        """Leave with nothing."""
        self.dismiss("")


def list_orders(screen: Screen[Any], orders: Sequence[Order]) -> None:
    """List what can be done on a screen, narrowed by typing, and do what is chosen."""
    from interview.screens.kit.faces import order_list

    async def done(id: str | None) -> None:
        order = next((one for one in orders if one.id == id), None)
        if order is not None:
            await screen.app.run_action(order.action, screen)

    find = FindScreen("What to do", lambda text: order_list(found(orders, text)), "a word of what to do")
    screen.app.push_screen(find, done)
