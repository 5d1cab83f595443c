"""The line of keys at the foot of a screen: made from the registry, clickable."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events

from interview.screens.kit.orders import Order, shown
from interview.screens.kit.pane import Pane
from interview.views.pictures import Glyphs, Ink, Picture
from interview.views.pictures.ink import cells, row


class KeyBar(Pane, can_focus=False):
    """Shows which keys do what."""

    def __init__(self, orders: Sequence[Order], *, id: str | None = None) -> None:
        super().__init__(self._keys, id=id, classes="-fitting", focusable=False)
        self._orders = shown(orders)

    def _keys(self, width: int, glyphs: Glyphs) -> Picture:
        """Paint the keys, as many as fit."""
        pieces: list[Ink] = []
        used = 0
        for one in self._orders:
            used += cells(one.key_name) + cells(one.label) + 4
            if used - 3 > width and pieces:
                break
            pieces += [Ink(f"{one.key_name} ", "key"), Ink(f"{one.label}   ", "dim")]
        return (row(*pieces),)

    def on_click(self, event: events.Click) -> None:
        """Do the order that was clicked."""
        at = 0
        for one in self._orders:
            at += cells(one.key_name) + cells(one.label) + 4
            if event.x < at:
                self.call_later(self.app.run_action, one.action, self.screen)
                return
