"""The interview line by line: one question, one line, one answer, kept at once."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Literal

from interview.broken import one_word
from interview.commands.ask.lines import Lines
from interview.commands.ask.showing import asked, list_lines, question_lines, topic_line, why
from interview.commands.ask.spoken import Spoken, question_names, spoken
from interview.conversation import (
    Answered,
    Conversation,
    Event,
    FoundSteady,
    PassedOver,
    WentBack,
    WentOn,
    WentTo,
    Withdrew,
)
from interview.session import ValueFault
from interview.session.recorded import with_run
from interview.store import StoreProblem, another_place

if TYPE_CHECKING:
    from interview.session import Session
    from interview.store import Draft
    from rules.fitting import Outcome
    from rules.units import System

Ending = Literal["done", "quit"]
"""How an interview ended: with the outcome to be told, or put away for later."""

_TOLD = ("body", "claim")
"""Topics of cautions that are told the moment an answer brings them up; the others wait for the outcome."""


class LineTalk:
    """One interview in progress: the state, where it is kept, and the lines it goes over."""

    def __init__(self, conversation: Conversation, draft: Draft, lines: Lines, units: System) -> None:
        self.conversation = conversation
        self.draft = draft
        self.lines = lines
        self.units = units
        self.state = conversation.start(draft.session)
        self.trouble = ""
        """Why what was said last could not be kept, in one sentence; empty while all is kept."""
        self._topic = ""
        self._told: set[str] = set()
        self._names = question_names(conversation.base.facts)

    def run(self) -> Ending:
        """Talk until the person is done, puts it away, or has no more lines."""
        self._tell_notices()
        self._tell_cautions()
        self._show()
        while True:
            line = self.lines.ask()
            if line is None:
                return "done"
            said = spoken(line, self._names)
            if said.word in ("done", "quit") or (said.word == "nothing" and self.state.asking is None):
                return "quit" if said.word == "quit" else "done"
            try:
                self._do(said)
            except ValueFault as fault:
                self.lines.say(f"{fault}.")

    def _say(self, key: str, **values: object) -> None:
        self.lines.say(self.conversation.wording.say(key, self.state.session.voice, **values))

    def _do(self, said: Spoken) -> None:
        """Do what one line asks for."""
        if said.word == "help":
            self._say("ask.help")
        elif said.word == "list":
            for line in list_lines(self.conversation, self.state, self.units):
                self.lines.say(line, indent="  " if line.startswith(" ") else "")
        elif said.word == "why":
            self._tell_why(said.question or self.state.asking)
        elif said.word == "balls":
            self._hit_balls()
        elif said.word == "keep":
            self._keep_elsewhere(said.text)
        elif (event := self._event(said)) is not None:
            self._step(event)
        else:
            self._say("ask.nothing" if self.state.asking else "ask.no_question")

    def _hit_balls(self) -> None:
        """Log the balls of a trial, then go on with the question on the screen."""
        from interview.commands.ask.balls import LineBalls

        LineBalls(self).run()
        self._show()

    def take(self, session: Session) -> None:
        """Take up a session that was changed beside the questions, and keep it at once."""
        self.state = self.conversation.with_session(self.state, session)
        self._keep()

    def _tell_why(self, question: str | None) -> None:
        if question is None:
            self._say("ask.no_question")
        else:
            self.lines.say(why(self.conversation, self.state, question))

    def _event(self, said: Spoken) -> Event | None:
        """Return the event that a line stands for; None when there is no question for it."""
        if said.word == "back":
            return WentBack()
        if said.word == "on" and self.state.asking is None:
            return WentOn()
        question = said.question or self.state.asking
        if question is None or said.word == "nothing":
            return None
        if said.word == "answer":
            return Answered(question, said.text)
        if said.word == "skip":
            return PassedOver(question)
        if said.word == "clear":
            return Withdrew(question)
        return WentTo(question) if said.word == "go" else None

    def _step(self, event: Event) -> None:
        """Take an event, keep what it changed, and show what comes next."""
        before = self.state
        self.state = self.conversation.step(self.state, event)
        if self.state.refusal is not None:
            self.lines.say(f"{self.state.refusal.sentence}.")
            return
        self._look_for_steady(before.outcome)
        self._keep()
        self._tell_cautions()
        if self.state.turn != before.turn:
            self._show()
        else:
            self._say("ask.nowhere" if self.state == before else "ask.noted")
            self._show_again()

    def _look_for_steady(self, before: Outcome) -> None:
        """Stop asking once no plausible answer changes the pick."""
        if self.state.outcome is not before and self.conversation.is_steady(self.state.outcome):
            self.state = self.conversation.step(self.state, FoundSteady())

    @property
    def marked(self) -> Session:
        """Return the session as it is kept: with what was decided on it, and by which rules."""
        return with_run(self.state.session, self.state.session, self.state.outcome)

    def keep_all(self) -> None:
        """Keep what was said last, in the middle of whatever was being done, and note whether that failed."""
        if self.state.session == self.draft.session:
            return
        try:
            self.draft.save(self.marked)
            self.trouble = ""
        except StoreProblem as problem:
            self.trouble = str(problem)

    def _keep(self) -> None:
        """Keep the session; a version that had to be kept beside another goes on under its new id.

        Where it cannot be kept it stays in memory, that is said, and the next answer tries again.
        """
        if self.state.session == self.draft.session:
            return
        try:
            kept = self.draft.save(self.marked)
        except StoreProblem as problem:
            self._tell_trouble(problem)
            return
        self._go_on_with(kept)

    def _keep_elsewhere(self, folder: str) -> None:
        """Keep the session in another folder from here on."""
        try:
            kept = self.draft.elsewhere(Path(folder), self.marked)
        except StoreProblem as problem:
            self._tell_trouble(problem)
            return
        self.trouble = self.trouble or folder
        self._go_on_with(kept)
        self._show_again()

    def _go_on_with(self, kept: Session) -> None:
        """Go on with a session as it was kept, and say so where it was not before."""
        self.state = self.conversation.with_session(self.state, kept)
        if self.trouble:
            self.trouble = ""
            self._say("ask.kept_again", file=one_word(self.draft.file))
        self._tell_notices()

    def _tell_trouble(self, problem: StoreProblem) -> None:
        """Say at once, and once, that what was said is in memory only, and where else it could be kept."""
        if str(problem) != self.trouble:
            self.lines.say(f"{problem}.")
            self._say("ask.in_memory", folder=one_word(another_place()))
        self.trouble = str(problem)

    def _tell_notices(self) -> None:
        """Tell what became of the file, where that is not what one would expect."""
        for notice in self.draft.notices:
            self.lines.say(f"({notice}.)")
        self.draft.notices.clear()

    def _tell_cautions(self) -> None:
        """Tell the cautions that an answer has just brought up."""
        for notice in self.state.outcome.notices:
            text = notice.text(self.units)
            if notice.topic in _TOLD and text not in self._told:
                self._told.add(text)
                self.lines.say(text)

    def _tell_sure(self) -> None:
        """Tell the trade how good the answers are, where no open question matters: that is another thing."""
        if self.state.stage == "enough" and self.state.session.voice != "customer":
            share = self.conversation.how_sure(self.state.outcome)
            if share is not None:
                self._say("ask.sure", share=f"{share * 100:.0f}")

    def _show_again(self) -> None:
        """Repeat the question that stays, without its choices."""
        if self.state.asking is not None:
            self.lines.say(asked(self.conversation, self.state, self.state.asking).text)

    def _show(self) -> None:
        """Show the question on the screen, or where the interview stands without one."""
        question = self.state.asking
        if question is None:
            self.lines.say()
            self._say(f"interview.{self.state.stage}", count=len(self.state.open))
            self._tell_sure()
            self._say(f"ask.then.{self.state.stage}")
            return
        ask = self.conversation.base.facts[question].ask
        if ask is not None and ask.topic != self._topic:
            self._topic = ask.topic
            self.lines.say()
            self.lines.say(topic_line(self.conversation, self.state, ask.topic))
        self.lines.say()
        for line in question_lines(self.conversation, self.state, question, self.units):
            self.lines.say(line, indent="  " if line.startswith(" ") else "")
