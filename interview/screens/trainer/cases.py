"""The list of cases: where a lesson begins."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.binding import BindingType

from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.trainer.orders import CASES, COMMON
from interview.screens.trainer.page import LessonScreen
from interview.views.trainer.cases import CasesView, cases_heading, cases_rows, note_rows
from interview.views.trainer.enrolled import cases_view
from interview.views.trainer.said import said


class CasesScreen(LessonScreen[None]):
    """Lists the cases, and opens every other screen."""

    ORDERS = CASES
    HELP = "cases.help"
    BINDINGS: ClassVar[list[BindingType]] = bindings((*CASES, *COMMON))

    def show_all(self) -> None:
        """Show the cases, and the note of the one that the cursor is on."""
        view = self._view()
        self.show("heading", lambda width, glyphs: cases_heading(view, width))
        self.show("list", lambda width, glyphs: cases_rows(view, width, glyphs))
        self._show_note(view)

    def on_screen_resume(self) -> None:
        """Show what became of the cases meanwhile."""
        if self.is_mounted:
            self.show_all()

    def _view(self) -> CasesView:
        """Return the cases as they stand."""
        desk = self.desk
        return cases_view(desk.cases, desk.book, desk.trainee, desk.now(), notes=desk.notes)

    def _show_note(self, view: CasesView) -> None:
        """Show the note of the case that the cursor is on."""
        id = self.pane("list").chosen
        self.show("detail", lambda width, glyphs: note_rows(view, id, width))

    @on(Pane.Moved, "#list")
    def _moved(self, event: Pane.Moved) -> None:
        """Follow the cursor."""
        event.stop()
        self._show_note(self._view())

    @on(Pane.Chosen, "#list")
    def _chosen(self, event: Pane.Chosen) -> None:
        """Open a case."""
        event.stop()
        self.action_open()

    def action_open(self) -> None:
        """Open the case that the cursor is on, to be predicted."""
        from interview.screens.trainer.predict import PredictScreen
        from rules.lessons.case import decided

        id = self.pane("list").chosen
        if not id:
            return
        case = self.desk.case(id)
        if decided(case):
            self.app.push_screen(PredictScreen(self.desk, case))
        else:
            self.tell(said("cases.no_pair"), alert=True)

    def action_notes(self) -> None:
        """Show or cover the teaching notes."""
        self.desk.notes = not self.desk.notes
        self.show_all()

    def action_exercises(self) -> None:
        """Set exercises."""
        from interview.screens.trainer.exercise import ExerciseScreen

        if self.desk.cases:
            self.app.push_screen(ExerciseScreen(self.desk))

    def action_chart(self) -> None:
        """Show the map of the rule base."""
        from interview.screens.trainer.chart import ChartScreen

        self.app.push_screen(ChartScreen(self.desk))

    def action_edit(self) -> None:
        """Change rules on a copy, and look at the case that the cursor is on."""
        from interview.screens.trainer.edit import EditScreen

        id = self.pane("list").chosen
        if id:
            self.app.push_screen(EditScreen(self.desk, self.desk.case(id)))

    def action_roll(self) -> None:
        """Open the class."""
        from interview.screens.trainer.roll import RollScreen

        self.app.push_screen(RollScreen(self.desk))

    def action_units(self) -> None:
        """Change how quantities are shown."""
        self.desk.units = "metric" if self.desk.units == "imperial" else "imperial"
        self.tell(said(f"cases.units_{self.desk.units}"))

    def action_leave(self) -> None:
        """Stay: there is nothing below; from the note it goes back to the list."""
        if self.has_class("aside"):
            self.action_aside()
