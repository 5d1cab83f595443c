"""The class: who is in it, how each gets on, what is due again, and the summary that the trainer keeps."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import BindingType

from interview.screens.kit.lists import ListScreen
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.kit.prompt import PromptScreen
from interview.screens.trainer.orders import COMMON, ROLL
from interview.screens.trainer.page import LessonScreen
from interview.views.trainer.enrolled import due_lines, roll_view, trainee_view
from interview.views.trainer.roll import due_rows, roll_heading, roll_rows, trainee_rows
from interview.views.trainer.said import said
from rules.paths import typed_path
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.views.pictures import Glyphs, Picture

_YES = "yes"


class RollScreen(LessonScreen[None]):
    """Lists the class. Every change is written at once, or told why it could not be."""

    ORDERS = ROLL
    HELP = "roll.help"
    BINDINGS: ClassVar[list[BindingType]] = bindings((*ROLL, *COMMON))

    def show_all(self) -> None:
        """Show the class, and the trainee that the cursor is on."""
        view = roll_view(self.desk.book, self.desk.trainee, self.desk.now())
        self.show("heading", lambda width, glyphs: roll_heading(view, width))
        self.show("list", lambda width, glyphs: roll_rows(view, width, glyphs))
        self._show_trainee()

    def _show_trainee(self) -> None:
        """Show the trainee that the cursor is on in full."""
        desk, id = self.desk, self.chosen
        if desk.book is None or not id:
            self.show("detail", lambda width, glyphs: ())
            return
        view = trainee_view(desk.book, id, desk.house.base, desk.now())
        self.show("detail", lambda width, glyphs: trainee_rows(view, width, glyphs))

    @property
    def chosen(self) -> str:
        """Return the trainee that the cursor is on; empty for nobody."""
        book, id = self.desk.book, self.pane("list").chosen
        return id if book is not None and any(one.id == id for one in book.trainees) else ""

    def on_screen_resume(self) -> None:
        """Show what became of the class meanwhile."""
        if self.is_mounted:
            self.show_all()

    @on(Pane.Moved, "#list")
    def _moved(self, event: Pane.Moved) -> None:
        """Follow the cursor."""
        event.stop()
        self._show_trainee()

    @on(Pane.Chosen, "#list")
    def _chosen(self, event: Pane.Chosen) -> None:
        """Let attempts count for whoever was chosen."""
        event.stop()
        self.action_sit()

    def action_sit(self) -> None:
        """Let attempts count for whoever the cursor is on; for nobody where it was he already."""
        if self.chosen:
            self.desk.sit(self.chosen if self.chosen != self.desk.trainee else "")
            self.show_all()

    # Changes of the class

    def action_add(self) -> None:
        """Add a trainee."""
        book = self.desk.book
        if book is not None:
            self._ask(said("roll.add_heading"), said("roll.add_hint"), "", lambda name: book.add(name))
        else:
            self.tell(said("roll.none_open"), alert=True)

    def action_rename(self) -> None:
        """Change the name of whoever the cursor is on."""
        book, id = self.desk.book, self.chosen
        if book is not None and id:
            name = book.roll.trainee(id).name
            heading = said("roll.rename_heading", name=name)
            self._ask(heading, said("roll.add_hint"), name, lambda new: book.rename(id, new))

    def action_remove(self) -> None:
        """Take whoever the cursor is on out of the class, once that is confirmed."""
        book, id = self.desk.book, self.chosen
        if book is not None and id:
            heading = said("roll.remove_heading", name=book.roll.trainee(id).name)
            self._ask(heading, said("roll.remove_hint"), "", partial(self._remove, id))

    def _remove(self, id: str, text: str) -> None:
        """Take somebody out of the class, where that was confirmed."""
        if self.desk.book is not None and text.strip().casefold() == _YES:
            self.desk.book.remove(id)
            if self.desk.trainee == id:
                self.desk.sit("")

    def action_open(self) -> None:
        """Open a class, or begin one, in a folder."""
        self._ask(said("roll.open_heading"), said("roll.open_hint"), "", self._open)

    def _open(self, text: str) -> None:
        """Open the class of a folder."""
        self.desk.open_class(typed_path(text.strip()))

    def _ask(self, heading: str, hint: str, text: str, act: Callable[[str], object]) -> None:
        """Ask for a line and act on it."""
        self.app.push_screen(PromptScreen(heading, hint, text), partial(self._act, act))

    def _act(self, act: Callable[[str], object], text: str | None) -> None:
        """Act on a line that was typed, and show what came of it; a problem is told in its own sentence."""
        if text is None or not text.strip():
            return
        try:
            act(text)
        except Problem as problem:
            self.tell_problem(problem)
        else:
            self.tell("")
        self.show_all()

    # What it is for

    def action_due(self) -> None:
        """List what whoever the cursor is on has to repeat, and let him: he is at the keys then."""
        if not self.chosen:
            self.tell(said("roll.nobody" if self.desk.book else "roll.none_open"), alert=True)
            return
        if self.chosen != self.desk.trainee:
            self.desk.sit(self.chosen)
        due = due_lines(self.desk.due(), self.desk.house.base)
        self.show_all()
        if not due:
            self.tell(said("exercise.nothing_due"))
            return

        def painter(width: int, glyphs: Glyphs) -> Picture:
            return due_rows(due, width, glyphs)

        heading = said("roll.due_of", name=self.desk.trainee_name)
        self.app.push_screen(ListScreen(heading, painter, leave=("f3",)), self._repeat)

    def _repeat(self, item: str | None) -> None:
        """Open what is to be repeated; where its case is not among those opened, say so."""
        from interview.screens.trainer.again import screen_for

        if item:
            screen = screen_for(self.desk, item)
            if screen is None:
                self.tell(said("roll.case_missing"), alert=True)
            else:
                self.app.push_screen(screen)

    def action_export(self) -> None:
        """Write the summary of the class, and say where it stands."""
        from interview.classroom import write_summary

        if self.desk.book is None:
            self.tell(said("roll.none_open"), alert=True)
            return
        try:
            files = write_summary(self.desk.book, self.desk.now())
        except Problem as problem:
            self.tell_problem(problem)
            return
        self.tell(said("roll.exported", files=" and ".join(str(file) for file in files)))
