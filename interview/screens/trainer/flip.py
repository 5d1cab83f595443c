"""Find the flip yourself: guess the value that changes the pair, try it, and only then be told."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input
from textual.worker import get_current_worker

from interview.screens.kit.line import TypeLine
from interview.screens.kit.orders import bindings
from interview.screens.trainer.orders import COMMON, FLIP
from interview.screens.trainer.page import LessonScreen
from interview.views.pictures.ink import Ink, row
from interview.views.trainer.answers import case_sheet, sheet_rows
from interview.views.trainer.change import flip_rows
from interview.views.trainer.changed import flip_view, question_hint
from interview.views.trainer.names import case_title
from interview.views.trainer.said import said
from rules.lessons.flipping import NONE, flip_task, mark_flip
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.screens.trainer.desk import TeachingDesk
    from interview.views.pictures import Glyphs, Picture
    from rules.lessons.case import Case
    from rules.lessons.flipping import FlipMark


class Tried(Message):
    """A guess was tried, or could not be read, or another fact was found to guess about."""

    def __init__(self, mark: FlipMark | None = None, trouble: str = "", fact: str = "") -> None:
        super().__init__()
        self.mark = mark
        self.trouble = trouble
        self.fact = fact


class FlipScreen(LessonScreen[None]):
    """Takes guesses at the value of one fact that changes the pair; tells what is true when it is asked."""

    ORDERS = FLIP
    HELP = "flip.help"
    AUTO_FOCUS = "#guess"
    BINDINGS: ClassVar[list[BindingType]] = bindings((*FLIP, *COMMON))

    def __init__(self, desk: TeachingDesk, case: Case, fact: str = "") -> None:
        super().__init__(desk)
        self.case = case
        guessable = fact in case.base.facts and case.base.facts[fact].kind in ("number", "choice")
        self.fact = fact if guessable else ""
        """The fact that is guessed about; empty while one is looked for."""
        self.marks: tuple[FlipMark, ...] = ()
        """The guesses so far, each tried."""
        self.told = False
        """Whether it was told."""

    def compose_below(self) -> ComposeResult:
        """Lay the line out on which guesses are typed."""
        blink = bool(getattr(self.app, "blink", True))
        yield TypeLine(said("flip.type"), id="guess", blink=blink, clears=True)

    def on_mount(self) -> None:
        """Show the case; where no fact was named, look for one worth guessing about."""
        if not self.fact:
            self._look_for(self.desk.next_seed())
        self.show_all()

    def show_all(self) -> None:
        """Show the hunt, beside what was said."""
        title, sheet = case_title(self.case.id), case_sheet(self.case, self.desk.units)

        def top(width: int, glyphs: Glyphs) -> Picture:
            return (row(Ink(f" {said('flip.heading')}: ", "head"), Ink(title, "strong")),)

        self.show("heading", top)
        self.show("detail", lambda width, glyphs: sheet_rows(sheet, width))
        if self.fact:
            view = flip_view(self.case, self.fact, self.marks, self.desk.units, told=self.told)
            self.show("list", lambda width, glyphs: flip_rows(view, width, glyphs))
            self.tell(question_hint(self.case, self.fact))

    @on(Input.Submitted, "#guess")
    def _entered(self, event: Input.Submitted) -> None:
        """Try what was typed."""
        event.stop()
        if event.value.strip():
            self._try(event.value)

    def action_guess(self) -> None:
        """Go to the line; entering it tries the guess."""
        self.query_one("#guess").focus()

    def action_none(self) -> None:
        """Guess that no value changes the pair."""
        self._try(NONE)

    def _try(self, text: str) -> None:
        """Try a guess away from the keys; the newest wins. After the telling there is nothing to guess."""
        if self.fact and not self.told:
            self.tell(said("flip.working"))
            self.run_worker(partial(self._work, self.fact, text), thread=True, exclusive=True, group="flip")

    def _work(self, fact: str, text: str) -> None:
        """Mark a guess; away from the keys."""
        worker = get_current_worker()
        try:
            with self.desk.one_at_a_time:
                found = Tried(mark_flip(self.case, fact, text))
        except Problem as problem:
            found = Tried(trouble=str(problem))
        if not worker.is_cancelled:
            self.post_message(found)

    @on(Tried)
    def _tried(self, event: Tried) -> None:
        """Show what a guess gave, or the fact that was found."""
        event.stop()
        if event.fact:
            self.fact, self.marks, self.told = event.fact, (), False
        if event.mark is not None and event.mark.fact == self.fact:
            self.marks = (*self.marks, event.mark)
        self.show_all()
        if event.trouble:
            self.tell_problem(event.trouble)

    def action_show_answer(self) -> None:
        """Mark the last guess and tell what is true; before a guess there is nothing to mark."""
        if not self.marks:
            self.tell(said("flip.guess_first"), alert=True)
        elif not self.told:
            self.told = True
            self.desk.flipped(self.case, self.marks[-1])
            self.show_all()

    def action_next(self) -> None:
        """Take another fact to guess about."""
        self._look_for(self.desk.next_seed())

    def _look_for(self, seed: int) -> None:
        """Look away from the keys for a fact worth guessing about."""
        self.tell(said("flip.looking"))
        self.run_worker(partial(self._find, seed), thread=True, exclusive=True, group="flip")

    def _find(self, seed: int) -> None:
        """Find a fact worth guessing about; away from the keys."""
        worker = get_current_worker()
        try:
            with self.desk.one_at_a_time:
                found = Tried(fact=flip_task(self.case, seed))
        except Problem as problem:
            found = Tried(trouble=str(problem))
        if not worker.is_cancelled:
            self.post_message(found)
