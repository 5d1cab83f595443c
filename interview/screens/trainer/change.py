"""One answer changed on a copy, and what moves."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import BindingType
from textual.message import Message
from textual.worker import get_current_worker

from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.kit.prompt import PromptScreen
from interview.screens.trainer.orders import CHANGE, COMMON
from interview.screens.trainer.page import LessonScreen
from interview.views.pictures.ink import Ink, row
from interview.views.trainer.answers import case_sheet, sheet_rows
from interview.views.trainer.change import ChangeView, change_rows
from interview.views.trainer.changed import (
    asked_of,
    change_view,
    question_hint,
    read,
    read_words,
    said_words,
    working_view,
)
from interview.views.trainer.names import case_title
from interview.views.trainer.said import said
from rules.lessons.case import with_answers
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.screens.trainer.desk import TeachingDesk
    from interview.views.pictures import Glyphs, Picture
    from rules.facts.answers import Answer
    from rules.lessons.case import Case


class Moved(Message):
    """What a changed answer moves was worked out."""

    def __init__(self, view: ChangeView) -> None:
        super().__init__()
        self.view = view


class ChangeScreen(LessonScreen[None]):
    """Lets one answer be changed and shows what follows; the case itself stays as it was."""

    ORDERS = CHANGE
    HELP = "change.help"
    BINDINGS: ClassVar[list[BindingType]] = bindings((*CHANGE, *COMMON))

    def __init__(self, desk: TeachingDesk, case: Case) -> None:
        super().__init__(desk)
        self.case = case
        self.view = ChangeView("")
        """What was moved last."""
        self._unanswered = False

    def show_all(self) -> None:
        """Show the answers, and what the last change moved."""
        title = case_title(self.case.id)
        sheet = case_sheet(self.case, self.desk.units, unanswered=self._unanswered)

        def top(width: int, glyphs: Glyphs) -> Picture:
            return (row(Ink(f" {said('change.heading')}: ", "head"), Ink(title, "strong")),)

        self.show("heading", top)
        self.show("list", lambda width, glyphs: sheet_rows(sheet, width, choose=True))
        self._show_moved()

    def _show_moved(self) -> None:
        """Show what the last change moved."""
        view = self.view
        self.show("detail", lambda width, glyphs: change_rows(view, width, glyphs))

    @on(Pane.Chosen, "#list")
    def _chosen(self, event: Pane.Chosen) -> None:
        """Change the answer that was chosen."""
        event.stop()
        self.action_answer()

    def action_answer(self) -> None:
        """Ask for another answer to the question that the cursor is on."""
        question = self.pane("list").chosen
        if not question:
            return
        asked = asked_of(self.case, question)
        before = self.case.subject.answers.get(question)
        now = said_words(self.case, question, before, self.desk.units)
        hint = said("change.hint", now=now, how=question_hint(self.case, question))
        reading = partial(read_words, self.case, question, system=self.desk.units)
        self.app.push_screen(PromptScreen(asked.text, hint, reading=reading), partial(self._typed, question))

    def _typed(self, question: str, text: str | None) -> None:
        """Work out what another answer moves."""
        if text is not None:
            self.change(question, read(self.case, question, text))

    def change(self, question: str, answer: Answer | None) -> None:
        """Work out away from the keys what an answer moves; the newest wins."""
        self.view = working_view(self.case, question, answer, self.desk.units)
        self._show_moved()
        work = partial(self._work, question, answer)
        self.run_worker(work, thread=True, exclusive=True, group="change")

    def _work(self, question: str, answer: Answer | None) -> None:
        """Run the road with the answer changed; away from the keys."""
        worker = get_current_worker()
        try:
            with self.desk.one_at_a_time:
                if worker.is_cancelled:
                    return
                other = with_answers(self.case, {question: answer})
            view = change_view(self.case, other, question, self.desk.units)
        except Problem as problem:
            view = ChangeView(question, trouble=f"{str(problem)[:1].upper()}{str(problem)[1:]}.")
        if not worker.is_cancelled:
            self.post_message(Moved(view))

    @on(Moved)
    def _moved(self, event: Moved) -> None:
        """Show what moved; where there is room for one pane only, it is that one."""
        event.stop()
        self.view = event.view
        self._show_moved()
        if self.has_class("-narrow") and not self.has_class("aside"):
            self.action_aside()

    def action_undo(self) -> None:
        """Put the answer back as it was."""
        self.workers.cancel_group(self, "change")
        self.view = ChangeView("")
        self._show_moved()

    def action_everything(self) -> None:
        """Show the questions that nobody answered too, or only the answered ones."""
        self._unanswered = not self._unanswered
        self.show_all()

    def action_flip(self) -> None:
        """Let the flip of the question that the cursor is on be found."""
        from interview.screens.trainer.flip import FlipScreen

        self.app.push_screen(FlipScreen(self.desk, self.case, self.pane("list").chosen))
