"""A prediction marked by the ledger; from here the trace is walked, an answer changed, a rule tried."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import BindingType

from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.trainer.orders import COMMON, REVEAL
from interview.screens.trainer.page import LessonScreen
from interview.views.pictures.ink import Row, wrapped
from interview.views.trainer.marks import mark_rows, reveal_heading, reveal_rows
from interview.views.trainer.predicted import reveal_view
from interview.views.trainer.said import headed, said

if TYPE_CHECKING:
    from collections.abc import Sequence

    from interview.screens.trainer.desk import TeachingDesk
    from interview.views.pictures import Glyphs, Picture
    from rules.lessons.case import Case
    from rules.lessons.marks import Mark


class RevealScreen(LessonScreen[None]):
    """Shows the marks decision by decision, and why so many."""

    ORDERS = REVEAL
    HELP = "reveal.help"
    BINDINGS: ClassVar[list[BindingType]] = bindings((*REVEAL, *COMMON))

    def __init__(self, desk: TeachingDesk, case: Case, marks: Sequence[Mark]) -> None:
        super().__init__(desk)
        self.case = case
        self._view = reveal_view(case, marks, desk.units)

    def show_all(self) -> None:
        """Show the marks, and all of the one that the cursor is on."""
        view = self._view
        self.show("heading", lambda width, glyphs: reveal_heading(view, width))
        self.show("list", lambda width, glyphs: reveal_rows(view, width, glyphs))
        self._show_mark()

    def _show_mark(self) -> None:
        """Show all there is to say of the decision that the cursor is on, then the note of the case."""
        line, note = self._view.line(self.pane("list").chosen), self._view.note

        def paint(width: int, glyphs: Glyphs) -> Picture:
            marks = mark_rows(line, width, glyphs) if line else ()
            about = headed(said("reveal.note"), wrapped(note, width), width) if note else ()
            return (*marks, Row(), *about) if about else marks

        self.show("detail", paint)

    @on(Pane.Moved, "#list")
    def _moved(self, event: Pane.Moved) -> None:
        """Follow the cursor."""
        event.stop()
        self._show_mark()

    @on(Pane.Chosen, "#list")
    def _chosen(self, event: Pane.Chosen) -> None:
        """Walk the decision that was chosen."""
        event.stop()
        self.action_walk()

    def action_walk(self) -> None:
        """Walk every decision, beginning with the one that the cursor is on; where no rule spoke, say so."""
        from interview.screens.trainer.steps import StepsScreen

        screen = StepsScreen(self.desk, self.case, self.pane("list").chosen)
        if screen.walk.step.decision == self.pane("list").chosen:
            self.app.push_screen(screen)
        else:
            self.tell(said("reveal.no_walk"), alert=True)

    def action_whole(self) -> None:
        """Walk every decision from the first."""
        from interview.screens.trainer.steps import StepsScreen

        self.app.push_screen(StepsScreen(self.desk, self.case, ""))

    def action_change(self) -> None:
        """Change one answer."""
        from interview.screens.trainer.change import ChangeScreen

        self.app.push_screen(ChangeScreen(self.desk, self.case))

    def action_flip(self) -> None:
        """Let the flip be found."""
        from interview.screens.trainer.flip import FlipScreen

        self.app.push_screen(FlipScreen(self.desk, self.case))

    def action_edit(self) -> None:
        """Try a changed rule on this golfer."""
        from interview.screens.trainer.edit import EditScreen

        self.app.push_screen(EditScreen(self.desk, self.case))
