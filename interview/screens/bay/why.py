"""Why, why not, and nearly: the reasons of one decision, line by line."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.reactive import reactive
from textual.screen import Screen

from interview.screens.bay import faces
from interview.screens.bay.orders import WHY
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.views.bay.reasons import contrast_view, reasons_view

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.views.bay.reasons import ContrastView

VIEWS = ("why", "why not", "nearly")
"""What can be looked at: the ledger, a rival's beside it, and the rules that kept silent."""


class WhyScreen(Screen[str | None]):
    """Shows the reasons of one decision. It is left with the value that was taken instead, or with none."""

    CSS_PATH = "why.tcss"
    AUTO_FOCUS = "#lines"
    BINDINGS: ClassVar[list[BindingType]] = bindings(WHY)

    view: reactive[int] = reactive(0, init=False)
    """Which of the three is looked at."""
    rival: reactive[int] = reactive(0, init=False)
    """Which rival is looked at, by its place."""

    def __init__(self, state: State, decision: str, rival: str = "") -> None:
        super().__init__()
        self.state = state
        self.decision = decision
        self.reasons = reasons_view(state.outcome, decision, state.session.units)
        ids = [one.id for one in self.reasons.rivals]
        self.set_reactive(WhyScreen.rival, ids.index(rival) if rival in ids else 0)
        self.set_reactive(WhyScreen.view, 1 if rival in ids else 0)

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Pane(id="heading", classes="-fitting", focusable=False)
        yield Pane(id="lines")
        yield Pane(id="detail", classes="-fitting", focusable=False)
        yield KeyBar(WHY, id="keys")

    def on_mount(self) -> None:
        """Show the reasons."""
        self._show()

    def _show(self) -> None:
        """Show what is looked at."""
        reasons = self.reasons
        self.query_one("#heading", Pane).show(faces.why_heading(reasons, VIEWS, self.view, self.rival))
        lines = self.query_one("#lines", Pane)
        if self.view == 0:
            lines.show(faces.ledger(reasons))
        elif self.view == 2:
            lines.show(faces.near(reasons))
        else:
            lines.show(faces.contrast(self._contrast()))
        self._show_detail(lines.chosen)

    def _contrast(self) -> ContrastView | None:
        """Return the pick's ledger beside that of the rival that is looked at."""
        rivals = self.reasons.rivals
        if not rivals:
            return None
        rival = rivals[self.rival % len(rivals)].id
        return contrast_view(self.state.outcome, self.decision, rival, self.state.session.units)

    def _show_detail(self, rule: str) -> None:
        """Show all there is to say of the line that the cursor is on."""
        self.query_one("#detail", Pane).show(faces.detail(self.reasons, rule))

    @on(Pane.Moved, "#lines")
    def _moved(self, event: Pane.Moved) -> None:
        """Follow the cursor."""
        event.stop()
        self._show_detail(event.target)

    def watch_view(self) -> None:
        """Look at something else."""
        self._show()

    def watch_rival(self) -> None:
        """Look at another rival."""
        self._show()

    def action_look_at(self, view: int) -> None:
        """Look at why, why not or nearly."""
        self.view = view

    def action_rival(self, by: int) -> None:
        """Look at the next rival."""
        if self.reasons.rivals:
            self.view = 1
            self.rival = (self.rival + by) % len(self.reasons.rivals)

    def action_take(self) -> None:
        """Leave to decide it otherwise: for the rival that is looked at, where one is."""
        rivals = self.reasons.rivals
        self.dismiss(rivals[self.rival % len(rivals)].id if rivals and self.view == 1 else "")

    def action_leave(self) -> None:
        """Go back to the bay."""
        self.dismiss(None)
