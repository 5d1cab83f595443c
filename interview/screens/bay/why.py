"""Why, why not, nearly, and what would change it: the reasons of one decision, line by line."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.reactive import reactive
from textual.screen import Screen
from textual.worker import get_current_worker

from interview.screens.bay import faces
from interview.screens.bay.orders import WHY
from interview.screens.kit.faces import page_of
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.views.bay.deeper import Studies, deeper_text
from interview.views.bay.reasons import contrast_view, reasons_view
from rules.inquiry.roads import Superseded
from rules.inquiry.study import study

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.screens.kit.pane import Painter
    from interview.views.bay.reasons import ContrastView
    from rules.inquiry.study import Study

VIEWS = ("why", "why not", "nearly", "what moves it")
"""What can be looked at: the ledger, a rival's beside it, the rules that kept silent, and what a study finds:
what would change it, what is enough, what it leans on."""
_DEEPER = 3


class Found(Message):
    """A study has grown."""

    def __init__(self, study: Study) -> None:
        super().__init__()
        self.study = study


class WhyScreen(Screen[str | None]):
    """Shows the reasons of one decision. It is left with the value that was taken instead, or with none."""

    CSS_PATH = "why.tcss"
    AUTO_FOCUS = "#lines"
    BINDINGS: ClassVar[list[BindingType]] = bindings(WHY)

    view: reactive[int] = reactive(0, init=False)
    """Which of these is looked at."""
    rival: reactive[int] = reactive(0, init=False)
    """Which rival is looked at, by its place."""

    def __init__(self, state: State, decision: str, rival: str = "", studies: Studies | None = None) -> None:
        super().__init__()
        self.state = state
        self._studies = studies or Studies()
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
        elif self.view == _DEEPER:
            lines.show(self._deeper())
            self._look_deeper()
        else:
            lines.show(faces.contrast(self._contrast()))
        self._show_detail(lines.chosen)

    def _deeper(self) -> Painter:
        """Return the painter of what a study has found so far."""
        outcome, units = self.state.outcome, self.state.session.units
        study = self._studies.of(outcome)
        decision = self.decision
        return lambda width, glyphs: page_of(deeper_text(outcome, study, decision, units, width))(
            width, glyphs
        )

    def _look_deeper(self) -> None:
        """Study the outcome away from the keys, unless that was done."""
        study = self._studies.of(self.state.outcome)
        if study is None or not study.complete:
            self.run_worker(self._study, thread=True, group="study", exclusive=True)

    def _study(self) -> None:
        """Study the outcome; leaving the screen ends it."""
        worker = get_current_worker()
        with contextlib.suppress(Superseded):
            study(self.state.outcome, self._tell, lambda: worker.is_cancelled, both_cores=True)

    def _tell(self, found: Study) -> None:
        self.post_message(Found(found))

    @on(Found)
    def _found(self, event: Found) -> None:
        """Show what the study has found."""
        self._studies.keep(self.state.outcome, event.study)
        if self.view == _DEEPER:
            self.query_one("#lines", Pane).show(self._deeper())

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
        """Look at why, why not, nearly, or what moves it."""
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
