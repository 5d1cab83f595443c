"""Exercises made from the rules and the cases: answered by a digit or a number, settled by a computation."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input
from textual.worker import get_current_worker

from interview.screens.kit.line import TypeLine
from interview.screens.kit.lists import ListScreen
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.trainer.orders import COMMON, EXERCISE
from interview.screens.trainer.page import LessonScreen
from interview.views.trainer.exercise import NEXT, exercise_heading, exercise_rows, working_rows
from interview.views.trainer.exercised import exercise_view, kinds_rows, mixed
from interview.views.trainer.said import said
from rules.lessons.exercises import answered, make, remake
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.screens.trainer.desk import TeachingDesk
    from interview.views.trainer.exercise import ExerciseView
    from rules.lessons.exercises import Exercise, Kind, Result


class Made(Message):
    """An exercise was made, or could not be."""

    def __init__(self, exercise: Exercise | None = None, trouble: str = "") -> None:
        super().__init__()
        self.exercise = exercise
        self.trouble = trouble


class ExerciseScreen(LessonScreen[None]):
    """Sets one exercise after another. What was made is repeatable; what was answered is recorded."""

    ORDERS = EXERCISE
    HELP = "exercise.help"
    BINDINGS: ClassVar[list[BindingType]] = bindings((*EXERCISE, *COMMON))

    def __init__(self, desk: TeachingDesk, due: tuple[str, ...] = ()) -> None:
        super().__init__(desk)
        self.kind: Kind | None = None
        """The kind that is set; None for a bit of everything."""
        self.exercise: Exercise | None = None
        self.result: Result | None = None
        self.typed = ""
        """What was answered, as it was typed."""
        self._looked = False
        """Whether the cursor was moved since the exercise was set."""
        self.due = due
        """Ids of exercises that are due to be repeated, set before any new one."""
        self.number = self.done = self.right = 0

    def compose_below(self) -> ComposeResult:
        """Lay out the line on which a number is typed."""
        yield TypeLine(
            said("exercise.type"), id="line", blink=bool(getattr(self.app, "blink", True)), clears=True
        )

    def on_mount(self) -> None:
        """Make the first exercise."""
        self.query_one("#line").display = False
        self.action_next()

    @property
    def view(self) -> ExerciseView | None:
        """Return the exercise as it stands; None while one is made."""
        if self.exercise is None:
            return None
        counts = (self.number, self.right, self.done)
        case = self.desk.case(self.exercise.case)
        return exercise_view(self.exercise, self.result, self.typed, case, counts, self.desk.units)

    def show_all(self) -> None:
        """Show the exercise, beside what was said of the golfer that it is about."""
        view = self.view
        if view is None:
            return
        self.set_class(not view.result[1:] and not view.asks[1:], "alone")
        self.show("heading", lambda width, glyphs: exercise_heading(view, width))
        self.show("list", lambda width, glyphs: exercise_rows(view, width, glyphs))
        self.show("detail", lambda width, glyphs: working_rows(view, width))
        line = self.query_one("#line")
        line.display = not view.options and not view.answered
        (line if line.display else self.pane("list")).focus()
        self.tell("")

    # Answers

    def on_key(self, event: events.Key) -> None:
        """Answer by a digit."""
        exercise = self.exercise
        if exercise is not None and exercise.options and event.character and event.character.isdigit():
            event.stop()
            self.answer(event.character)

    @on(Pane.Chosen, "#list")
    def _chosen(self, event: Pane.Chosen) -> None:
        """Answer with the option that was chosen; from the verdict go on.

        Enter alone answers nothing: a second press, meant for the exercise before, would.
        """
        event.stop()
        if event.target == NEXT and self.result is not None:
            self.make_next()
        elif self._looked:
            self.answer(event.target)
        else:
            self.tell(said("exercise.answer_first"), alert=True)

    @on(Pane.Moved, "#list")
    def _moved(self, event: Pane.Moved) -> None:
        """Note that the options are being looked through."""
        event.stop()
        options = self.exercise.options if self.exercise is not None and self.result is None else ()
        self._looked = self._looked or event.target in {one.id for one in options[1:]}

    @on(Input.Submitted, "#line")
    def _entered(self, event: Input.Submitted) -> None:
        """Answer with the number that was typed."""
        event.stop()
        if event.value.strip():
            self.answer(event.value)

    def answer(self, text: str) -> None:
        """Mark an answer and show the computation; what cannot be read is told and changes nothing."""
        if self.exercise is None or self.result is not None:
            return
        try:
            self.result = answered(self.exercise, text)
        except Problem as problem:
            self.tell_problem(problem)
            return
        self.typed = text
        self.done += 1
        self.right += self.result.right
        verdict = "right" if self.result.right else "wrong"
        self.desk.record(self.exercise.id, self.exercise.kind, self.result.earned, verdict)
        self.show_all()
        self.pane("list").scroll_to(y=0, animate=False)

    # The next one

    def action_next(self) -> None:
        """Make the next exercise, away from the keys: one that is due, or a new one."""
        if self.exercise is not None and self.result is None:
            self.tell(said("exercise.answer_first"), alert=True)
            return
        self.make_next()

    def make_next(self) -> None:
        """Make another exercise, away from the keys; the newest wins."""
        again, self.due = self.due[:1], self.due[1:]
        seed = self.desk.next_seed()
        self.tell(said("exercise.making"))
        work = partial(self._make, again[0] if again else "", self.kind or mixed(seed), seed)
        self.run_worker(work, thread=True, exclusive=True, group="exercise")

    def _make(self, again: str, kind: Kind, seed: int) -> None:
        """Make an exercise; away from the keys."""
        worker = get_current_worker()
        try:
            with self.desk.one_at_a_time:
                cases = self.desk.cases
                found = Made(remake(again, cases) if again else make(kind, cases, seed))
        except Problem as problem:
            found = Made(trouble=str(problem))
        if not worker.is_cancelled:
            self.post_message(found)

    @on(Made)
    def _made(self, event: Made) -> None:
        """Set the exercise that was made."""
        event.stop()
        if event.exercise is None:
            self.tell_problem(event.trouble)
            return
        self.exercise, self.result, self._looked = event.exercise, None, False
        self.number += 1
        self.show_all()

    def action_kinds(self) -> None:
        """Choose which kind is set."""
        keys = {str(number): kind for number, kind in enumerate(("mixed", *_kinds()))}
        screen = ListScreen(said("exercise.choose"), kinds_rows, keys, ("f2",))
        self.app.push_screen(screen, self._took_kind)

    def _took_kind(self, kind: str | None) -> None:
        """Set exercises of another kind."""
        if kind:
            self.kind = None if kind == "mixed" else next(one for one in _kinds() if one == kind)
            self.make_next()

    def action_due(self) -> None:
        """Set what is due to be repeated."""
        if not self.desk.trainee:
            self.tell(said("exercise.nobody"), alert=True)
            return
        self.due = self.desk.due_exercises()
        if self.due:
            self.make_next()
        else:
            self.tell(said("exercise.nothing_due"))


def _kinds() -> tuple[Kind, ...]:
    """Return every kind of exercise."""
    from rules.lessons.exercises import KINDS

    return KINDS
