"""The road, run away from the keys: what was said is kept, then worked out, then told to the screen."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from textual import on
from textual.message import Message
from textual.screen import Screen
from textual.worker import get_current_worker

from interview.screens.bay import faces
from interview.screens.bay.desk import Desk, Job
from interview.views.bay.ahead import AheadView, ahead, ahead_words
from interview.views.bay.firm import Firm, firmness
from interview.views.bay.questions import talk_view
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.screens.bay.desk import Step
    from interview.screens.bay.talk import TalkColumn


class Kept(Message):
    """What was heard is on the disk."""


class WorkedOut(Message):
    """What follows from the newest answer was worked out."""

    def __init__(self, job: Job, state: State) -> None:
        super().__init__()
        self.job = job
        self.state = state


class CouldNot(Message):
    """Something that was said could not be kept or worked out."""

    def __init__(self, job: Job, sentence: str) -> None:
        super().__init__()
        self.job = job
        self.sentence = sentence


class LookedAhead(Message):
    """The answers of a question were tried out."""

    def __init__(self, found: AheadView) -> None:
        super().__init__()
        self.found = found


class Studied(Message):
    """How firm the pick is became better known."""

    def __init__(self, state: State, firm: Firm) -> None:
        super().__init__()
        self.state = state
        self.firm = firm


class Road(Screen[None]):
    """A screen that lets a desk hear things and shows what follows; a newer answer overtakes an older one."""

    desk: Desk
    noted = ""
    """How the last thing was understood, where it stands nowhere else on the screen."""

    def step(self, step: Step, noted: str = "") -> None:
        """Let the desk hear something, say how it was understood, and work out what follows behind it."""
        self.noted = ""
        try:
            job = self.desk.hear(step)
        except Problem as problem:
            self._tell_all(f"{problem}.")
            return
        self.noted = noted
        self.show_talk()
        if job is not None:
            self.run_worker(lambda: self._work(job), thread=True, exclusive=True, group="road")
        elif not self.desk.busy:
            self.look_ahead()

    def _work(self, job: Job) -> None:
        """Work a job out, away from the keys. It posts what it finds, and waits for nothing."""
        worker = get_current_worker()
        try:
            self.desk.keep(job)
            self.post_message(Kept())
            state = self.desk.run(job)
        except Problem as problem:
            self.post_message(CouldNot(job, str(problem)))
            return
        if state is not None and not worker.is_cancelled:
            self.post_message(WorkedOut(job, state))

    @on(Kept)
    def _kept(self) -> None:
        """Say that what was heard is kept."""
        self.show_talk()

    @on(WorkedOut)
    def _worked_out(self, event: WorkedOut) -> None:
        """Show what was worked out, unless something newer has overtaken it."""
        before = self.desk.state
        if self.desk.accept(event.job, event.state):
            for screen in self.app.screen_stack:
                follow = getattr(screen, "follow", None)
                if follow is not None:
                    follow(before, self.desk.state)
            self.show_talk()
            self.show_follows()
            self.look_ahead()

    @on(CouldNot)
    def _could_not(self, event: CouldNot) -> None:
        """Take a step back that could not be done, and say why."""
        self.desk.drop(event.job)
        self.noted = ""
        self.show_talk()
        self._tell_all(f"{event.sentence}.")

    def _tell_all(self, text: str) -> None:
        """Tell why something was not done, on whatever screen it was asked for."""
        self.tell(text, alert=True)
        for screen in self.app.screen_stack:
            could_not = getattr(screen, "could_not", None)
            if could_not is not None:
                could_not(self.desk.seen, text)

    def look_ahead(self) -> None:
        """Say what hangs on the question that is up, and find out in the background what it could change."""
        state = self.desk.state
        self.show_stake()
        if getattr(self.app, "looks_ahead", True):
            self.run_worker(lambda: self._try_answers(state), thread=True, exclusive=True, group="ahead")

    def show_stake(self) -> None:
        """Say what hangs on the question that is up."""
        self.talk_column.show_ahead(faces.at_stake(talk_view(self.desk.conversation, self.desk.state)))

    def _try_answers(self, state: State) -> None:
        """Try the answers of the question that is up, away from the keys, until something newer is said."""
        worker = get_current_worker()

        def overtaken() -> bool:
            return worker.is_cancelled or self.desk.busy or self.desk.state.outcome is not state.outcome

        found = ahead(self.desk.conversation, state, overtaken)
        if found is not None and not overtaken():
            self.post_message(LookedAhead(found))
        for firm in firmness(state.outcome, overtaken):
            self.post_message(Studied(state, firm))

    @on(LookedAhead)
    def _looked_ahead(self, event: LookedAhead) -> None:
        """Say what the question could change."""
        if event.found.question == self.desk.state.asking:
            self.talk_column.show_ahead(ahead_words(event.found))

    @on(Studied)
    def _studied(self, event: Studied) -> None:
        """Show how firm the pick is."""
        if event.state.outcome is not self.desk.state.outcome:
            return
        self.show_firm(event.firm)
        typing = bool(self.talk_column.line.value)
        if event.firm.steady is None or (event.firm.steady and typing):
            return  # a question that is being answered stays
        if self.desk.found(event.state, steady=event.firm.steady):
            self.show_question()
            self.show_stake()

    # What the screen itself shows

    def show_firm(self, firm: Firm) -> None:
        """Show how firm the pick is."""
        raise NotImplementedError

    @property
    def talk_column(self) -> TalkColumn:
        """Return the column of the talk."""
        return cast("TalkColumn", self.query_one("#talk"))

    def show_talk(self) -> None:
        """Show what was said and the question that is up."""
        raise NotImplementedError

    def show_question(self) -> None:
        """Show the question that is up, and leave what was told."""
        raise NotImplementedError

    def show_follows(self) -> None:
        """Show what follows from what was said."""
        raise NotImplementedError

    def tell(self, text: str, *, alert: bool = False) -> None:
        """Tell something in the line above the keys."""
        raise NotImplementedError
