"""The desk behind the bay: hears what happened, keeps it at once, and runs the road, newest answer first.

It knows no screen. `hear` is quick and says what there is to do; `run` takes its time and may be called
from another thread; a job that a newer one has overtaken comes to nothing.
"""

from __future__ import annotations

import os
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, cast, get_args

from interview.conversation import Conversation, Event, FoundOpen, FoundSteady
from interview.kiosk.ticket import KEPT_FOR as TICKET_KEPT
from interview.session import Session, with_details, with_record
from interview.session.recorded import with_run
from interview.store import StoreProblem, rescue

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.store import Draft

Change = Callable[[Session], Session]
"""A change of the session that is no answer: a decision overruled, a note, a club of his own."""
Step = Event | Change
"""Anything that may happen at the desk."""


@dataclass(frozen=True, slots=True)
class Job:
    """What there is to do because of the newest steps."""

    number: int
    steps: tuple[Step, ...]
    session: Session
    """What is to be kept before anything else."""


class Desk:
    """One fitting: its state, where it is kept, and what is still to be worked out."""

    def __init__(self, conversation: Conversation, draft: Draft, state: State) -> None:
        self.conversation = conversation
        self.draft = draft
        self.state = state
        """The state as last worked out."""
        self.seen = state
        """The state as heard: what was said is in, what follows from it may not be yet."""
        self.trouble = ""
        """Why what was heard last is in memory only, in one sentence; empty while it is kept."""
        self._pending: tuple[Step, ...] = ()
        self._number = 0
        self._kept = self._tried = 0
        self._keeping = threading.Lock()
        self._running = threading.Lock()

    @property
    def busy(self) -> bool:
        """Return whether something heard is not worked out yet."""
        return bool(self._pending)

    def hear(self, step: Step) -> Job | None:
        """Take a step in, and return what there is to do; None when nothing changed that needs work.

        An answer that cannot be read leaves everything as it was, with `seen.refusal` saying why. Nothing
        is taken that belongs to a question which is not on the screen yet (see `waits`). Raises what the
        step raises where it cannot be done at all.
        """
        if self.waits(step):
            return None
        before = self.seen
        heard = _stepped(self._quick(before), before, step)
        heard = replace(heard, steady=heard.steady or (before.steady and heard.outcome is before.outcome))
        if heard.refusal is not None:
            self.seen = replace(before, refusal=heard.refusal)
            return None
        self.seen = heard
        if heard.session == before.session and not self._pending:
            self.state = heard
            return None
        self._number += 1
        if heard.session.subject == before.session.subject and not self._pending:
            self.state = heard
            return Job(self._number, (), heard.session)
        self._pending = (*self._pending, step)
        return Job(self._number, self._pending, heard.session)

    def waits(self, step: Step) -> bool:
        """Return whether a step has to wait: it belongs to the question on the screen, which is answered.

        While that answer is being worked out, the next question is not up, so nobody can have meant it. An
        answer to another question that is being worked out leaves the one on the screen where it is.
        """
        of_screen = isinstance(step, get_args(Event)) and cast("Event", step).turn is not None
        return of_screen and self.busy and self.seen.turn != self.state.turn

    def _quick(self, state: State) -> Conversation:
        """Return the conversation with the road left out: what follows stays what it was."""
        return replace(self.conversation, fit=lambda _: state.outcome)

    @property
    def kept(self) -> bool:
        """Return whether everything that was heard is on the disk."""
        return self._kept >= self._number

    @property
    def whereabouts(self) -> str:
        """Say in a word or two whether what was heard is on the disk."""
        if self.trouble:
            return "NOT KEPT"
        if not self.kept:
            return "keeping"
        if not os.path.exists(self.draft.file):
            return "nothing kept yet"
        until = self.draft.session.record.expires
        return f"kept to {until:%d %b}" if until else "kept"

    def run(self, job: Job) -> State | None:
        """Keep what changed, then work out what follows; None when a newer job has overtaken this one."""
        self.keep(job)
        with self._running:
            return self._followed(job) if job.number == self._number else None

    def _followed(self, job: Job) -> State:
        """Walk from the last state through the steps; only the last of them needs the road."""
        state = self.state
        for step in job.steps[:-1]:
            state = _stepped(self._quick(state), state, step)
        return _stepped(self.conversation, state, job.steps[-1]) if job.steps else state

    def accept(self, job: Job, state: State) -> bool:
        """Make a state that was worked out the one that counts, unless it was overtaken."""
        if job.number != self._number:
            return False
        if self.draft.id != state.session.id:
            state = replace(state, session=replace(state.session, id=self.draft.id))
        if self.state.steady and not state.steady:  # what was found stands until it is tried again
            state = self.conversation.step(state, FoundSteady())
        self.state = self.seen = state
        self._pending = ()
        return True

    def found(self, state: State, *, steady: bool) -> bool:
        """Take in whether the pick of a state is steady; return whether that was news of what counts now."""
        if self._pending or state.outcome is not self.state.outcome or steady == self.state.steady:
            return False
        event = FoundSteady() if steady else FoundOpen()
        self.state = self.seen = self.conversation.step(self.state, event)
        return True

    def drop(self, job: Job) -> None:
        """Take back the steps of a job that could not be done; what was said before them stands."""
        if job.number == self._number:
            self.seen = self.state
            self._pending = ()

    def keep(self, job: Job) -> None:
        """Keep the session of a job, once, unless a newer one is kept already.

        Where its place takes nothing, `trouble` says why; it stays in memory, and the next job tries again.
        """
        with self._keeping:
            if job.number > max(self._kept, self._tried):
                self._tried = job.number
                self._save(job.number, job.session)

    def _save(self, number: int, session: Session) -> None:
        """Write a session to its file, or note why that cannot be."""
        try:
            self.draft.save(self._marked(session))
        except StoreProblem as problem:
            self.trouble = str(problem)
        else:
            self.trouble, self._kept = "", number

    def _marked(self, session: Session) -> Session:
        """Return a session as it is kept: under its draft's id, with what was decided when it last ran.

        That may be of one answer before; the record says of which answers it is.
        """
        ran = self.state
        marked = with_run(session, ran.session, ran.outcome)
        return replace(renewed(marked, date.today()), id=self.draft.id)

    def keep_all(self) -> None:
        """Keep what was heard last, whatever is still being worked out; `trouble` says why it cannot be.

        What was decided on it is kept as well, where that was worked out only after it was kept.
        """
        with self._keeping:
            late = self._kept > 0 and not self._pending
            if self._number > self._kept or late:
                self._save(self._number, self.seen.session)

    def keep_elsewhere(self, folder: Path) -> None:
        """Keep the session in another folder from here on; CannotKeep or Busy where that cannot be."""
        with self._keeping:
            kept = self.draft.elsewhere(folder, self._marked(self.seen.session))
            self.trouble, self._kept = "", self._number
        self.seen = replace(self.seen, session=replace(self.seen.session, id=kept.id))
        self.state = replace(self.state, session=replace(self.state.session, id=kept.id))

    def rescue(self) -> Path | None:
        """Keep what is in memory wherever it can be; return its file, or None where nothing takes it."""
        with self._keeping:
            file = rescue(self.draft, self._marked(self.seen.session))
            self.trouble = "" if file else self.trouble
        return file

    def notices(self) -> tuple[str, ...]:
        """Return what the person should know of the file, each sentence once."""
        found = tuple(self.draft.notices)
        self.draft.notices.clear()
        return found


def _stepped(conversation: Conversation, state: State, step: Step) -> State:
    """Return what a step makes of a state."""
    if isinstance(step, get_args(Event)):
        return conversation.step(state, cast("Event", step))
    return conversation.with_session(state, cast("Change", step)(state.session))


def renewed(session: Session, today: date) -> Session:
    """Return a session that a fitter works on, kept as many days more as a ticket is kept at first.

    The golfer's consent stays as it was given; a session without a day on which it is forgotten has none now.
    """
    until = session.record.expires
    if until is None:
        return session
    return with_record(session, expires=max(until, today + TICKET_KEPT))


def sit_down(conversation: Conversation, draft: Draft) -> Desk:
    """Sit down to a session, begun or resumed; here it is talked of in the fitter's words."""
    until = draft.session.record.expires
    if until is not None:
        draft.notices.append(
            f"a golfer let this ticket be kept to {until:%d %b %Y}; what you change in it keeps it "
            f"{TICKET_KEPT.days} days more, and F10 'keep for good' for good if the golfer agrees"
        )
    draft.session = with_details(draft.session, voice="fitter")
    return Desk(conversation, draft, conversation.start(draft.session))
