"""A rule or a value changed on a copy, checked as it is typed, tried on one golfer and on all past cases."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input

from interview.screens.kit.line import TypeLine
from interview.screens.kit.lists import FindScreen
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.kit.prompt import PromptScreen
from interview.screens.trainer.orders import COMMON, EDIT
from interview.screens.trainer.page import LessonScreen
from interview.screens.trainer.picking import OptionsScreen
from interview.screens.trainer.trying import Found, Trying
from interview.views.trainer.edit import edit_heading, effect_rows, entries_rows, fields_rows, verdict_rows
from interview.views.trainer.edited import edit_view, entry_lines
from interview.views.trainer.names import case_title
from interview.views.trainer.predict import Pickable
from interview.views.trainer.said import said
from rules.lessons.overlay import begin, edit, editable, revert, save, switch_off
from rules.paths import typed_path
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.screens.kit.pane import Painter
    from interview.screens.trainer.desk import TeachingDesk
    from interview.views.trainer.edit import EditView
    from rules.lessons.case import Case
    from rules.lessons.overlay import Overlay


class EditScreen(Trying, LessonScreen[None]):
    """Holds a copy of the rules and one entry of it in hand. Ours is never written."""

    ORDERS = EDIT
    HELP = "edit.help"
    BINDINGS: ClassVar[list[BindingType]] = bindings((*EDIT, *COMMON))

    def __init__(self, desk: TeachingDesk, case: Case, entry: str = "") -> None:
        super().__init__(desk)
        self.case = case
        self.overlay: Overlay = desk.overlay or begin(desk.house, desk.rules)
        """The copy as it was last kept."""
        self.entry = entry
        """The entry in hand; empty for none."""
        self.path = ""
        """The field whose text is in the line; empty while none is."""
        self.view: EditView = edit_view(self.overlay, entry, case.id)

    def compose_below(self) -> ComposeResult:
        """Lay out the line on which a field's text is changed, and what is said against it."""
        yield TypeLine(said("edit.type"), id="line", blink=bool(getattr(self.app, "blink", True)))
        yield Pane(id="verdict", classes="-fitting", focusable=False)

    def on_mount(self) -> None:
        """Show the entry in hand, and choose one where none is."""
        self.begin_line("")
        self.show_all()
        self.try_out(self.overlay)
        if not self.entry:
            self.action_find()

    def show_all(self) -> None:
        """Show the copy, its entry in hand, and what the changes do."""
        view = self.view
        self.show("heading", lambda width, glyphs: edit_heading(view, width))
        self.show("list", lambda width, glyphs: fields_rows(view, width, glyphs))
        self.show("detail", lambda width, glyphs: effect_rows(view, width, glyphs))
        self.show("verdict", lambda width, glyphs: verdict_rows(view, width, glyphs))

    def look_at(self, overlay: Overlay) -> None:
        """Show a copy, and work out what it does."""
        self.view = replace(edit_view(overlay, self.entry, self.case.id), everywhere=self.view.everywhere)
        self.show_all()
        self.try_out(overlay)

    @on(Found)
    def _found(self, event: Found) -> None:
        """Show what was found out of the copy that is looked at."""
        event.stop()
        if event.number == self.tried:
            self.view = event.into(self.view)
            self.show_all()

    # One field

    def begin_line(self, path: str) -> None:
        """Put a field's text into the line, or put the line away."""
        self.path = path
        line = self.query_one("#line", TypeLine)
        line.display = bool(path)
        field = next((one for one in self.view.fields if one.path == path), None)
        with self.prevent(Input.Changed):
            line.value = field.text if field else ""
            line.cursor_position = len(line.value)
        (line if path else self.pane("list")).focus()

    @on(Pane.Chosen, "#list")
    def _chosen(self, event: Pane.Chosen) -> None:
        """Change the text of the field that was chosen."""
        event.stop()
        self.begin_line(event.target)

    @on(Input.Changed, "#line")
    def _typed(self, event: Input.Changed) -> None:
        """Check what is typed at once, and work out what it does."""
        event.stop()
        if self.path:
            self.look_at(self._with_line(event.value))

    def _with_line(self, text: str) -> Overlay:
        """Return the copy with the text of the line in its field; as it is kept where that says the same."""
        kept = (one.text for one in editable(self.overlay, self.entry) if one.path == self.path)
        return self.overlay if text in kept else edit(self.overlay, self.entry, self.path, text)

    @on(Input.Submitted, "#line")
    def _entered(self, event: Input.Submitted) -> None:
        """Keep what was typed; what does not load stays in the line."""
        event.stop()
        if self.path and not self.view.problems:
            self.keep(self._with_line(event.value))
            self.begin_line("")

    def keep(self, overlay: Overlay) -> None:
        """Keep a copy as it is, also for when this screen is opened again."""
        self.overlay = self.desk.overlay = overlay
        self.look_at(overlay)

    def action_off(self) -> None:
        """Switch the rule in hand off, or on again."""
        self.begin_line("")
        if self.entry not in self.overlay.house.base.rules:
            self.tell(said("edit.only_rules"), alert=True)
        elif self.entry in self.overlay.off:
            self.keep(revert(self.overlay, self.entry))
        else:
            self.keep(switch_off(self.overlay, self.entry))

    def action_revert(self) -> None:
        """Put the entry in hand back as it is in ours."""
        if self.entry:
            self.begin_line("")
            self.keep(revert(self.overlay, self.entry))

    # Another entry, another golfer, a folder

    def action_find(self) -> None:
        """Take another rule or value in hand."""

        def painter(text: str) -> Painter:
            found = entry_lines(self.overlay, text)
            return lambda width, glyphs: entries_rows(found, width, glyphs)

        self.app.push_screen(FindScreen(said("edit.find_heading"), painter, said("edit.find")), self._took)

    def _took(self, id: str | None) -> None:
        """Take an entry in hand."""
        if id:
            self.entry = id
            self.view = replace(edit_view(self.overlay, id, self.case.id), everywhere=self.view.everywhere)
            self.begin_line("")
            self.look_at(self.overlay)

    def action_case(self) -> None:
        """Look at another golfer."""
        options = tuple(
            Pickable(one.id, case_title(one.id), taken=one is self.case) for one in self.desk.cases
        )
        self.app.push_screen(OptionsScreen(said("edit.case_heading"), options), self._took_case)

    def _took_case(self, id: str | None) -> None:
        """Look at the golfer that was chosen."""
        if id:
            self.case = self.desk.case(id)
            self.look_at(self.overlay)

    def action_save(self) -> None:
        """Save the copy as a folder of its own."""
        screen = PromptScreen(said("edit.save_heading"), said("edit.save_hint"))
        self.app.push_screen(screen, self._save)

    def _save(self, text: str | None) -> None:
        """Save the copy, and say where; or why not."""
        if not text or not text.strip():
            return
        folder = typed_path(text.strip())
        try:
            save(self.overlay, folder)
        except Problem as problem:
            self.tell_problem(problem)
            return
        self.tell(said("edit.saved", folder=folder))

    def action_leave(self) -> None:
        """Leave the line as it was before; from the panes go back."""
        if self.path:
            self.begin_line("")
            self.look_at(self.overlay)
        else:
            super().action_leave()
