"""The right column: how the candidates stand, what is decided of both clubs, and the pictures."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.reactive import reactive

from interview.screens.bay import faces
from interview.screens.bay.gallery import gallery
from interview.screens.kit.pane import Pane
from interview.views.bay.drawn import PICTURES, drawn
from interview.views.bay.firm import Firm
from interview.views.bay.parts import parts_view
from interview.views.bay.standing import standing_view

if TYPE_CHECKING:
    from interview.conversation import State

PANES = ("standing", "parts", "pictures")
"""The panes of this column, from the top."""
ROLES = ("longer", "shorter")


class SideColumn(Vertical):
    """Shows what follows from what was said."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "sideways(-1)", "Left", show=False, id="side.left"),
        Binding("right", "sideways(1)", "Right", show=False, id="side.right"),
    ]

    column: reactive[int] = reactive(0, init=False)
    """Which club the decisions are looked at of: 0 the longer, 1 the shorter."""
    picture: reactive[int] = reactive(0, init=False)
    """Which picture is shown, by its place."""

    class Opened(Message):
        """The reasons of a decision were asked for, against a rival where one was chosen."""

        def __init__(self, decision: str, rival: str = "") -> None:
            super().__init__()
            self.decision = decision
            self.rival = rival

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._state: State | None = None
        self._firm = Firm()

    def compose(self) -> ComposeResult:
        """Lay the column out."""
        for name in PANES:
            yield Pane(id=name)

    def pane(self, name: str) -> Pane:
        """Return one of the panes."""
        return self.query_one(f"#{name}", Pane)

    def show(self, state: State) -> None:
        """Show what follows from a state."""
        self._state = state
        self._firm = Firm()
        self._show_standing()
        self._show_parts()
        self._show_picture()

    def show_firm(self, firm: Firm) -> None:
        """Show how firm the pick is, as far as that is known by now."""
        self._firm = firm
        self._show_standing()

    def _show_standing(self) -> None:
        """Show the candidates."""
        if self._state is not None:
            view = standing_view(self._state.outcome)
            view = replace(view, sure=self._firm.sure, steady=self._firm.steady)
            self.pane("standing").show(faces.standing(view))

    def _show_parts(self) -> None:
        """Show the decisions, with the club that is looked at marked."""
        if self._state is not None:
            view = parts_view(self._state.outcome, self._state.session.units)
            column = self.column if self.pane("parts").has_focus else None
            self.pane("parts").show(faces.parts(view, column))

    def _show_picture(self) -> None:
        """Show the picture that is looked at."""
        if self._state is not None:
            outcome, units, pane = self._state.outcome, self._state.session.units, self.pane("pictures")
            draw = lambda name: drawn(outcome, name, units)
            pane.show(gallery(self.picture % len(PICTURES), draw, lambda: pane.size.height))

    def watch_column(self) -> None:
        """Look at the other club."""
        self._show_parts()

    def watch_picture(self) -> None:
        """Look at another picture."""
        self._show_picture()

    def on_descendant_focus(self) -> None:
        """Mark the club that is looked at."""
        self._show_parts()

    def on_descendant_blur(self) -> None:
        """Take the mark away."""
        self._show_parts()

    def action_sideways(self, by: int) -> None:
        """Look at the other club, or at another picture."""
        if self.pane("pictures").has_focus:
            self.picture = (self.picture + by) % len(PICTURES)
        else:
            self.column = max(0, min(1, self.column + by))

    def looked_at(self) -> tuple[str, str]:
        """Return the decision that is looked at, and the rival where one is."""
        if self.pane("parts").has_focus and self.pane("parts").chosen:
            return f"{ROLES[self.column]}.{self.pane('parts').chosen.rpartition('.')[2]}", ""
        rival = self.pane("standing").chosen if self.pane("standing").has_focus else ""
        picked = self._state.outcome.picked if self._state else None
        return "pairing", "" if picked is not None and rival == picked.id else rival

    @on(Pane.Chosen)
    def _chosen(self, event: Pane.Chosen) -> None:
        """Ask for the reasons of what was chosen."""
        event.stop()
        self.post_message(self.Opened(*self.looked_at()))
